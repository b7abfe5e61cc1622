"""The demo's data sheets agree with themselves, as a test of invented numbers must ask."""

import itertools
import math

import pytest

from reelwright.core.parts.cable import Family
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S
from reelwright.demo.cables import CableEntry, coax_entries
from reelwright.demo.other_cables import other_entries

ALL = {entry.cable.code: entry for entry in (*coax_entries(), *other_entries())}
COAX = [entry for entry in ALL.values() if entry.cable.family is Family.COAX]

# Copper, 20 °C: 1.7241e-8 Ω·m (IEC 60028).
COPPER_OHM_M = 1.7241e-8


def code(entry: CableEntry) -> str:
    """A test is named after its cable."""
    return entry.cable.code


@pytest.mark.parametrize("entry", COAX, ids=code)
def test_impedance_capacitance_and_delay_agree(entry: CableEntry) -> None:
    """Delay = Z0·C for any lossless line; printed to three digits, so within 0.5 %."""
    sheet = entry.cable.sheet
    assert sheet.impedance_ohm is not None
    assert sheet.capacitance_f_per_m is not None
    computed = sheet.impedance_ohm * sheet.capacitance_f_per_m
    assert computed == pytest.approx(sheet.delay_s_per_m, rel=0.005)


@pytest.mark.parametrize("entry", COAX, ids=code)
def test_impedance_follows_from_the_dimensions(entry: CableEntry) -> None:
    """Z0 = 59.96·VF·ln(D/d) within 0.3 %; a bundle of seven strands counts as 0.94 of its width."""
    sheet, layers = entry.cable.sheet, entry.cable.layers
    assert sheet.delay_s_per_m
    velocity = 1 / (sheet.delay_s_per_m * SPEED_OF_LIGHT_M_PER_S)
    inner = layers[0].outside_diameter_m * (1.0 if entry.cable.solid_conductor else 0.94)
    ratio = layers[1].outside_diameter_m / inner
    assert 59.96 * velocity * math.log(ratio) == pytest.approx(sheet.impedance_ohm, rel=0.003)


@pytest.mark.parametrize(
    "entry",
    [entry for entry in ALL.values() if entry.cable.sheet.resistance_conductor_ohm_per_m],
    ids=code,
)
def test_resistance_follows_from_the_copper(entry: CableEntry) -> None:
    """ρ/A for a solid wire within 0.2 %; stranded wire up to 7 % more, for its lay."""
    sheet = entry.cable.sheet
    assert sheet.conductor_area_m2 is not None
    assert sheet.resistance_conductor_ohm_per_m is not None
    ratio = sheet.resistance_conductor_ohm_per_m * sheet.conductor_area_m2 / COPPER_OHM_M
    if entry.cable.solid_conductor:
        assert ratio == pytest.approx(1.0, rel=0.002)
    else:
        assert 0.998 <= ratio <= 1.07


@pytest.mark.parametrize("entry", COAX, ids=code)
def test_loss_rises_between_root_and_first_power_of_frequency(entry: CableEntry) -> None:
    """Conductor loss goes with √f and dielectric loss with f, so every step lies between."""
    points = entry.cable.sheet.loss_points
    for lower, upper in itertools.pairwise(points):
        ratio = upper.frequency_hz / lower.frequency_hz
        # Printed to two digits at the lowest point: 3 % is its rounding.
        assert math.sqrt(ratio) * 0.97 <= upper.loss_db_per_m / lower.loss_db_per_m <= ratio


def test_aliases_mean_one_cable_each() -> None:
    """No word of customers stands for two cables, nor for a code that is another's."""
    words = [alias.casefold() for entry in ALL.values() for alias in entry.aliases]
    assert len(words) == len(set(words))
    assert not {word for word in words if word in {each.casefold() for each in ALL}}
