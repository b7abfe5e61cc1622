"""The bench traveller: one A5 page for one order line at one set-up."""

from reelwright.documents.traveller.content import (
    STRIP_ROOM_MM,
    Die,
    PinRow,
    Traveller,
    TravellerEnd,
    Travellers,
)
from reelwright.documents.traveller.paper import render_traveller

__all__ = [
    "STRIP_ROOM_MM",
    "Die",
    "PinRow",
    "Traveller",
    "TravellerEnd",
    "Travellers",
    "render_traveller",
]
