"""The table of margins and of reach, held against judging every run by itself."""

import math

import numpy as np
import pytest

from reelwright.core.advice import Installed, reach_m, reach_table
from reelwright.core.advice.reach_table import can_carry
from reelwright.core.errors import BadValue
from reelwright.core.signals import SIGNAL_CHOICES, read_signal
from reelwright.core.signals.fitness import judge_fitness
from reelwright.core.verdicts import Outcome
from tests import signal_world as signals
from tests.core.advice import world

INSTALLED = Installed(connectors=(signals.BNC, signals.BNC), adapters=0, temperature_celsius=20.0)
CABLES = tuple(entry.cable for entry in world.CATALOGUE)
ALL_SIGNALS = tuple(
    signal
    for signal in (read_signal(choice.typed).signal for choice in SIGNAL_CHOICES)
    if signal is not None
)
LENGTHS_M = np.array([2.0, 15.0, 80.0, 300.0])


def test_every_margin_is_the_one_that_judging_the_run_gives() -> None:
    """Every cable with every signal there is: the same figure, or none where none is computed."""
    table = reach_table(CABLES, ALL_SIGNALS, LENGTHS_M, installed=INSTALLED)
    assert table.shape == (len(CABLES), len(ALL_SIGNALS), len(LENGTHS_M))
    compared = 0
    for row, cable in enumerate(CABLES):
        for column, signal in enumerate(ALL_SIGNALS):
            if not can_carry(cable, signal):
                assert np.isnan(table[row, column]).all()
                continue
            for place, length_m in enumerate(LENGTHS_M):
                main = signal.judge(signals.run(cable, float(length_m))).verdict.checks[0]
                if main.margin is None:
                    assert math.isnan(table[row, column, place]), (cable.code, signal.name)
                else:
                    assert table[row, column, place] == pytest.approx(main.margin, abs=1e-9)
                    compared += 1
    assert compared > 200


def test_what_cannot_carry_a_signal_is_what_its_fitness_refuses() -> None:
    """The quick answer and the one with sentences agree on every cable and signal."""
    for cable in CABLES:
        run = signals.run(cable, 5.0, ends=(signals.PLAIN, signals.PLAIN))
        for signal in ALL_SIGNALS:
            checks = judge_fitness(
                run, signal=signal.name, needs=signal.needs, families=signal.families
            )
            fits = all(check.outcome is not Outcome.BAD for check in checks)
            assert can_carry(cable, signal) == fits, (cable.code, signal.name)


def test_the_reach_is_where_nothing_is_left() -> None:
    """A hair shorter has something to spare, a hair longer has not; or it reaches everywhere."""
    reach = reach_m(CABLES, ALL_SIGNALS, installed=INSTALLED)
    assert reach.shape == (len(CABLES), len(ALL_SIGNALS))
    found = 0
    for row, column in zip(*np.nonzero(np.isfinite(reach) & (reach > 0)), strict=True):
        at = reach[row, column]
        around = np.array([at * (1 - 1e-6), at * (1 + 1e-6)])
        below, above = reach_table(
            [CABLES[row]], [ALL_SIGNALS[column]], around, installed=INSTALLED
        )[0, 0]
        if not math.isnan(below):
            assert below >= 0 > above, (CABLES[row].code, ALL_SIGNALS[column].name)
            found += 1
    assert found > 60


def test_reach_by_hand() -> None:
    """VID-60 at 2.97 Gb/s: (20 − 0.2) dB over 0.3162 dB/m, two plugs at a tenth each."""
    reach = reach_m([signals.VID_60], [world.signal("3G")], installed=INSTALLED)
    assert reach[0, 0] == pytest.approx(19.8 / 0.3162, rel=1e-4)


def test_adapters_and_heat_take_their_part() -> None:
    """Each adapter takes a tenth of a decibel, and warm copper loses more."""
    signal = [world.signal("3G")]
    cool = reach_m([signals.VID_60], signal, installed=INSTALLED)[0, 0]
    joined = Installed(connectors=(signals.BNC, signals.BNC), adapters=2, temperature_celsius=20.0)
    hot = Installed(connectors=(signals.BNC, signals.BNC), adapters=0, temperature_celsius=60.0)
    assert reach_m([signals.VID_60], signal, installed=joined)[0, 0] == pytest.approx(
        cool - 0.2 / 0.3162, rel=1e-4
    )
    assert 0.9 * cool < reach_m([signals.VID_60], signal, installed=hot)[0, 0] < cool


def test_what_is_never_good_and_what_always_is() -> None:
    """An outlet too weak for any cable reaches nothing; an unknown one is not computed."""
    weak, unknown = world.signal("cable television 50 dBuV"), world.signal("cable television")
    reach = reach_m([signals.VID_70], [weak, unknown], installed=INSTALLED)[0]
    assert reach[0] == 0.0
    assert math.isnan(reach[1])


@pytest.mark.parametrize(
    "lengths_m", [[], [0.0], [-3.0, 2.0], [float("nan")], [float("inf")], [[1.0, 2.0]]]
)
def test_lengths_that_are_none_are_refused(lengths_m: list[float]) -> None:
    """No length, none above zero, not a number, or not one row."""
    with pytest.raises(BadValue) as refused:
        reach_table(CABLES, ALL_SIGNALS, np.array(lengths_m), installed=INSTALLED)
    assert refused.value.field == "lengths_m"


def test_what_cannot_be_installed_is_refused() -> None:
    """Fewer than no adapters, or a temperature that is no number."""
    for changed in ({"adapters": -1}, {"temperature_celsius": float("nan")}):
        with pytest.raises(BadValue):
            Installed(
                **{
                    "connectors": (signals.BNC, signals.BNC),
                    "adapters": 0,
                    "temperature_celsius": 20.0,
                    **changed,
                }
            )
