"""Which set-ups a cavity serves, and how far it may still wear."""

from decimal import Decimal

import pytest

from reelwright.core.ends.dies.cavities import Cavity, CavityUse, WidthReading
from reelwright.core.ends.fit.grip import ferrule_window_m
from reelwright.core.parts.connector import Method
from reelwright.core.verdicts import Outcome
from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.shop.setups.sheet import Numbers, SetUpSheet
from reelwright.shop.setups.shown import cavity_uses as module
from reelwright.shop.setups.states import State
from tests.small_world import TODAY

CABLES = {entry.cable.code: entry.cable for entry in coax_entries()}
CONNECTORS = {entry.connector.code: entry.connector for entry in connector_entries()}
PAIR = ("VID-60", "BNC-60")


def sheet(pair: tuple[str, str], code: str, ferrule_mm: str | None) -> SetUpSheet:
    """A released set-up that names a ferrule die."""
    return SetUpSheet(
        revision_id=1,
        code=code,
        letter="A",
        cable_code=pair[0],
        connector_code=pair[1],
        method=Method.CRIMP_CRIMP,
        state=State.RELEASED,
        drafted_on=TODAY,
        drafted_by="Ada",
        approved_on=TODAY,
        approved_by="Ada",
        numbers=Numbers(
            levels=3,
            press_min_per_end=Decimal(1),
            ferrule_die_mm=None if ferrule_mm is None else Decimal(ferrule_mm),
        ),
    )


def cavity(gauged_m: float | None, use: CavityUse = CavityUse.FERRULE) -> Cavity:
    """A cavity of 6.48 mm by its engraving."""
    return Cavity(
        code="F-6.48",
        use=use,
        engraved_m=6.48e-3,
        reading=None
        if gauged_m is None
        else WidthReading(across_flats_m=gauged_m, standard_uncertainty_m=3e-6),
        closings_count=0,
        due_count=1000,
        in_service=True,
    )


@pytest.fixture
def shop(monkeypatch: pytest.MonkeyPatch) -> None:
    """One set-up of the width, one of another, one without a ferrule die; no database asked."""
    standing = {
        PAIR: sheet(PAIR, "T-1", "6.48"),
        ("VID-70", "BNC-70"): sheet(("VID-70", "BNC-70"), "T-2", "8.23"),
        ("VID-60", "RCA-60"): sheet(("VID-60", "RCA-60"), "T-3", None),
    }
    monkeypatch.setattr(module, "standing_set_ups", lambda: standing)
    monkeypatch.setattr(module, "cables", lambda: CABLES)
    monkeypatch.setattr(module, "connectors", lambda: CONNECTORS)


@pytest.mark.usefixtures("shop")
@pytest.mark.parametrize(
    ("off_mm", "outcome", "told"),
    [
        (-0.004, Outcome.GOOD, "it may wear by 0.004"),
        (+0.004, Outcome.BAD, "too wide by 0.004"),
    ],
    ids=["inside", "outside"],
)
def test_a_cavity_serves_until_it_is_wider_than_the_window(
    off_mm: float, outcome: Outcome, told: str
) -> None:
    """Four micrometres inside the widest that grips, and four outside it."""
    window_m = ferrule_window_m(CABLES[PAIR[0]], CONNECTORS[PAIR[1]])
    assert window_m is not None
    (row,) = module.cavity_uses([cavity(window_m[1] + off_mm / 1e3)])["F-6.48"]
    assert (row.name, row.pair, row.outcome) == ("T-1 rev A", "VID-60 in BNC-60", outcome)
    assert told in row.told


@pytest.mark.usefixtures("shop")
def test_too_narrow_minds_and_an_unknown_window_is_not_computed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What spares the tightest no more is a caution; what the drawing does not give is told."""
    window_m = ferrule_window_m(CABLES[PAIR[0]], CONNECTORS[PAIR[1]])
    assert window_m is not None
    (row,) = module.cavity_uses([cavity(window_m[0] - 1e-5)])["F-6.48"]
    assert row.outcome is Outcome.CAUTION
    assert "narrower by 0.010" in row.told
    monkeypatch.setattr(module, "ferrule_window_m", lambda *_: None)
    (row,) = module.cavity_uses([cavity(None)])["F-6.48"]
    assert row.outcome is Outcome.NOT_COMPUTED


@pytest.mark.usefixtures("shop")
def test_a_pin_cavity_of_the_same_width_serves_none_of_them() -> None:
    """The use counts with the width."""
    assert module.cavity_uses([cavity(None, CavityUse.PIN)]) == {"F-6.48": ()}
