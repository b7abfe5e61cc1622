"""Every public number of the core has its unit in its name, and its docstring agrees."""

import ast

import pytest

from tests.conventions.reading import CORE, parsed
from tests.conventions.units import is_pure, unit_faults, unit_of

BAD = '''
class Run:
    """A run; length [m]."""
    length: float
    delay: float | None

def loss(*, frequency: float, length_m: float) -> float:
    """Return the loss over length_m [ft]."""
'''


def test_every_public_number_of_the_core_has_its_unit_in_its_name() -> None:
    """No field or argument of the core is a bare number whose unit one would have to guess."""
    faults = [
        f"{path}: {fault}" for path, tree in parsed(CORE) for fault in unit_faults(tree, path)
    ]
    assert not faults, "\n".join(faults)


def test_a_number_without_unit_or_with_two_is_found() -> None:
    """The rule finds a bare field, a bare argument and a docstring that says another unit."""
    assert unit_faults(ast.parse(BAD)) == [
        "Run: length names no unit",
        "Run: delay names no unit",
        "loss: frequency names no unit",
        "loss: length_m is in m, its docstring says ft",
    ]


@pytest.mark.parametrize(
    ("name", "unit"),
    [
        ("length_m", "m"),
        ("loss_db_per_m", "dB/m"),
        ("resistivity_ohm_m", "Ω·m"),
        ("temperature_coefficient_per_k", "1/K"),
        ("conductor_db_per_m_per_root_hz", "dB/m/√Hz"),
        ("capacitance_f_per_m", "F/m"),
        ("length", None),
        ("m", None),
        ("length_per_day", None),
    ],
)
def test_units_are_read_from_names(name: str, unit: str | None) -> None:
    """The ending of a name gives its unit, and a name without one gives none."""
    assert unit_of(name) == unit


def test_counts_and_ratios_need_no_unit() -> None:
    """A count or a ratio is told by a word of its name, and a length is neither."""
    assert is_pure("velocity_factor", whole=False)
    assert is_pure("loss_tangent_low", whole=False)
    assert is_pure("conductors", whole=True)
    assert not is_pure("conductors", whole=False)
    assert not is_pure("length", whole=True)
