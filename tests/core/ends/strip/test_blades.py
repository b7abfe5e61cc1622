"""Where blades close: the trade's range, the best closing, and what each chance answers to."""

from dataclasses import replace
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.strip.blades import (
    Blade,
    breaks_m,
    nick_chance,
    plan_blades,
    uncut_chance,
)
from reelwright.core.ends.strip.cuts import Cut
from reelwright.core.ends.strip.spread import (
    COMMON_STRIP_SPREAD,
    StripSpread,
    offset_spread_m,
    under_jacket,
)
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.layers import LayerRole
from reelwright.core.verdicts import Reason
from tests.ends_world import AUD_BP, POF_22, SPK_14, VID_60, VID_70, VID_70F, coax_strip, wire_strip


def blades(of: Cable, spread: StripSpread = COMMON_STRIP_SPREAD) -> tuple[Blade, ...]:
    """Return the blades of a three-level strip."""
    found = plan_blades(of, coax_strip(4.25, 5.0, 7.7), spread)
    assert not isinstance(found, Reason)
    return found


def all_cuts(of: Cable) -> tuple[Cut, ...]:
    """Return the three cuts."""
    return tuple(blade.cut for blade in blades(of))


def test_the_trade_closes_above_what_it_must_not_touch() -> None:
    """Above conductor and braid, within the foil's own thickness over the dielectric."""
    conductor, foil, jacket = blades(VID_60)
    assert (conductor.closes_low_mm, conductor.closes_high_mm) == pytest.approx((0.912, 1.012))
    assert (foil.closes_low_mm, foil.closes_high_mm) == pytest.approx((3.66, 3.70))
    assert foil.closes_high_mm < 3.76
    assert 4.40 < jacket.closes_low_mm < jacket.closes_high_mm < 6.05


def test_a_braid_without_a_foil_is_cut_over_the_dielectric() -> None:
    """Without a foil beneath it the second blade closes 2 × (0.03 to 0.08) over the dielectric."""
    bare = replace(
        VID_70F,
        layers=tuple(each for each in VID_70F.layers if each.role is not LayerRole.FOIL),
    )
    braid = blades(bare)[1]
    assert braid.cut.name == "braid"
    assert (braid.closes_low_mm, braid.closes_high_mm) == pytest.approx((4.96, 5.06))


@pytest.mark.parametrize("place", [0, 1, 2])
def test_the_best_closing_is_better_than_its_neighbours(place: int) -> None:
    """A hundredth more or less weighs at least as much, with ten uncut for a nicked conductor."""
    blade = blades(VID_70)[place]
    weight = 10 if place == 0 else 1

    def costs(closing_mm: float) -> float:
        at = {"closing_m": closing_mm / 1e3}
        nick = nick_chance(VID_70, blade.cut, COMMON_STRIP_SPREAD, **at)
        return weight * nick + uncut_chance(VID_70, blade.cut, COMMON_STRIP_SPREAD, **at)

    best = costs(blade.best_mm)
    assert best <= costs(blade.best_mm - 0.01)
    assert best <= costs(blade.best_mm + 0.01)
    assert best == pytest.approx(weight * blade.nick_chance + blade.uncut_chance)


@given(closing_mm=st.floats(0.5, 7.0), more_mm=st.floats(0, 1.0), place=st.integers(0, 2))
def test_closing_further_nicks_more_and_leaves_less(
    closing_mm: float, more_mm: float, place: int
) -> None:
    """The two chances run against each other, whatever the cut."""
    cut = all_cuts(VID_70)[place]
    near, far = closing_mm / 1e3, (closing_mm + more_mm) / 1e3
    spread = COMMON_STRIP_SPREAD
    assert nick_chance(VID_70, cut, spread, closing_m=near) >= nick_chance(
        VID_70, cut, spread, closing_m=far
    )
    assert uncut_chance(VID_70, cut, spread, closing_m=near) <= uncut_chance(
        VID_70, cut, spread, closing_m=far
    )


def test_the_offset_of_the_conductor_decides_and_not_its_tolerance() -> None:
    """Of the spread at the conductor the offset has the greater part, doubled as it is."""
    offset_m = offset_spread_m(VID_70, LayerRole.CONDUCTOR, COMMON_STRIP_SPREAD)
    own_m = VID_70.layers[0].tolerance_m / 3
    assert 2 * offset_m > 2 * (own_m**2 + COMMON_STRIP_SPREAD.blade_m**2) ** 0.5
    centred = replace(
        COMMON_STRIP_SPREAD,
        dielectric_concentricity_ratio=1.0,
        jacket_concentricity_ratio=1.0,
        clamp_m=0.0,
    )
    cut = all_cuts(VID_70)[0]
    closing_m = 1.124e-3
    assert nick_chance(VID_70, cut, centred, closing_m=closing_m) < 1e-6
    assert nick_chance(VID_70, cut, COMMON_STRIP_SPREAD, closing_m=closing_m) > 0.05


