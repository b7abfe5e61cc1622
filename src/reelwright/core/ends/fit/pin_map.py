"""Which contact goes to which, for a cable and two connectors."""

from dataclasses import dataclass

from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.connector import Connector
from reelwright.core.verdicts import Basis, Reason, Source

# What each mating face calls the contact that a conductor or the screen lands on. Contact 2 of a
# three-contact microphone connector is the leg that rises with the sound pressure (IEC 61076-2-103
# and AES14, from memory); tip and ring of a three-contact plug follow it.
_CONTACTS: dict[str, dict[str, str]] = {
    "bnc": {"centre": "centre", "screen": "shell"},
    "f": {"centre": "centre", "screen": "shell"},
    "phono": {"centre": "tip", "leg +": "tip", "screen": "shell"},
    "xlr3m": {"screen": "1", "leg +": "2", "leg −": "3"},
    "xlr3f": {"screen": "1", "leg +": "2", "leg −": "3"},
    "6.35 mm three-contact plug": {"screen": "sleeve", "leg +": "tip", "leg −": "ring"},
    "6.35 mm two-contact plug": {"leg +": "tip", "leg −": "sleeve"},
    "banana": {"leg +": "red", "leg −": "black"},
    "bare ends": {"leg +": "bare, marked", "leg −": "bare, plain", "screen": "bare, twisted"},
    "8p8c": {str(place): str(place) for place in range(1, 9)},
    "f05": {"fibre": "ferrule"},
}
_ALIASES = {
    "rca": "phono",
    "xlr-3m": "xlr3m",
    "xlr-3f": "xlr3f",
    "6.35 mm trs": "6.35 mm three-contact plug",
    "1/4 in three-contact plug": "6.35 mm three-contact plug",
    "4 mm plug": "banana",
    "loudspeaker plug": "banana",
}
# IEC 60603-7 places, arrangement B of TIA-568 (from memory).
_DATA_CORES = (
    "white of orange",
    "orange",
    "white of green",
    "blue",
    "white of blue",
    "green",
    "white of brown",
    "brown",
)


@dataclass(frozen=True, kw_only=True)
class PinRow:
    """One conductor and the contact it lands on at either end."""

    conductor: str
    contact_a: str
    contact_b: str


@dataclass(frozen=True, kw_only=True)
class PinMap:
    """All conductors in the order they are joined, with what a person must know beside it."""

    rows: tuple[PinRow, ...]
    notes: tuple[str, ...]
    source: Source


def pin_map(cable: Cable, connector_a: Connector, connector_b: Connector) -> PinMap | Reason:
    """Return the map, or the reason why none follows from the three.

    Straight through, each conductor on the contact of the same meaning. Where one end is balanced
    and the other is not, the answer depends on the equipment: asked, never guessed.
    """
    faces = []
    for connector in (connector_a, connector_b):
        face = _CONTACTS.get(_face(connector.mating))
        if face is None:
            return Reason(
                code="contacts_not_known",
                sentence=f"the contacts of {connector.name} ({connector.mating}) are not on record",
            )
        faces.append(face)
    rows = []
    for conductor, meaning in _conductors(cable):
        landing = [face.get(meaning) for face in faces]
        if landing[0] is None or landing[1] is None:
            return _no_contact(meaning, conductor, connector_a, connector_b, landing)
        rows.append(PinRow(conductor=conductor, contact_a=landing[0], contact_b=landing[1]))
    return PinMap(
        rows=tuple(rows),
        notes=_notes(cable, connector_a, connector_b),
        source=Source(
            text="contact numbers of the mating faces (IEC 61076-2-103, IEC 60603-7)",
            basis=Basis.FROM_MEMORY,
        ),
    )


def _face(mating: str) -> str:
    plain = " ".join(mating.replace("\u202f", " ").casefold().split())
    return _ALIASES.get(plain, plain)


def _conductors(cable: Cable) -> tuple[tuple[str, str], ...]:
    """Return (name on the bench, meaning) of each conductor, the screen first on a pair."""
    screen = (("screen", "screen"),) if cable.screened else ()
    match cable.family:
        case Family.COAX:
            return (("centre", "centre"), *screen)
        case Family.PAIR:
            return (*screen, ("core +", "leg +"), ("core −", "leg −"))
        case Family.LOUDSPEAKER:
            return (("core +", "leg +"), ("core −", "leg −"))
        case Family.DATA:
            return tuple((core, str(place)) for place, core in enumerate(_DATA_CORES, start=1))
        case Family.FIBRE:
            return (("fibre", "fibre"),)


def _no_contact(
    meaning: str,
    conductor: str,
    connector_a: Connector,
    connector_b: Connector,
    landing: list[str | None],
) -> Reason:
    where = connector_a if landing[0] is None else connector_b
    other = connector_b if landing[0] is None else connector_a
    if meaning == "leg −" and other.carries_balanced:
        return Reason(
            code="ask_how_balance_ends",
            sentence=(
                f"{where.name} has no contact for {conductor}: whether it is joined to the screen "
                f"or left open depends on the equipment at {other.name}. Ask what it is"
            ),
        )
    return Reason(
        code="conductor_lands_nowhere",
        sentence=f"{where.name} has no contact for {conductor} of this cable",
    )


def _notes(cable: Cable, connector_a: Connector, connector_b: Connector) -> tuple[str, ...]:
    notes = []
    if any(_face(c.mating).startswith("xlr") for c in (connector_a, connector_b)):
        notes.append("Shell not joined to contact 1 unless the order says so")
    if cable.family is Family.DATA:
        notes.append("Keep the two cores of a pair together to the contacts")
    if cable.family is Family.LOUDSPEAKER:
        notes.append("The marked core is + at both ends")
    return tuple(notes)
