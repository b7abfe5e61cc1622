"""The tables of metals and dielectrics."""

import pytest

from reelwright.core.errors import BadValue
from reelwright.core.materials.dielectrics import DIELECTRICS, FOAMED_FEP, Dielectric
from reelwright.core.materials.metals import COPPER, METALS


def test_every_row_names_its_source() -> None:
    """No metal and no dielectric stands without a source that says how well it is founded."""
    assert all("memory" in str(row.source) for row in (*METALS, *DIELECTRICS))


def test_copper_is_the_second_best_conductor() -> None:
    """Silver conducts better than copper, aluminium and all others worse."""
    ranked = sorted(METALS, key=lambda metal: metal.resistivity_ohm_m)
    assert [metal.name for metal in ranked[:3]] == ["silver", COPPER.name, "aluminium 1350"]


def test_foamed_fluoropolymer_has_the_speed_of_the_plenum_types() -> None:
    """The permittivity of foamed FEP gives the velocity factor 0.84 it was derived from."""
    assert FOAMED_FEP.velocity_factor == pytest.approx(0.84, abs=0.0005)


def test_a_band_upside_down_and_a_permittivity_below_vacuum_are_refused() -> None:
    """A dielectric that is faster than light or has no band cannot be built."""
    row = {
        "name": "x",
        "relative_permittivity": 1.5,
        "loss_tangent_low": 1e-4,
        "loss_tangent_high": 2e-4,
        "source": COPPER.source,
    }
    for change in ({"relative_permittivity": 0.9}, {"loss_tangent_low": 3e-4}):
        with pytest.raises(BadValue):
            Dielectric(**{**row, **change})  # type: ignore[arg-type]
