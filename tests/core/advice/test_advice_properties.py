"""What holds of every piece of advice, whatever the run, the signal and the catalogue."""

from dataclasses import replace
from decimal import Decimal

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from reelwright.core.advice import Advice, CatalogueCable, Question, advise, carriers
from reelwright.core.advice.pareto import (
    costs_of_change,
    costs_of_run,
    dominates,
    front,
    front_of_runs,
)
from reelwright.core.verdicts import Outcome
from tests.core.advice import world

_COAX_ENDS = ("BNC-60", "BNC-60")
_PHONO_ENDS = ("phono-60", "phono-60")
_ASKED = st.sampled_from(
    [
        ("serial video 270 Mb/s", _COAX_ENDS),
        ("serial video 1.485 Gb/s", _COAX_ENDS),
        ("3G", _COAX_ENDS),
        ("3G", _PHONO_ENDS),
        ("serial video 11.88 Gb/s", _COAX_ENDS),
        ("RGBHV 154 MHz", _COAX_ENDS),
        ("composite video", _COAX_ENDS),
        ("cable television 66 dBuV", ("F-60", "F-60")),
        ("coaxial digital audio 48 kHz", _PHONO_ENDS),
        ("unbalanced line audio", _PHONO_ENDS),
        ("line audio 10 kohm", _PHONO_ENDS),
        ("microphone", ("XLR3F", "phono-60")),
        ("loudspeaker 4 ohm", ("banana", "banana")),
        ("loudspeaker line 70 V, 6 x 15 W, 20 ft apart", ("banana", "banana")),
        ("optical audio", ("F05", "F05")),
    ]
)


@st.composite
def _entries(draw: st.DrawFn) -> tuple[CatalogueCable, ...]:
    kept = draw(st.lists(st.sampled_from(world.CATALOGUE), min_size=1, unique_by=_code))
    return tuple(
        replace(
            each,
            price_per_m=draw(
                st.none()
                | st.decimals(Decimal("0.2"), Decimal(4), places=2).filter(lambda price: price > 0)
            ),
        )
        for each in kept
    )


def _code(entry: CatalogueCable) -> str:
    return entry.cable.code


@st.composite
def _questions(draw: st.DrawFn) -> Question:
    typed, ends = draw(_ASKED)
    cable = draw(st.none() | st.sampled_from(world.CATALOGUE).map(lambda entry: entry.cable))
    return world.question(
        typed,
        cable,
        draw(st.floats(0.5, 400.0)),
        ends=ends,
        catalogue=draw(_entries()),
        celsius=draw(st.sampled_from([20.0, 45.0])),
        adapters=draw(st.integers(0, 3)),
    )


def _as_good(advice: Advice) -> bool:
    asked = advice.asked
    if asked is None:
        return True
    before = asked.judgement.verdict.outcome.rank
    return all(
        each.judgement.verdict.outcome.rank <= before
        and (
            each.signal.name != asked.signal.name
            or each.judgement.verdict.outcome.rank < before
            or each.tried.margin >= asked.margin
        )
        for each in advice.changes
    )


@given(question=_questions())
@settings(max_examples=50, deadline=None)
def test_every_change_works_at_least_as_well_as_what_was_asked(question: Question) -> None:
    """Each has a verdict of its own that works, no worse than that of the run asked for."""
    advice = advise(question)
    assert _as_good(advice)
    for change in advice.changes:
        assert change.judgement == change.signal.judge(change.run)
        assert change.judgement.verdict.outcome in (Outcome.GOOD, Outcome.CAUTION)
        assert change.run.length.mean_m * change.parts <= question.length.mean_m * (1 + 1e-9)


@given(question=_questions())
@settings(max_examples=40, deadline=None)
def test_no_change_is_beaten_by_another_of_its_kind(question: Question) -> None:
    """Not in size, price, margin, diameter and mass all at once; and they come smallest first."""
    changes = advise(question).changes
    for one in changes:
        for other in changes:
            if (one.kind, one.signal.name) == (other.kind, other.signal.name):
                assert not dominates(costs_of_change(one), costs_of_change(other))
    assert [each.rank for each in changes] == sorted(each.rank for each in changes)


@given(question=_questions(), more=st.sampled_from(world.CATALOGUE))
@settings(max_examples=40, deadline=None)
def test_one_more_cable_never_makes_the_best_proposal_worse(
    question: Question, more: CatalogueCable
) -> None:
    """The smallest change from a larger catalogue is at least as small, and as sure."""
    assume(_code(more) not in {_code(each) for each in question.catalogue})
    # The run asked for stays one that can be made, or one that cannot.
    assume(question.asked is None or question.asked.cable.code != _code(more))
    larger = replace(question, catalogue=(*question.catalogue, more))
    # What can be reached with other connectors is a wish of its own once the ends have a cable.
    assume(bool(carriers(question)) == bool(carriers(larger)) or not advise(question).changes)
    before, after = advise(question).changes, advise(larger).changes
    if before:
        assert after
        assert after[0].smallness <= before[0].smallness


@given(question=_questions())
@settings(max_examples=30, deadline=None)
def test_what_is_left_out_of_the_choice_is_beaten_by_something_in_it(question: Question) -> None:
    """The set to choose from keeps whatever is best in anything, and nothing that is beaten."""
    found = carriers(question)
    kept = front_of_runs(found)
    assert bool(kept) == bool(found)
    for each in found:
        beaten = any(dominates(costs_of_run(other), costs_of_run(each)) for other in kept)
        assert beaten != any(each is other for other in kept)


@given(st.lists(st.tuples(st.integers(0, 4), st.integers(0, 4), st.integers(0, 4))))
def test_a_front_of_numbers_is_what_its_definition_says(costs: list[tuple[int, ...]]) -> None:
    """An item stays exactly where no other is nowhere larger and somewhere smaller."""
    kept = front(costs, lambda each: tuple(float(cost) for cost in each))
    for each in costs:
        beaten = any(
            all(a <= b for a, b in zip(other, each, strict=True)) and other != each
            for other in costs
        )
        assert (each in kept) != beaten
