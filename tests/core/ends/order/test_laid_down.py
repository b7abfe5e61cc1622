"""An order that a person lays down: kept as it is, filled up, and refused with its reasons."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.order.laid_down import in_order, judge_laid_down
from reelwright.core.ends.order.operation import EndWork
from reelwright.core.ends.order.steps import end_work, steps_of
from reelwright.core.verdicts import Outcome
from tests.core.ends.order.test_assembly import BOOTED, CRIMP, ORDER
from tests.ends_world import VID_70, back


def work() -> EndWork:
    """Return a crimped end whose boot does not pass what is fitted, its strip not laid down."""
    return end_work(replace(CRIMP, strip=None), cable=VID_70, connector=BOOTED)


def moved(code: str, *, before: str) -> list[str]:
    """Return the good order with one operation moved."""
    found = [each for each in ORDER if each != code]
    found.insert(found.index(before), code)
    return found


def codes(order: list[str]) -> list[str]:
    """Return what ``in_order`` makes of an order."""
    return [each.code for each in in_order(work(), order)]


def test_with_nothing_laid_down_the_worked_out_order_stands() -> None:
    """No code named: the operations come as worked out, and nothing speaks against them."""
    assert codes([]) == list(ORDER)
    assert judge_laid_down(work(), ORDER) == {}


@given(order=st.permutations(ORDER), kept=st.integers(0, len(ORDER)))
def test_what_is_laid_down_is_kept_and_the_rest_put_in(order: list[str], kept: int) -> None:
    """Named operations keep their order; every operation is there once, whatever is named."""
    named = order[:kept]
    found = codes(named)
    assert [code for code in found if code in named] == named
    assert sorted(found) == sorted(ORDER)


def test_an_operation_that_came_later_follows_all_it_follows_when_worked_out() -> None:
    """An order laid down before there was a burr: the trim comes in right after the strip."""
    order = ["thread ferrule", "thread boot", "strip", "pin", "body", "ferrule", "boot home"]
    assert codes(order)[2:5] == ["strip", "trim", "pin"]


def test_the_boot_cannot_be_threaded_once_the_body_is_on() -> None:
    """Told at the body, in millimetres; what only falls with it is not told again."""
    found = judge_laid_down(work(), moved("thread boot", before="boot home"))
    assert [code for code, (outcome, _) in found.items() if outcome is Outcome.BAD] == ["body"]
    told = found["body"][1]
    assert "boot onto the cable comes first" in told
    assert "bore 7.40\u202fmm" in told


def test_where_the_boot_passes_what_is_fitted_it_may_come_late() -> None:
    """The same order with a wider boot: only that the bared braid frays is minded."""
    wide = end_work(CRIMP, cable=VID_70, connector=back(BOOTED, boot_bore=9.0))
    found = judge_laid_down(wide, moved("thread boot", before="boot home"))
    assert {outcome for outcome, _ in found.values()} == {Outcome.CAUTION}
    assert list(found) == ["thread ferrule", "strip"]
    assert "frays" in found["strip"][1]


def test_each_step_out_of_its_place_is_told() -> None:
    """The pin before the strip and the boot after all: two faults, two reasons."""
    order = ["thread ferrule", "pin", "strip", "trim", "body", "ferrule", "thread boot"]
    found = judge_laid_down(work(), [*order, "boot home"])
    bad = [code for code, (outcome, _) in found.items() if outcome is Outcome.BAD]
    assert bad == ["pin", "body"]
    assert "bare conductor" in found["pin"][1]


def test_what_is_left_out_or_strange_is_told() -> None:
    """An order must hold every operation, and none that the end does not have."""
    found = judge_laid_down(work(), [*ORDER[:-1], "polish"])
    assert found["polish"][1].endswith("this end has no such step")
    assert found["boot home"] == (Outcome.BAD, "slide the boot home: it is left out")


def test_rings_slid_on_together_are_one_step_in_the_order_laid_down() -> None:
    """The ferrule before the boot: one step that names both in that order."""
    steps = steps_of(in_order(work(), ["thread ferrule", "thread boot"]))
    assert steps[0].text == "ferrule, then boot, onto the cable"
    assert steps[1].text == "strip with program 11"
