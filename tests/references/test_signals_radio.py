"""Levels of radio and television: windows at the outlet, bands, decibels over volts and watts.

A window is not read back from a constant: each figure is the level that a judged run turns at.
"""

import math
from collections.abc import Callable
from itertools import starmap

from reelwright.core.physics.mismatch_loss import mismatch_loss
from reelwright.core.physics.signal_level import dbm_of_dbuv, dbmv_of_dbuv, dbuv_of_dbmv
from reelwright.core.physics.supply import largest_power_w, volts_at_far_end, volts_for_power
from reelwright.core.signals import read_signal
from reelwright.core.signals.level_signal import LevelSignal
from reelwright.core.verdicts import Check, Outcome
from tests.core.signals.radio_world import THICK, run
from tests.references.harness import (
    Basis,
    ReferenceCheck,
    Within,
    absolute,
    exact,
    reference_test,
    relative,
)

_TABLE = "Table 'Useful levels at the wall outlet according to EN 60728-1' (trade compendium)"
_RULE = "47 CFR 76.605(a)(3), edition of 2014"
_ARTICLE = "Trade article on satellite reception, technical notes, April 2010"
_SIGNAL = "core.signals.level_signal"
_TURNS = absolute(1e-6, because="the level is found by halving to a millionth of a decibel")
_LONG_M = 20.0


def _check(  # noqa: PLR0917 - one row of a table, in the order it is read
    name: str,
    module: str,
    quantity: str,
    source: str,
    basis: Basis,
    expected: float,
    unit: str,
    within: Within,
    ours: Callable[[], float],
) -> ReferenceCheck:
    return ReferenceCheck(
        id=name,
        module=module,
        quantity=quantity,
        source=source,
        basis=basis,
        expected=expected,
        unit=unit,
        within=within,
        ours=ours,
    )


def _judged(typed: str, level_dbuv: float) -> dict[str, Check]:
    signal = read_signal(f"{typed} {level_dbuv:.9f} dBuV").signal
    assert isinstance(signal, LevelSignal)
    checks = signal.judge(run(THICK, _LONG_M)).verdict.checks
    return {"loss" if check.name.startswith("loss at") else check.name: check for check in checks}


def _turning_dbuv(typed: str, *, name: str, good_above: bool) -> float:
    """The near level [dBµV] at which the check of that name turns, by halving."""
    low, high = 0.0, 130.0
    while high - low > 1e-8:
        middle = (low + high) / 2
        check = _judged(typed, middle)[name]
        passes = (
            check.outcome is not Outcome.BAD if name == "loss" else (check.outcome is Outcome.GOOD)
        )
        low, high = (low, middle) if passes is good_above else (middle, high)
    return low


def _least_dbuv(typed: str) -> float:
    """What arrives at the highest channel where the run turns from no to yes."""
    level = _turning_dbuv(typed, name="loss", good_above=True)
    value = _judged(typed, level)["loss"].value
    assert isinstance(value, float)
    return level - value


def _most_dbuv(typed: str) -> float:
    """What arrives at the lowest channel where it turns to too much."""
    level = _turning_dbuv(typed, name="level not to exceed", good_above=False)
    value = _judged(typed, level)["level not to exceed"].value
    assert isinstance(value, float)
    return value


def _window(
    name: str, typed: str, words: str, least: float, most: float
) -> tuple[ReferenceCheck, ReferenceCheck]:
    return (
        _check(
            f"{name}.least", _SIGNAL, f"least level at the outlet, {words}", _TABLE, Basis.SEEN,
            least, "dBµV", _TURNS, lambda: _least_dbuv(typed),
        ),
        _check(
            f"{name}.most", _SIGNAL, f"highest level at the outlet, {words}", _TABLE, Basis.SEEN,
            most, "dBµV", _TURNS, lambda: _most_dbuv(typed),
        ),
    )  # fmt: skip


_WINDOWS = starmap(
    _window,
    (
        ("out.PAL_AM-VSB", "analogue cable tv", "analogue television", 60.0, 77.0),
        ("out.FM_stereo", "FM antenna", "FM radio, stereo", 50.0, 70.0),
        ("out.DVB-C_256QAM", "digital cable tv", "DVB-C, 256 levels", 54.0, 74.0),
        ("out.DVB-T_64QAM_2/3", "DVB-T antenna", "DVB-T, 64 levels, 2/3", 45.0, 74.0),
        ("out.DVB-T2_64QAM_2/3", "DVB-T2 antenna", "DVB-T2, 64 levels, 2/3", 39.0, 74.0),
        ("out.DAB_band_III", "DAB antenna", "DAB in band III", 28.0, 94.0),
        ("sat.level", "satellite", "satellite", 47.0, 77.0),
    ),
)


def _satellite_guard_dbuv() -> float:
    """What arrives where a satellite run turns from a caution to good."""
    low, high = 47.0, 130.0
    while high - low > 1e-8:
        middle = (low + high) / 2
        good = _judged("satellite", middle)["loss"].outcome is Outcome.GOOD
        low, high = (low, middle) if good else (middle, high)
    value = _judged("satellite", high)["loss"].value
    assert isinstance(value, float)
    return high - value


def _band_mhz(which: int) -> float:
    signal = read_signal("satellite").signal
    assert isinstance(signal, LevelSignal)
    slope = next(
        check
        for check in signal.judge(run(THICK, _LONG_M)).verdict.checks
        if check.name == "slope over the band"
    )
    found = [word for word in slope.sentence.split(" ") if "\u202fMHz" in word]
    return float(found[which].split("\u202f")[0])


