"""Whether conductors and contacts can carry what the signal needs, whatever their sizes."""

from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.impedance import ImpedanceMatch, impedance_class
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.quantities.show import show_plain
from reelwright.core.verdicts import Reason

_COUNTED = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight")


def judge_logic(
    *, cable: Cable, connector_a: Connector, connector_b: Connector, needs: SignalNeeds
) -> tuple[Reason, ...]:
    """Return every reason of logic against the pair; empty: nothing against it.

    Follows from counting conductors and contacts; impedances by ``parts.impedance``, where one
    that is near its class is doubtful and no reason against.
    """
    reasons = _judge_cable(cable, needs)
    # The same connector at both ends has one reason, not two.
    for connector in dict.fromkeys((connector_a, connector_b)):
        reasons += _judge_connector(connector, needs)
    return tuple(reasons)


def _judge_cable(cable: Cable, needs: SignalNeeds) -> list[Reason]:
    reasons = []
    has = _describe_conductors(cable)
    if needs.balanced and cable.conductors < 2:
        reasons.append(
            Reason(
                code="cable_cannot_be_balanced",
                sentence=(
                    f"{cable.code} is {cable.family.one} and has {has}; a balanced line "
                    "needs two like conductors inside the screen"
                ),
            )
        )
    elif cable.conductors < needs.legs:
        reasons.append(
            Reason(
                code="too_few_conductors",
                sentence=(
                    f"the signal needs {_count(needs.legs, 'conductor')}; {cable.code} has {has}"
                ),
            )
        )
    if needs.phantom_power and cable.conductors < 2:
        reasons.append(
            Reason(
                code="phantom_needs_two_legs",
                sentence=(
                    "phantom power travels on both legs of a balanced line and returns on the "
                    f"screen; {cable.code} has no second leg"
                ),
            )
        )
    if needs.screen and not cable.screened:
        reasons.append(
            Reason(
                code="no_screen",
                sentence=f"the signal needs a screen; {cable.code} has none",
            )
        )
    if needs.impedance_ohm is not None and cable.sheet.impedance_ohm is not None:
        own = cable.sheet.impedance_ohm
        if impedance_class(needs.impedance_ohm).match(own) is ImpedanceMatch.OTHER:
            reasons.append(
                Reason(
                    code="cable_of_other_impedance",
                    sentence=(
                        f"the signal needs {show_plain(needs.impedance_ohm, 'Ω')}; "
                        f"{cable.code} has {show_plain(own, 'Ω')}"
                    ),
                )
            )
    return reasons


def _judge_connector(connector: Connector, needs: SignalNeeds) -> list[Reason]:
    reasons = []
    if needs.balanced and not connector.carries_balanced:
        sentence = f"{connector.name} ({connector.code}) is unbalanced"
        if needs.phantom_power:
            sentence += (
                ": the balance ends there, and phantom power would put 48\u202fV on its input"
            )
        else:
            sentence += ": the balance ends there"
        reasons.append(Reason(code="connector_unbalanced", sentence=sentence))
    elif connector.contacts < needs.legs:
        reasons.append(
            Reason(
                code="too_few_contacts",
                sentence=(
                    f"the signal needs {_count(needs.legs, 'contact')}; "
                    f"{connector.name} ({connector.code}) has "
                    f"{_count(connector.contacts, 'contact')}"
                ),
            )
        )
    if needs.screen and not connector.shell_contact and connector.contacts <= needs.legs:
        reasons.append(
            Reason(
                code="screen_lands_nowhere",
                sentence=(
                    f"{connector.name} ({connector.code}) has no contact left for the screen"
                ),
            )
        )
    if (
        needs.impedance_ohm is not None
        and connector.impedance_ohm is not None
        and impedance_class(needs.impedance_ohm).match(connector.impedance_ohm)
        is ImpedanceMatch.OTHER
    ):
        reasons.append(
            Reason(
                code="connector_of_other_impedance",
                sentence=(
                    f"the signal needs {show_plain(needs.impedance_ohm, 'Ω')}; {connector.name} "
                    f"({connector.code}) is made for {show_plain(connector.impedance_ohm, 'Ω')}"
                ),
            )
        )
    return reasons


def _describe_conductors(cable: Cable) -> str:
    words = _count(cable.conductors, "light guide" if cable.family is Family.FIBRE else "conductor")
    return f"{words} and a screen" if cable.screened else words


def _count(number: int, noun: str) -> str:
    told = _COUNTED[number] if number < len(_COUNTED) else str(number)
    return f"{told} {noun}{'' if number == 1 else 's'}"
