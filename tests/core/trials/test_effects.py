"""Trials read as a two-level design where they are one, and the reason where they are not."""

from itertools import product

import numpy as np
import pytest

from reelwright.core.trials.effects import EffectsReading, read_effects
from reelwright.core.trials.record import Trial
from reelwright.core.trials.settings import Setting
from reelwright.core.verdicts import Reason
from tests.trials_world import ENERGY, PRESSURE, problem, pull, trial

AMPLITUDE = Setting(name="amplitude", unit="µm", low=20, high=40, step=1, drift=0.4)
THREE = (ENERGY, PRESSURE, AMPLITUDE)


def made(corners: list[tuple[int, ...]], means: list[float], *, spread: float = 2.0) -> list[Trial]:
    """Trials at coded corners, each read twice about its mean."""
    levels = ((240.0, 360.0), (2.0, 3.0), (26.0, 34.0))
    return [
        trial(
            n,
            tuple(pair[(code + 1) // 2] for code, pair in zip(corner, levels, strict=False)),
            (mean - spread, mean + spread),
        )
        for n, (corner, mean) in enumerate(zip(corners, means, strict=True), start=1)
    ]


def read(trials: list[Trial], **changed: object) -> EffectsReading | Reason:
    """What the pulls of these trials say."""
    return read_effects(problem(*trials, **changed), pull())


def test_a_full_design_gives_effects_and_their_interaction_by_hand() -> None:
    """Means 200, 240, 210, 290 N: energy +60, pressure +30, together +20 N, whatever the order."""
    corners = [(-1, -1), (1, -1), (-1, 1), (1, 1)]
    means = [200.0, 240.0, 210.0, 290.0]
    found = read(made(corners, means))
    assert isinstance(found, EffectsReading)
    assert [(row.name, row.change) for row in found.effects] == [
        ("energy", pytest.approx(60.0)),
        ("pressure", pytest.approx(30.0)),
        ("energy × pressure", pytest.approx(20.0)),
    ]
    # Two readings 4 N apart in each of four trials: s = √8 N, and the error 2·√8/√8 = 2 N.
    assert [row.error for row in found.effects] == [pytest.approx(2.0)] * 3
    assert all(row.mixed_with == () and row.stands_out for row in found.effects)
    assert "a full two-level design of 4 settings" in found.sentences[0]
    turned = read(made(corners[::-1], means[::-1]))
    assert isinstance(turned, EffectsReading)
    assert turned.effects == found.effects


@pytest.mark.parametrize("sign", [-1, 1])
def test_half_a_design_says_what_each_effect_is_mixed_with(sign: int) -> None:
    """With amplitude = ± energy × pressure each setting is mixed with the pair of the others."""
    corners = [(a, b, sign * a * b) for a, b in product((-1, 1), repeat=2)]
    means = [250.0 + 30 * a + 10 * b for a, b, _ in corners]
    found = read(made(corners, means), settings=THREE)
    assert isinstance(found, EffectsReading)
    energy, pressure, amplitude = found.effects
    mark = "−" if sign < 0 else ""
    assert (energy.name, energy.change) == ("energy", pytest.approx(60.0))
    assert energy.mixed_with == (f"{mark}pressure × amplitude",)
    assert (pressure.change, pressure.stands_out) == (pytest.approx(20.0), True)
    assert amplitude.change == pytest.approx(0.0, abs=1e-9)
    assert not amplitude.stands_out
    assert "resolution III" in found.sentences[0]
    assert "energy and pressure" in found.sentences[1]


def test_effects_are_those_of_least_squares() -> None:
    """On a full 2³ design every effect is twice the coefficient of a fit by numpy."""
    corners = list(product((-1, 1), repeat=3))
    means = [float(x) for x in np.random.default_rng(4).uniform(200, 300, 8)]
    found = read(made(corners, means), settings=THREE)
    assert isinstance(found, EffectsReading)
    a, b, c = np.array(corners, dtype=float).T
    columns = np.column_stack([np.ones(8), a, b, c, a * b, a * c, b * c, a * b * c])
    fitted = np.linalg.lstsq(columns, np.array(means), rcond=None)[0]
    names = ("energy", "pressure", "amplitude", "energy × pressure", "energy × amplitude",
             "pressure × amplitude", "energy × pressure × amplitude")  # fmt: skip
    assert {row.name: row.change for row in found.effects} == pytest.approx(
        dict(zip(names, 2 * fitted[1:], strict=True))
    )


def test_what_is_no_design_is_told_why() -> None:
    """Nothing made, a third level, a corner missing, more readings at one, and no rule behind."""
    full = made([(-1, -1), (1, -1), (-1, 1), (1, 1)], [200.0, 240.0, 210.0, 290.0])
    more = trial(4, full[3].values, (288.0, 290.0, 292.0))
    between = trial(5, (300.0, 2.5), (250.0, 252.0))
    for trials, told in (
        ([], "not every setting stood at two values"),
        ([*full, between], "not every setting stood at two values"),
        (full[:3], "some combinations of the two values are missing"),
        ([*full[:3], more], "not read equally often"),
    ):
        found = read(trials)
        assert isinstance(found, Reason)
        assert told in found.sentence
    no_rule = [(-1, -1, -1), (1, -1, -1), (-1, 1, -1), (1, 1, 1)]
    found = read(made(no_rule, [200.0, 210.0, 220.0, 250.0]), settings=THREE)
    assert isinstance(found, Reason)
    assert "leave out combinations without a rule" in found.sentence
