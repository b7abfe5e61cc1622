"""What the engine would write into a set-up, from the drawings of the demo workshop."""

from decimal import Decimal

import pytest

from reelwright.core.ends.dies.cavities import Cavity, CavityUse
from reelwright.core.ends.fit.grid import judge_cell
from reelwright.core.trials.weld_energy import KnownGauge, guess_energy
from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.demo.other_cables import other_entries
from reelwright.demo.set_ups import COAXES
from reelwright.shop.setups import proposals
from reelwright.shop.setups.pair import PairNow
from reelwright.shop.setups.proposals import Proposal, proposed_for

COAX = {entry.cable.code: entry.cable for entry in coax_entries()}
ENDS = {entry.connector.code: entry.connector for entry in connector_entries()}


def cavity(use: CavityUse, engraved_mm: float) -> Cavity:
    """A fresh cavity in service."""
    return Cavity(
        code=f"{use[:1].upper()}-{engraved_mm}",
        use=use,
        engraved_m=engraved_mm / 1e3,
        reading=None,
        closings_count=0,
        due_count=1000,
        in_service=True,
    )


SERVED = (
    *(cavity(CavityUse.PIN, flats) for flats in (1.07, 1.60, 1.73)),
    *(cavity(CavityUse.FERRULE, flats) for flats in (4.52, 6.48, 8.23)),
)


def pair(cable: str, connector: str) -> PairNow:
    """A pair of the demo without its set-up."""
    return PairNow(
        cable=COAX[cable],
        connector=ENDS[connector],
        cell=judge_cell(COAX[cable], ENDS[connector]),
        sheet=None,
    )


@pytest.fixture
def served(monkeypatch: pytest.MonkeyPatch) -> None:
    """Six cavities in service, no database asked."""
    monkeypatch.setattr(proposals, "cavity_values", lambda: SERVED)


@pytest.mark.usefixtures("served")
@pytest.mark.parametrize("row", COAXES, ids=lambda row: row.code)
def test_every_coax_of_the_demo_is_stripped_as_its_drawing_asks(row: object) -> None:
    """The lengths typed into the demo agree with what is proposed, and so do the levels."""
    found = proposed_for(pair(row.cable, row.connector)).numbers  # type: ignore[attr-defined]
    parts = ("conductor", "dielectric", "braid")
    for part, length in zip(parts, row.strip, strict=True):  # type: ignore[attr-defined]
        assert found[f"strip_{part}_mm"].agrees(Decimal(length))
        assert not found[f"strip_{part}_mm"].agrees(Decimal(length) + Decimal("0.01"))
    crimped = row.pin_die is not None  # type: ignore[attr-defined]
    assert found["levels"].value == (3 if crimped else 2)


@pytest.mark.usefixtures("served")
def test_a_crimped_pair_is_offered_cavities_a_height_and_its_steps() -> None:
    """1.60 and 6.48 mm; the crimp 0.01 to 0.02 mm wider than its cavity; boot and ferrule first."""
    found = proposed_for(pair("VID-60", "BNC-60"))
    assert found.numbers["pin_die_mm"].value == Decimal("1.60")
    assert found.numbers["ferrule_die_mm"].value == Decimal("6.48")
    height = found.numbers["crimp_height_mm"]
    assert [height.agrees(Decimal(each)) for each in ("1.60", "1.61", "1.62", "1.63")] == [
        False,
        True,
        True,
        False,
    ]
    room = found.numbers["crimp_height_tolerance_mm"]
    assert room.high is not None
    assert room.agrees(room.high)
    assert not room.agrees(room.high + Decimal("0.001"))
    assert "oot" in found.steps[0]
    assert "errule" in found.steps[0]


@pytest.mark.usefixtures("served")
def test_a_die_outside_its_window_leads_to_no_height() -> None:
    """A pin die of 1.73 mm does not both grip and spare VID-60's conductor: that is said."""
    found = proposed_for(pair("VID-60", "BNC-60"), pin_die_mm=Decimal("1.73")).numbers
    assert found["crimp_height_mm"].value is None
    assert "1.73" in found["crimp_height_mm"].told
    assert "crimp_height_tolerance_mm" not in found


def test_where_no_cavity_serves_the_reason_stands_in_its_place(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """No die is made up: what to get is said, and no height follows."""
    monkeypatch.setattr(proposals, "cavity_values", lambda: ())
    found = proposed_for(pair("VID-60", "BNC-60")).numbers
    assert found["pin_die_mm"].value is None
    assert "none in service" in found["pin_die_mm"].told.lower()
    assert "crimp_height_mm" not in found


def test_what_is_not_proposed_disagrees_with_nothing() -> None:
    """A sentence without a number marks no difference."""
    offer = Proposal(told="Weld a gauge between first.", value=None, low=None, high=None)
    assert offer.agrees(Decimal(5))


GAUGES = tuple(
    KnownGauge(area_m2=area_m2, energy_j=energy_j)
    for area_m2, energy_j in ((1.31e-6, 96.0), (3.31e-6, 243.0), (5.26e-6, 378.0))
)


@pytest.mark.usefixtures("served")
def test_a_weld_is_offered_the_energy_of_the_law() -> None:
    """What the law guesses for 2.08 mm², its band as good; without gauges why there is none."""
    cable = next(entry.cable for entry in other_entries() if entry.cable.code == "SPK-14")
    connector = ENDS["BANANA"]
    now = PairNow(cable=cable, connector=connector, cell=judge_cell(cable, connector), sheet=None)
    guess = guess_energy(GAUGES, area_m2=2.08e-6, confidence=0.95)
    assert guess.energy_j is not None
    assert guess.low_j is not None
    offer = proposed_for(now, gauges=GAUGES).numbers["weld_energy_j"]
    assert offer.value == round(guess.energy_j)
    assert offer.agrees(Decimal(round(guess.low_j + 1)))
    assert not offer.agrees(Decimal(round(guess.low_j - 1)))
    alone = proposed_for(now).numbers["weld_energy_j"]
    assert alone.value is None
    assert "a law needs two" in alone.told
