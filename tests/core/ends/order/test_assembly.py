"""Order of assembly: worked out, and held against what somebody proposes."""

import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.order.assembly import operations_of, plan_order, sort_operations
from reelwright.core.ends.order.operation import EndWork, Need, Operation, Ring
from reelwright.core.ends.order.search import ProposedStep, judge_order
from reelwright.core.ends.order.steps import EndSetUp, end_work, order_of_work
from reelwright.core.parts.connector import Method
from reelwright.core.verdicts import Check, Outcome, Reason
from tests.ends_world import BANANA, BNC_70, SPK_14, VID_70, XLR_M, back, coax_strip, wire_strip

BOOTED = back(BNC_70, boot_bore=7.40)
CRIMP = EndSetUp(
    method=Method.CRIMP_CRIMP,
    strip=coax_strip(4.25, 5.0, 7.7),
    boot=True,
    program="11",
    pin_die="1.60",
    ferrule_die="8.23",
)
ORDER = (
    "thread boot",
    "thread ferrule",
    "strip",
    "trim",
    "pin",
    "body",
    "ferrule",
    "boot home",
)


def work(end: str = "A") -> EndWork:
    """Return one crimped end with boot, ferrule and a burr to trim."""
    return end_work(CRIMP, cable=VID_70, connector=BOOTED, end=end)


def proposed(*codes: str, end: str = "A") -> list[ProposedStep]:
    """Return a proposal for one end."""
    return [ProposedStep(end=end, code=code) for code in codes]


def without(code: str) -> list[ProposedStep]:
    """Return the good order less one step."""
    return proposed(*(each for each in ORDER if each != code))


def outcomes(checks: tuple[Check, ...]) -> dict[str, Outcome]:
    """Return what became of each step that is not good."""
    return {check.name: check.outcome for check in checks if check.outcome is not Outcome.GOOD}


def test_the_order_comes_out_of_what_each_step_needs() -> None:
    """Shuffled, the operations fall into an order in which every step has what it needs."""
    shuffled = list(operations_of(work()))
    random.Random(5).shuffle(shuffled)
    ordered = sort_operations(shuffled)
    assert not isinstance(ordered, Reason)
    assert [each.code for each in ordered] == list(ORDER)


@given(seed=st.integers(0, 10_000))
def test_any_start_gives_an_order_that_can_be_carried_out(seed: int) -> None:
    """Both ends' operations, however mixed, come out so that nothing is refused."""
    mixed = [each for end in "AB" for each in operations_of(work(end))]
    random.Random(seed).shuffle(mixed)
    ordered = sort_operations(mixed)
    assert not isinstance(ordered, Reason)
    steps = [ProposedStep(end=each.end, code=each.code) for each in ordered]
    assert outcomes(judge_order([work("A"), work("B")], steps)) == {}


def test_needs_in_a_circle_are_named() -> None:
    """Two steps that wait for each other have no order."""
    waits = [
        Operation(
            end="A",
            code=code,
            text=code,
            check=None,
            needs=(Need(code=other, because="it waits", must=True),),
        )
        for code, other in (("one", "two"), ("two", "one"))
    ]
    refused = sort_operations(waits)
    assert isinstance(refused, Reason)
    assert "one (A), two (A)" in refused.sentence


def test_nobody_can_assemble_an_end_whose_boot_was_not_threaded_first() -> None:
    """With the other end made: the body cannot go on, nor the boot go home, and the why is said."""
    checks = judge_order([work()], without("thread boot"), other_end_made=True)
    found = outcomes(checks)
    assert found["end A: body home until it clicks, stem under the braid"] is Outcome.BAD
    assert found["end A: slide the boot home"] is Outcome.BAD
    assert found["end A: boot onto the cable"] is Outcome.BAD
    told = " ".join(check.sentence for check in checks).replace("\u202f", " ")
    assert "bore 7.40 mm" in told
    assert "8.20 mm" in told


def test_while_the_other_end_is_open_a_forgotten_boot_comes_from_there() -> None:
    """A caution and not a refusal: it is slid over the whole cable."""
    late = [*without("thread boot")[:-1], *proposed("thread boot", "boot home")]
    checks = judge_order([work()], late)
    found = outcomes(checks)
    assert Outcome.BAD not in found.values()
    assert found["end A: boot onto the cable"] is Outcome.CAUTION
    told = next(check.sentence for check in checks if check.name == "end A: boot onto the cable")
    assert "other end, which is still open" in told


def test_rings_of_both_ends_are_on_before_the_second_is_closed() -> None:
    """End A closed without its boot, then B: the boot passes neither, and never comes on."""
    first = without("thread boot")[:-1]
    second = proposed(*ORDER, end="B")
    forgotten = proposed("thread boot", "boot home")
    both = [work("A"), work("B")]
    in_time = judge_order(both, [*first, *forgotten, *second])
    assert Outcome.BAD not in outcomes(in_time).values()
    too_late = judge_order(both, [*first, *second, *forgotten])
    found = outcomes(too_late)
    assert found["end A: boot onto the cable"] is Outcome.BAD
    assert found["end A: slide the boot home"] is Outcome.BAD


