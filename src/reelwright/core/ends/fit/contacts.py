"""Whether the conductors of a cable fill the contacts of a connector, whatever their sizes."""

from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.words import counted
from reelwright.core.verdicts import Basis, Check, Outcome, Source

_COUNTING = Source(text="conductors of the cable, contacts of the connector", basis=Basis.COMPUTED)

_SHELL_IS_A_CONTACT_BELOW = 3
"""A connector with one or two contacts needs its shell as the last one (coax, three-way plug)."""


def judge_contacts(cable: Cable, connector: Connector) -> Check:
    """Return whether every conductor finds a contact and no contact that is needed stays empty.

    The screen counts as a conductor. A shell counts as a contact where there are one or two others
    besides; with three and more it may stay open. Follows from counting.
    """
    ways = cable.conductors + cable.screened
    needed = connector.contacts
    if connector.shell_contact and connector.contacts < _SHELL_IS_A_CONTACT_BELOW:
        needed += 1
    places = connector.contacts + connector.shell_contact
    has = counted(
        cable.conductors, "light guide" if cable.family is Family.FIBRE else "conductor"
    ) + (" and a screen" if cable.screened else "")
    wants = counted(needed, "contact")
    if ways < needed:
        outcome = Outcome.BAD
        sentence = f"{cable.code} has {has}, {connector.code} needs {needed}"
    elif cable.conductors > connector.contacts:
        outcome = Outcome.BAD
        sentence = (
            f"{cable.code} has {has}, {connector.code} has "
            f"{counted(connector.contacts, 'contact')} for them"
        )
    elif ways > places:
        outcome = Outcome.CAUTION
        sentence = f"{cable.code} has {has}, and {connector.code} has no contact for the screen"
    else:
        outcome = Outcome.GOOD
        sentence = f"{cable.code} has {has}, {connector.code} takes them on {wants}"
    return Check(
        name="contacts",
        outcome=outcome,
        sentence=sentence,
        source=_COUNTING,
        value=has,
        limit=wants,
        margin=None,
        unit="",
    )
