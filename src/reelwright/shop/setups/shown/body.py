"""What the body of an end sends back by itself, in one sentence."""

from reelwright.core.ends.fit.body_line import UNSEEN_REFLECTION, BodyReflection, body_reflection
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.physics.reflection import return_loss_db
from reelwright.core.quantities.show import show_plain, show_short
from reelwright.core.quantities.show_scaled import show_frequency_hz, show_quantity
from reelwright.core.verdicts import Reason

_SOURCE = "A line between two lines, without loss, from any text on lines"


def body_shown(cable: Cable, connector: Connector) -> str:
    """Return the return loss of an end's body alone, or why it is not computed.

    Nothing for a cable that is no line of a stated impedance. The frequency is the highest at which
    the cable's sheet gives a loss, for no record says what signal a set-up is made for.
    """
    if cable.sheet.impedance_ohm is None:
        return ""
    found = body_reflection(cable, connector)
    if isinstance(found, Reason):
        return f"Return loss of the body of {connector.code} alone: {found.sentence}."
    body = found.body
    told = (
        f"The body of {connector.code}, {show_plain(body.impedance_ohm, 'Ω')} over "
        f"{show_quantity(body.delay_s, 's', digits=3)}, has by itself, between two lines of "
        f"{show_plain(found.line_ohm, 'Ω')}, a return loss of {_at(found)}, the highest frequency "
        f"at which the sheet of {cable.code} gives a loss (no class of signal is recorded of "
        "a set-up)"
    )
    if found.worst_frequency_hz < found.frequency_hz:
        worst = _told(found.worst_return_loss_db)
        told += (
            f". The least below it is {worst} at "
            f"{show_frequency_hz(found.worst_frequency_hz)}, where the body is a "
            "quarter wave long"
        )
    return f"{told}. {_SOURCE}; {body.source}."


def _at(found: BodyReflection) -> str:
    return f"{_told(found.return_loss_db)} at {show_frequency_hz(found.frequency_hz)}"


def _told(found_db: float | None) -> str:
    if found_db is None:
        return f"more than {show_plain(round(return_loss_db(UNSEEN_REFLECTION)), 'dB')}"
    return show_short(found_db, "dB")
