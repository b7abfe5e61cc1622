"""What is looked at on a made end, and the rules that cautions remind of."""

import pytest

from reelwright.core.ends.care.cautions import DEFER, RULES_BASIS, Job, cautions
from reelwright.core.ends.order.inspection import SOURCE, InspectionPoint, inspection_points
from reelwright.core.errors import BadValue
from reelwright.core.parts.connector import Method
from reelwright.core.verdicts import Basis


@pytest.mark.parametrize("method", list(Method))
def test_every_method_says_how_good_and_bad_look(method: Method) -> None:
    """At least three things to look at, no name twice, and both looks told apart."""
    points = inspection_points(method)
    assert len(points) >= 3
    assert len({point.name for point in points}) == len(points)
    assert all(point.good != point.bad for point in points)


def test_the_looks_are_said_to_be_common_practice() -> None:
    """No published source is claimed for them."""
    assert SOURCE.basis is Basis.COMMON_PRACTICE
    with pytest.raises(BadValue):
        InspectionPoint(name="pin", good="", bad="bent")


def test_a_crimped_end_looks_for_a_strand_forward_and_a_conductor_in_its_hole() -> None:
    """The two faults that a lamp or an eye finds before any instrument does."""
    told = {point.name: point for point in inspection_points(Method.CRIMP_CRIMP)}
    assert "short" in told["braid"].bad
    assert "hole" in told["pin"].good


@pytest.mark.parametrize("method", list(Method))
def test_every_caution_names_a_public_rule_and_the_last_one_defers(method: Method) -> None:
    """Each names a rule by number, from memory; local rules and the machine's manual come first."""
    told = cautions(Job(methods=(method,), fluoropolymer=True, line_v=100.0, test_v=500.0))
    assert told[-1].sentence == DEFER
    assert all(
        any(rule in caution.rules for rule in ("ISO ", "IEC ", "EN ", "CFR ", "Directive "))
        for caution in told[:-1]
    )
    assert RULES_BASIS is Basis.FROM_MEMORY


def test_presses_welders_and_irons_remind_of_their_own_rules() -> None:
    """Two hands and lock-out at the press, noise at the welder, fume and lead at the iron."""

    def rules(method: Method) -> str:
        job = Job(methods=(method,), fluoropolymer=False, line_v=None, test_v=None)
        return " ".join(caution.rules for caution in cautions(job))

    assert "ISO 13851" in rules(Method.CRIMP_CRIMP)
    assert "29 CFR 1910.147" in rules(Method.CRIMP_CRIMP)
    assert "29 CFR 1910.95" in rules(Method.WELD)
    assert "1910.1025" in rules(Method.SOLDER)
    assert "IEC 60825-2" in rules(Method.POLISH)
