"""The set-up sheet: how one cable is ended in one connector, at one revision."""

from reelwright.documents.set_up_sheet.content import (
    NOT_FOR_ORDERS,
    CautionRow,
    Figure,
    PhotographPrint,
    PointRow,
    PullProof,
    RevisionRow,
    SetUpPaper,
)
from reelwright.documents.set_up_sheet.paper import render_set_up_sheet
from reelwright.documents.set_up_sheet.results import (
    BladePrint,
    CrimpPrint,
    MeasuredRow,
    ModeRow,
    TipPrint,
    Told,
    WeldPrint,
)

__all__ = [
    "NOT_FOR_ORDERS",
    "BladePrint",
    "CautionRow",
    "CrimpPrint",
    "Figure",
    "MeasuredRow",
    "ModeRow",
    "PhotographPrint",
    "PointRow",
    "PullProof",
    "RevisionRow",
    "SetUpPaper",
    "TipPrint",
    "Told",
    "WeldPrint",
    "render_set_up_sheet",
]