def test_a_simulated_batch_is_nicked_as_often_as_computed() -> None:
    """A hundred thousand ends with conductor, jacket and clamp each off by themselves."""
    cut, spread = all_cuts(VID_70)[0], COMMON_STRIP_SPREAD
    closing_m = 1.15e-3
    random = Random(3)
    wall_m, jacket_wall_m = (4.57 - 1.024) / 2e3, (6.99 - 5.30) / 2e3
    own = [wall_m * 0.05 / 1.95 / 3, jacket_wall_m * 0.10 / 1.90 / 3, spread.clamp_m]
    draws, nicked = 100_000, 0
    for _ in range(draws):
        x = sum(random.gauss(0, each) for each in own)
        y = sum(random.gauss(0, each) for each in own)
        wire_m = random.gauss(1.024e-3, 0.01e-3 / 3)
        blade_m = random.gauss(closing_m, spread.blade_m)
        nicked += wire_m + 2 * (x * x + y * y) ** 0.5 > blade_m
    computed = nick_chance(VID_70, cut, spread, closing_m=closing_m)
    assert nicked / draws == pytest.approx(computed, abs=4 * (computed / draws) ** 0.5)


def test_a_foil_must_be_reached_and_plastic_may_tear() -> None:
    """What may stay under the blade: the foil's own thickness, half a strand, a thin web."""
    dielectric, foil, jacket = all_cuts(VID_70)
    assert breaks_m(foil) == pytest.approx(0.05e-3)
    assert breaks_m(dielectric) == breaks_m(jacket) == 0.20e-3
    tough = replace(dielectric, through=(replace(dielectric.through[-1], material="foamed FEP"),))
    assert breaks_m(tough) == 0.15e-3
    braid = replace(foil, through=foil.through[:2])
    assert breaks_m(braid) == pytest.approx((5.30 - 4.57) / 2 / 4 * 1e-3)


def test_what_a_nick_means_depends_on_what_is_nicked() -> None:
    """A solid conductor breaks later, a strand is missing, a fibre loses light, a core shorts."""
    assert "breaks weeks later" in blades(VID_70)[0].nick_means
    assert "fifth" in blades(VID_70)[0].nick_means
    assert "strand" in blades(VID_70F)[0].nick_means
    assert "short" in blades(VID_70)[1].uncut_means
    for of, strip, place, word in (
        (SPK_14, wire_strip(35.0, 12.0), 1, "core"),
        (POF_22, wire_strip(7.0, 7.0), 0, "fibre"),
        (AUD_BP, wire_strip(20.0, 5.0), 0, "strand"),
    ):
        found = plan_blades(of, strip, COMMON_STRIP_SPREAD)
        assert not isinstance(found, Reason)
        assert word in found[place].nick_means


def test_the_waste_is_drawn_off_as_far_as_the_cut_lies() -> None:
    """The slug of a cut at 9.25 mm is clear of the end after 9.25 mm."""
    assert [blade.draw_off_mm for blade in blades(VID_70)] == [4.25, 9.25, 16.95]


def test_duller_blades_and_worse_cable_cost_more() -> None:
    """Whatever strays further, the best closing is no better than before."""

    def worst(spread: StripSpread) -> float:
        return sum(blade.nick_chance + blade.uncut_chance for blade in blades(VID_70, spread))

    fresh = worst(COMMON_STRIP_SPREAD)
    assert worst(replace(COMMON_STRIP_SPREAD, blade_m=0.05e-3)) > fresh
    assert worst(replace(COMMON_STRIP_SPREAD, jacket_concentricity_ratio=0.75)) > fresh
    assert worst(replace(COMMON_STRIP_SPREAD, jacket_ovality_share=0.03)) > fresh


def test_impossible_layers_get_a_reason_and_no_blade() -> None:
    """What cannot be cut has no closing diameter."""
    refused = plan_blades(SPK_14, coax_strip(4.25, 5.0, 7.7), COMMON_STRIP_SPREAD)
    assert isinstance(refused, Reason)


def test_the_layer_under_a_jacket_is_found() -> None:
    """The braid where there is one, one core, the circle around several, the dielectric."""
    found = under_jacket(AUD_BP)
    assert found is not None
    assert found.role is LayerRole.BRAID
    found = under_jacket(SPK_14)
    assert found is not None
    assert found.outside_diameter_m == pytest.approx(6.8e-3)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("blade_m", -1e-6),
        ("dielectric_concentricity_ratio", 0),
        ("jacket_concentricity_ratio", 1.2),
        ("jacket_ovality_share", 0.9),
    ],
)
def test_a_spread_that_cannot_be_is_refused(field: str, value: float) -> None:
    """Negative spreads, concentricities outside 0 to 1 and a jacket flat as a ribbon."""
    with pytest.raises(BadValue):
        replace(COMMON_STRIP_SPREAD, **{field: value})