def _american_dbmv() -> float:
    level = _turning_american("loss")
    signal = read_signal(f"cable tv {level:.9f} dBmV").signal
    assert signal is not None
    value = signal.judge(run(THICK, _LONG_M)).verdict.checks[0].value
    assert isinstance(value, float)
    return level - value


def _turning_american(which: str) -> float:
    """The level [dBmV] at which the run passes, or at which no more is owed at the drop."""
    low, high = -40.0, 60.0
    while high - low > 1e-8:
        middle = (low + high) / 2
        signal = read_signal(f"cable tv {middle:.9f} dBmV").signal
        assert signal is not None
        checks = signal.judge(run(THICK, _LONG_M)).verdict.checks
        passes = (
            checks[0].outcome is not Outcome.BAD
            if which == "loss"
            else all(check.name != "level the operator owes" for check in checks)
        )
        low, high = (low, middle) if passes else (middle, high)
    return low


def _millivolts_at(impedance_ohm: float) -> float:
    """What the rule gives for other impedances: the voltage [mV] of the same power."""
    power_dbm = dbm_of_dbuv(dbuv_of_dbmv(0.0), impedance_ohm=75.0)
    level_dbuv = power_dbm - dbm_of_dbuv(0.0, impedance_ohm=impedance_ohm)
    return float(10 ** (dbmv_of_dbuv(level_dbuv) / 20))


def _volts(loop_ohm: float, power_w: float) -> float:
    found = volts_for_power(source_v=44.0, loop_ohm=loop_ohm, power_w=power_w)
    assert found is not None
    return found


CHECKS = (
    *(check for pair in _WINDOWS for check in pair),
    _check(
        "sat.floor", _SIGNAL, "level advised as the floor in practice, satellite", _ARTICLE,
        Basis.SEEN, 53.0, "dBµV", _TURNS, _satellite_guard_dbuv,
    ),
    _check(
        "sat.if.low", _SIGNAL, "bottom of the satellite band at the receiver", _ARTICLE, Basis.SEEN,
        950.0, "MHz", exact(because="the frequency that the answer names"), lambda: _band_mhz(0),
    ),
    _check(
        "sat.if.high", _SIGNAL, "top of the satellite band at the receiver", _ARTICLE, Basis.SEEN,
        2150.0, "MHz", exact(because="the frequency that the answer names"), lambda: _band_mhz(1),
    ),
    _check(
        "catv.us", _SIGNAL, "least visual level at the terminal, United States", _RULE, Basis.SEEN,
        0.0, "dBmV", _TURNS, _american_dbmv,
    ),
    _check(
        "catv.us.drop", _SIGNAL, "least visual level at the end of a 30 m drop", _RULE, Basis.SEEN,
        3.0, "dBmV", _TURNS, lambda: _turning_american("owed"),
    ),
    _check(
        "catv.us.other_impedance", "core.physics.signal_level",
        "least visual voltage at a terminal of 300 Ω: √(0.0133·Z) mV", _RULE, Basis.SEEN,
        math.sqrt(0.0133 * 300), "mV",
        relative(0.002, because="0.0133 is 1/75 to three digits"), lambda: _millivolts_at(300.0),
    ),
    _check(
        "db.0dbmv", "core.physics.signal_level", "0 dBmV over a microvolt", "definition",
        Basis.COMPUTED, 60.0, "dBµV", exact(because="a definition"), lambda: dbuv_of_dbmv(0.0),
    ),
    _check(
        "db.dbm", "core.physics.signal_level", "power of 0 dBmV across 75 Ω",
        "10·log10(V²/Z/1 mW)", Basis.COMPUTED, -48.751, "dBm",
        absolute(0.001, because="three places are given"),
        lambda: dbm_of_dbuv(dbuv_of_dbmv(0.0), impedance_ohm=75.0),
    ),
    _check(
        "mismatch.75.in.50", "core.physics.mismatch_loss",
        "most that a lossless 75 Ω line costs between 50 Ω ends: a quarter wave",
        "quarter-wave transformer, 75²/50 = 112.5 Ω on 50 Ω, worked on paper", Basis.COMPUTED,
        0.6952, "dB", absolute(0.0001, because="four places are given"),
        lambda: float(mismatch_loss(line_ohm=75.0, ends_ohm=50.0, own_loss_db=0.0).most_db),
    ),
    _check(
        "supply.loop.13v", "core.physics.supply", "13 V through 2.5 Ω at 400 mA",
        "Ohm's law, worked on paper", Basis.COMPUTED, 12.0, "V",
        relative(1e-12, because="arithmetic of the machine"),
        lambda: volts_at_far_end(source_v=13.0, loop_ohm=2.5, current_a=0.4),
    ),
    _check(
        "supply.power.44v", "core.physics.supply",
        "voltage at a load of 12.95 W behind 44 V and 20 Ω: the current is 350 mA",
        "IEEE 802.3 type 1: 44 V, 350 mA, 20 Ω leave 37 V and 12.95 W", Basis.COMPUTED,
        37.0, "V", relative(1e-12, because="arithmetic of the machine"),
        lambda: _volts(20.0, 12.95),
    ),
    _check(
        "supply.most.44v", "core.physics.supply", "most power behind 44 V and 20 Ω, V²/(4R)",
        "matched load, worked on paper", Basis.COMPUTED, 24.2, "W",
        relative(1e-12, because="arithmetic of the machine"),
        lambda: largest_power_w(source_v=44.0, loop_ohm=20.0),
    ),
)  # fmt: skip
test_radio = reference_test(CHECKS)
