"""Chance, lengths and margins of a limit that length uses up."""

from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.parts.length import Length
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.signals.budget import Budget, longest_within_m
from reelwright.core.signals.judgement import MarginCurve
from reelwright.core.signals.serial_video import SerialVideo
from tests import signal_world as world


def straight(
    per_metre: float, limit: float, *, spread: float = 0.03, length_spread: float = 0.01
) -> Budget:
    """Return a budget used up in proportion to length."""

    def used(lengths_m: FloatArray) -> FloatArray:
        return per_metre * lengths_m

    def uncertain(lengths_m: FloatArray) -> FloatArray:
        return spread * per_metre * lengths_m

    return Budget(
        limit=limit, used=used, spread=uncertain, length_relative_uncertainty=length_spread
    )


@given(
    per_metre=st.floats(min_value=0.005, max_value=5),
    limit=st.floats(min_value=0.2, max_value=60),
)
def test_the_lengths_have_the_chances_they_claim(per_metre: float, limit: float) -> None:
    """At the 95 % length the chance is 95 %, at the 50 % length 50 % and the margin nothing."""
    budget = straight(per_metre, limit)
    for chance in (0.95, 0.5):
        length_m = budget.length_at_m(chance)
        assert length_m is not None
        length = Length(mean_m=length_m, standard_uncertainty_m=0.01 * length_m)
        assert budget.chance_within(length) == pytest.approx(chance, abs=1e-5)
    assert budget.length_at_m(0.5) == pytest.approx(limit / per_metre, rel=1e-6)


def test_the_95_percent_length_follows_from_the_spreads() -> None:
    """Used per metre 0.1 of 10 with 5 % in all: L(1 + 1.645·0.05) = 100."""
    budget = straight(0.1, 10.0, spread=0.03, length_spread=0.04)
    wanted = 100 / (1 + NormalDist().inv_cdf(0.95) * 0.05)
    assert budget.length_at_m(0.95) == pytest.approx(wanted, rel=1e-6)


def test_no_spread_makes_the_chance_all_or_nothing() -> None:
    """With everything exact a run is within the limit or not."""
    budget = straight(0.1, 10.0, spread=0.0, length_spread=0.0)
    assert budget.chance_within(Length(mean_m=99.0, standard_uncertainty_m=0.0)) == 1.0
    assert budget.chance_within(Length(mean_m=101.0, standard_uncertainty_m=0.0)) == 0.0


def test_limits_that_are_never_or_always_over() -> None:
    """A limit of nothing gives 0 m; one that 100 km does not reach gives None."""
    assert straight(0.1, -1.0).length_at_m(0.5) == 0.0
    assert straight(1e-9, 10.0).length_at_m(0.95) is None
    assert longest_within_m(straight(1e-9, 10.0), guard=1.0) == 100_000.0


def test_the_curve_agrees_with_the_verdict() -> None:
    """The margin curve of a signal passes through the margin of its check, inside its band."""
    signal = SerialVideo(rate_bit_per_s=2_970_000_000)
    run = world.run(world.VID_70, 50.0, spread_m=0.5)
    lengths = np.array([10.0, 50.0, 90.0])
    curve = signal.margin_at(run, lengths)
    assert isinstance(curve, MarginCurve)
    main = signal.judge(run).verdict.checks[0]
    assert curve.margin[1] == pytest.approx(main.margin)
    assert (curve.low < curve.margin).all()
    assert (curve.margin < curve.high).all()
    assert (np.diff(curve.margin) < 0).all()
    assert (np.diff(curve.high - curve.low) > 0).all()


def test_the_chance_is_phi_of_margin_over_spread() -> None:
    """3 % of the cable's loss, 1 % of the length and 0.05 dB for each of two connectors."""
    run = world.run(world.VID_70, 75.0, spread_m=0.75)
    judgement = SerialVideo(rate_bit_per_s=2_970_000_000).judge(run)
    main = judgement.verdict.checks[0]
    assert isinstance(main.value, float)
    assert main.margin is not None
    cable_db = main.value - 0.2
    spread = ((0.03 * cable_db) ** 2 + (0.01 * cable_db) ** 2 + 2 * 0.05**2) ** 0.5
    wanted = NormalDist().cdf(main.margin / spread)
    assert judgement.chance_within_limit == pytest.approx(wanted, abs=1e-4)
