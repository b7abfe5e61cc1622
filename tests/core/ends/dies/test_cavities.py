"""Cavities in service, and which of them to take."""

from dataclasses import replace

import pytest

from reelwright.core.ends.dies.cavities import Cavity, CavityUse, WidthReading, judge_cavity, usable
from reelwright.core.ends.dies.cavity_choice import (
    INCH_SERIES_IN,
    CavityChoice,
    Window,
    choose_cavity,
)
from reelwright.core.ends.dies.ferrule_crimp import FerruleJoint, ferrule_joint
from reelwright.core.ends.dies.pin_crimp import PinJoint, pin_joint
from reelwright.core.ends.fit.grip import ferrule_window_of, pin_window_of
from reelwright.core.errors import BadValue
from reelwright.core.verdicts import Outcome
from tests.ends_world import BNC_60, BNC_70, VID_60, VID_70


def cavity(
    code: str,
    mm: float,
    use: CavityUse = CavityUse.PIN,
    *,
    closings: int = 100,
    due: int = 60_000,
    serves: bool = True,
    gauged_mm: float | None = None,
) -> Cavity:
    """A cavity by its engraved width."""
    reading = None
    if gauged_mm is not None:
        reading = WidthReading(across_flats_m=gauged_mm / 1e3, standard_uncertainty_m=0.003e-3)
    return Cavity(
        code=code,
        use=use,
        engraved_m=mm / 1e3,
        reading=reading,
        closings_count=closings,
        due_count=due,
        in_service=serves,
    )


def pin() -> PinJoint:
    """The pin of the 7 mm plug, which wants 1.53 to 1.61 mm."""
    found = pin_joint(VID_70, BNC_70)
    assert found is not None
    return found


def ferrule() -> FerruleJoint:
    """The ferrule of the 6 mm plug."""
    found = ferrule_joint(VID_60, BNC_60)
    assert found is not None
    return found


def chosen(
    joint: PinJoint | FerruleJoint, cavities: tuple[Cavity, ...], *, nearest_count: int
) -> CavityChoice:
    """The choice on nominal parts of the connector."""
    ends = pin_window_of(joint) if isinstance(joint, PinJoint) else ferrule_window_of(joint)
    window = Window(smallest_m=ends[0], largest_m=ends[1])
    return choose_cavity(joint, window, cavities, nearest_count=nearest_count)


PINS = (cavity("P-1.07", 1.07), cavity("P-1.60", 1.60), cavity("P-1.73", 1.73))


def test_the_cavity_inside_the_window_is_best_and_the_others_say_why_not() -> None:
    """1.60 grips and spares, 1.73 is too wide by millimetres, 1.07 smaller than metal allows."""
    found = chosen(pin(), PINS, nearest_count=3)
    window = pin_window_of(pin())
    assert [each.cavity.code for each in found.nearest] == ["P-1.60", "P-1.73", "P-1.07"]
    good, wide, narrow = found.nearest
    assert found.best is good
    assert good.sentence.startswith("grips at the loosest and spares at the tightest")
    assert wide.off_m == pytest.approx(1.73e-3 - window[1])
    assert wide.sentence == "too wide by 0.12\u202fmm: the thinnest conductor is loose"
    assert "smaller than solid metal allows" in narrow.sentence
    assert narrow.off_m < 0
    assert [each.outcome for each in found.nearest] == [Outcome.GOOD, Outcome.BAD, Outcome.BAD]
    assert len(chosen(pin(), PINS, nearest_count=1).nearest) == 1


def test_of_two_that_fit_the_one_nearer_the_middle_is_best() -> None:
    """Both hold; the middle leaves room on both sides for wear and for the cable."""
    found = chosen(pin(), (*PINS, cavity("P-1.57", 1.57)), nearest_count=3)
    assert found.best is not None
    assert found.best.cavity.code == "P-1.57"
    assert "nearest to the middle" in found.why


def test_a_worn_cavity_is_judged_by_its_gauge_reading() -> None:
    """Engraved 1.60 and gauged 1.65, it no longer grips, and says by how much."""
    worn = cavity("P-1.60", 1.60, gauged_mm=1.65)
    assert worn.across_flats_m == pytest.approx(1.65e-3)
    found = chosen(pin(), (worn,), nearest_count=3)
    assert found.best is None
    assert "too wide by 0.04" in found.nearest[0].sentence


def test_where_none_fits_the_usual_width_in_the_window_is_named() -> None:
    """0.063 in is 1.60 mm; a ferrule whose window holds no usual width is to be made."""
    found = chosen(pin(), (cavity("P-1.73", 1.73),), nearest_count=3)
    assert found.best is None
    assert "0.063\u202fin (1.60\u202fmm)" in found.why
    assert found.standard_m == pytest.approx((0.063 * 0.0254,))
    made = chosen(ferrule(), (), nearest_count=3)
    window = ferrule_window_of(ferrule())
    assert not [size for size in INCH_SERIES_IN if window[0] <= size * 0.0254 <= window[1]]
    assert made.standard_m == ()
    assert f"have one made to {500 * sum(window):.2f}\u202fmm" in made.why


def test_where_no_width_does_both_the_lot_is_to_be_measured() -> None:
    """A braid that varies by half its stack wants its own die for each lot."""
    joint = ferrule()
    loose = replace(joint, braid_spread_m=joint.braid_stack_m / 2)
    found = chosen(loose, (), nearest_count=3)
    assert not found.window.open
    assert "measure the lot" in found.why


def test_only_cavities_of_the_use_and_in_service_are_offered() -> None:
    """A ferrule cavity closes no pin, a resting one closes nothing."""
    others = (cavity("F-1.60", 1.60, CavityUse.FERRULE), cavity("P-1.60", 1.60, serves=False))
    assert chosen(pin(), others, nearest_count=3).nearest == ()


@pytest.mark.parametrize(
    ("cavities", "outcome", "told"),
    [
        ((cavity("P-1.60", 1.60),), Outcome.GOOD, "59900 closings before"),
        ((cavity("P-1.60", 1.60, closings=60_010),), Outcome.CAUTION, "10 closings past"),
        ((cavity("P-1.60", 1.60, serves=False),), Outcome.BAD, "P-1.60 is out of service"),
        ((cavity("P-1.73", 1.73),), Outcome.BAD, "there is no pin die of 1.60"),
        ((cavity("F-1.60", 1.60, CavityUse.FERRULE),), Outcome.BAD, "there is no pin die"),
    ],
    ids=["in service", "past its service", "resting", "another width", "another use"],
)
def test_the_cavity_of_a_set_up_must_be_there_and_in_service(
    cavities: tuple[Cavity, ...], outcome: Outcome, told: str
) -> None:
    """Missing or resting is bad, past its service is a caution."""
    check = judge_cavity(cavities, use=CavityUse.PIN, engraved_m=1.60e-3)
    assert check.outcome is outcome
    assert told in check.sentence


def test_of_two_alike_the_less_worn_is_used() -> None:
    """The one with more closings left stands for the width."""
    found = usable(
        (cavity("A", 1.60, closings=50_000), cavity("B", 1.601, closings=10)),
        use=CavityUse.PIN,
        engraved_m=1.60e-3,
    )
    assert found is not None
    assert found.code == "B"


def test_nonsense_is_refused() -> None:
    """A cavity of no width, a count below zero."""
    with pytest.raises(BadValue):
        cavity("P", 0.0)
    with pytest.raises(BadValue):
        cavity("P", 1.6, closings=-1)