def test_a_boot_wider_than_the_fitted_end_may_come_at_any_time() -> None:
    """What passes over the ferrule need not be threaded first: only dimensions decide."""
    wide = end_work(CRIMP, cable=VID_70, connector=back(BNC_70, boot_bore=9.0))
    late = [*without("thread boot")[:-1], *proposed("thread boot", "boot home")]
    found = outcomes(judge_order([wide], late, other_end_made=True))
    assert Outcome.BAD not in found.values()


@pytest.mark.parametrize("code", [each for each in ORDER if each != "boot home"])
def test_no_step_can_be_left_out(code: str) -> None:
    """Leave any one out, with the other end made: something is refused, and it is named."""
    checks = judge_order([work()], without(code), other_end_made=True)
    missing = next(each for each in operations_of(work()) if each.code == code)
    bad = [check for check in checks if check.outcome is Outcome.BAD]
    assert len(bad) >= 2
    assert any(missing.text in check.name for check in bad)


def test_a_step_that_cannot_be_done_takes_what_rests_on_it_along() -> None:
    """Press the pin before the strip: neither pin, body nor ferrule stands."""
    steps = proposed("thread boot", "thread ferrule", "pin", "body", "ferrule")
    bad = [check.name for check in judge_order([work()], steps) if check.outcome is Outcome.BAD]
    assert len([name for name in bad if "pin on" in name]) == 1
    assert any("body home" in name for name in bad)


def test_strange_and_doubled_steps_are_refused() -> None:
    """A step that this end does not have, and one that is done already."""
    checks = judge_order([work()], proposed("thread boot", "thread boot", "polish"))
    assert [check.outcome for check in checks[:3]] == [Outcome.GOOD, Outcome.BAD, Outcome.BAD]


def test_a_ferrule_before_its_boot_is_put_in_the_wrong_place() -> None:
    """The boot ends up behind the ferrule, so that it goes on first."""
    swapped = proposed("thread ferrule", "thread boot", *ORDER[2:])
    found = outcomes(judge_order([work()], swapped))
    assert found == {
        "end A: ferrule onto the cable": Outcome.CAUTION,
        "end A: boot onto the cable": Outcome.CAUTION,
    }


def test_the_reason_of_each_step_is_told() -> None:
    """Every step but the strip says what comes before it, in millimetres where they decide."""
    steps = order_of_work(CRIMP, cable=VID_70, connector=BOOTED)
    told = {step.text: step.because.replace("\u202f", " ") for step in steps}
    assert "7.40 mm" in told["boot, then ferrule, onto the cable"]
    assert "1.14 mm > barrel 1.09 mm" in told["pin on, press it, cavity 1.60"]
    assert [step.text for step in steps if not step.because] == ["strip with program 11"]


def test_a_drawing_without_a_boot_has_no_boot_to_thread() -> None:
    """Whatever the set-up says: where the drawing gives no boot bore there is none."""
    steps = order_of_work(CRIMP, cable=VID_70, connector=BNC_70)
    assert not any("boot" in step.text for step in steps)


def test_bare_ends_are_tinned_and_welded_ones_sleeved() -> None:
    """Tails have no shell to solder to; a weld has its sleeve on the core before the plug."""
    solder = EndSetUp(
        method=Method.SOLDER,
        strip=wire_strip(60.0, 10.0),
        boot=False,
        program=None,
        pin_die=None,
        ferrule_die=None,
    )
    tails = replace(XLR_M, shell_contact=False)
    texts = [step.text for step in order_of_work(solder, cable=SPK_14, connector=tails)]
    assert texts == [
        "take the jacket back and bare the cores as drawn",
        "tin the tips of the cores only",
    ]
    weld = [
        step.text
        for step in order_of_work(
            replace(solder, method=Method.WELD), cable=SPK_14, connector=BANANA
        )
    ]
    assert weld.index("sleeve onto each core") < weld.index(
        "all strands into the plug, none outside"
    )
    assert weld[-1] == "sleeve over the joint, shrink it"


def test_both_ends_are_planned_one_after_the_other() -> None:
    """The plan of a whole cable makes end A, then end B, each in the order of one end."""
    planned = plan_order([work("A"), work("B")])
    assert not isinstance(planned, Reason)
    assert [(each.end, each.code) for each in planned] == [
        (end, code) for end in "AB" for code in ORDER
    ]


def test_unknown_sizes_never_pass() -> None:
    """A ring whose bore nobody gave is taken not to pass."""
    assert not Ring(name="boot", bore_m=None).passes(8e-3)
    assert not Ring(name="boot", bore_m=9e-3).passes(None)
    assert Ring(name="boot", bore_m=9e-3).passes(9e-3)
