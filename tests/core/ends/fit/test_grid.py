"""The grid of every cable with every connector."""

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.dies.cavities import Cavity, CavityUse, WidthReading
from reelwright.core.ends.fit.compatibility import Dies, judge_fit
from reelwright.core.ends.fit.contacts import judge_contacts
from reelwright.core.ends.fit.grid import Cell, CellState, PairSetUp, judge_cell, judge_grid
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.verdicts import Outcome
from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.demo.other_cables import other_entries
from reelwright.demo.set_ups import set_up_entries
from reelwright.demo.tools import CAVITIES
from tests.ends_world import AUD_BP, BNC_60, BNC_70, F_70, RCA_60, VID_60, VID_70, VID_70F, XLR_F

CABLES = {entry.cable.code: entry.cable for entry in (*coax_entries(), *other_entries())}
CONNECTORS = {entry.connector.code: entry.connector for entry in connector_entries()}
NO_DIES = Dies(pin_across_flats_m=None, ferrule_across_flats_m=None)
MICROPHONE = SignalNeeds(legs=2, balanced=True, phantom_power=True, screen=True, impedance_ohm=None)
VIDEO = SignalNeeds(legs=1, balanced=False, phantom_power=False, screen=True, impedance_ohm=75.0)


def metres(value_mm: object) -> float | None:
    """A die of the demo in metres."""
    return None if value_mm is None else float(str(value_mm)) / 1e3


def released(code: str = "T-1", *, pin_m: float | None = None) -> PairSetUp:
    """A released set-up with one die or none."""
    dies = Dies(pin_across_flats_m=pin_m, ferrule_across_flats_m=None)
    return PairSetUp(code=code, state="released", released=True, dies=dies)


def demo_set_ups() -> dict[tuple[str, str], PairSetUp]:
    """The set-ups of the demo workshop as the grid takes them."""
    return {
        (entry.cable_code, entry.connector_code): PairSetUp(
            code=entry.code,
            state=str(entry.state),
            released=str(entry.state) == "released",
            dies=Dies(
                pin_across_flats_m=metres(entry.numbers.pin_die_mm),
                ferrule_across_flats_m=metres(entry.numbers.ferrule_die_mm),
            ),
        )
        for entry in set_up_entries()
    }


def test_the_demo_workshops_grid_has_its_released_pairs_and_few_others() -> None:
    """Every set-up is possible and none contradicted; about a tenth of all pairs can be made."""
    set_ups = demo_set_ups()
    cells = judge_grid(CABLES.values(), CONNECTORS.values(), set_ups=set_ups)
    assert len(cells) == len(CABLES) * len(CONNECTORS)
    count = Counter(cell.state for cell in cells.values())
    assert count[CellState.RELEASED] == sum(each.released for each in set_ups.values())
    assert not [pair for pair, cell in cells.items() if cell.contradicted]
    developed = {pair for pair, cell in cells.items() if cell.state is CellState.TO_DEVELOP}
    assert ("VID-28", "BNC-28") in developed
    possible = count[CellState.RELEASED] + count[CellState.TO_DEVELOP]
    # Common practice, no published source: 8 to 15 % of the pairs of such a stock are real.
    assert 0.08 <= possible / len(cells) <= 0.15
    assert all(cell.reasons for cell in cells.values() if cell.state is CellState.IMPOSSIBLE)


def test_what_the_demo_workshop_never_makes_is_impossible_with_its_reason() -> None:
    """Phono on a jacket above its bore, XLR on coax, BNC on data: refused by name."""
    told = {
        ("VID-70F", "RCA-60"): "jacket 7.62\u202fmm > bore 6.30\u202fmm by 1.32\u202fmm",
        ("VID-60", "XLR3M"): "VID-60 has 1 conductor and a screen, XLR3M needs 3",
        ("SPK-16", "XLR3M"): "SPK-16 has 2 conductors, XLR3M needs 3",
        ("DAT-6", "BNC-60"): "takes coax, and DAT-6 is a cable of data pairs",
    }
    for (cable, connector), words in told.items():
        cell = judge_cell(CABLES[cable], CONNECTORS[connector])
        assert cell.state is CellState.IMPOSSIBLE
        assert any(words in reason.sentence for reason in cell.reasons), cell.reasons


def test_a_possible_pair_is_to_be_developed_until_its_set_up_is_released() -> None:
    """No set-up and one on trial are to be developed, a released one is released."""
    trial = PairSetUp(code="T-2", state="on trial", released=False, dies=NO_DIES)
    assert judge_cell(VID_60, BNC_60).state is CellState.TO_DEVELOP
    assert judge_cell(VID_60, BNC_60, set_up=trial).state is CellState.TO_DEVELOP
    assert judge_cell(VID_60, BNC_60, set_up=released()).state is CellState.RELEASED


def test_a_released_set_up_makes_no_impossible_pair_possible() -> None:
    """The millimetres stand, and the cell says that the set-up contradicts them."""
    cell = judge_cell(VID_70F, RCA_60, set_up=released())
    assert cell.state is CellState.IMPOSSIBLE
    assert cell.contradicted


def test_a_released_die_that_does_not_grip_is_to_be_developed_again() -> None:
    """The pair stays possible; the cell names the die and is contradicted."""
    cell = judge_cell(VID_70, BNC_70, set_up=released(pin_m=1.73e-3))
    assert cell.state is CellState.TO_DEVELOP
    assert cell.contradicted
    assert any("pin die" in reason.sentence for reason in cell.reasons)
    assert [check.name for check in cell.checks].count("contacts") == 1


def demo_cavities(**serves: bool) -> tuple[Cavity, ...]:
    """The cavities of the demo workshop; those named by ``P_1_60=False`` rest."""
    return tuple(
        Cavity(
            code=entry.code,
            use=CavityUse(entry.use),
            engraved_m=float(entry.across_flats_mm) / 1e3,
            reading=None,
            closings_count=entry.closings,
            due_count=entry.service_after,
            in_service=serves.get(entry.code.replace("-", "_").replace(".", "_"), True),
        )
        for entry in CAVITIES
    )


def test_a_released_set_up_without_its_cavity_is_not_made_as_released() -> None:
    """All dies in service: released; the pin die rests or is gone: to be developed, and why."""
    pair = ("VID-70", "BNC-70")
    set_up = demo_set_ups()[pair]

    def cell(cavities: tuple[Cavity, ...]) -> Cell:
        return judge_cell(CABLES[pair[0]], CONNECTORS[pair[1]], set_up=set_up, cavities=cavities)

    assert cell(demo_cavities()).state is CellState.RELEASED
    resting = cell(demo_cavities(P_1_60=False))
    assert resting.state is CellState.TO_DEVELOP
    assert resting.reasons[0].sentence.startswith("P-1.60 is out of service")
    gone = cell(tuple(each for each in demo_cavities() if each.code != "F-8.23"))
    assert "there is no ferrule die of 8.23" in gone.reasons[0].sentence
    assert gone.contradicted


def test_a_cavity_past_its_service_is_minded_and_a_worn_one_judged_by_its_reading() -> None:
    """Past its service the pair stays released with a caution; gauged too wide it does not."""
    pair = ("VID-60", "BNC-60")

    def cell(**other: object) -> Cell:
        cavities = tuple(
            replace(each, **other) if each.code == "F-6.48" else each  # type: ignore[arg-type]
            for each in demo_cavities()
        )
        return judge_cell(
            CABLES[pair[0]], CONNECTORS[pair[1]], set_up=demo_set_ups()[pair], cavities=cavities
        )

    due = cell(closings_count=60_001)
    assert due.state is CellState.RELEASED
    assert any("1 closings past" in check.sentence for check in due.cautions)
    worn = WidthReading(across_flats_m=6.56e-3, standard_uncertainty_m=3e-6)
    assert cell(reading=worn).state is CellState.TO_DEVELOP
    assert any("6.56" in reason.sentence for reason in cell(reading=worn).reasons)


def test_what_a_drawing_does_not_say_is_not_known() -> None:
    """A crimped connector without a drawing is neither possible nor impossible."""
    cell = judge_cell(VID_60, replace(BNC_60, drawing=None))
    assert cell.state is CellState.NOT_KNOWN
    assert cell.reasons


@pytest.mark.parametrize(
    ("cable", "connector", "needs", "code"),
    [
        (VID_60, BNC_60, MICROPHONE, "phantom_needs_two_legs"),
        (VID_60, BNC_60, MICROPHONE, "connector_unbalanced"),
        (VID_60, replace(BNC_60, impedance_ohm=50.0), VIDEO, "connector_of_other_impedance"),
    ],
    ids=["phantom", "unbalanced", "50 ohm"],
)
def test_a_pair_that_fits_is_impossible_for_a_signal_it_cannot_carry(
    cable: Cable, connector: Connector, needs: SignalNeeds, code: str
) -> None:
    """Logic refuses what the millimetres allow, and says which logic."""
    assert judge_cell(cable, connector).state is CellState.TO_DEVELOP
    cell = judge_cell(cable, connector, needs=needs, set_up=released())
    assert cell.state is CellState.IMPOSSIBLE
    assert code in [reason.code for reason in cell.reasons]
    assert judge_cell(AUD_BP, XLR_F, needs=MICROPHONE).state is CellState.TO_DEVELOP


def test_a_compressed_end_must_take_the_braid_folded_back() -> None:
    """A sleeve that passes the jacket but not the braid turned back over it is refused."""
    assert F_70.drawing is not None
    narrow = replace(F_70, drawing=replace(F_70.drawing, ferrule_bore_m=7.3e-3))
    assert judge_fit(VID_70, F_70).possible
    (reason,) = judge_fit(VID_70, narrow).reasons
    assert reason.code == "jacket_with_the_braid_folded_back"


def test_a_boot_that_does_not_pass_the_jacket_is_refused() -> None:
    """The boot is threaded first, so its bore decides like the ferrule's."""
    assert BNC_60.drawing is not None
    tight = replace(BNC_60, drawing=replace(BNC_60.drawing, boot_bore_m=6.0e-3))
    (reason,) = judge_fit(VID_60, tight).reasons
    assert reason.code == "jacket_in_the_boot"


def test_more_conductors_than_contacts_are_refused_and_a_screen_without_one_is_minded() -> None:
    """Two legs on one contact are bad; a screen that lands nowhere is a caution."""
    one = replace(XLR_F, contacts=1, shell_contact=True)
    assert judge_contacts(AUD_BP, one).outcome is Outcome.BAD
    two = replace(XLR_F, contacts=2, shell_contact=False)
    assert judge_contacts(AUD_BP, two).outcome is Outcome.CAUTION


def test_a_set_up_without_a_state_is_refused() -> None:
    """A nameless state would make every cell unreadable."""
    with pytest.raises(BadValue):
        PairSetUp(code="T-1", state=" ", released=False, dies=None)


@given(
    st.sampled_from(sorted(CABLES)),
    st.sampled_from(sorted(CONNECTORS)),
    st.integers(min_value=0, max_value=6),
    st.floats(min_value=1.0, max_value=5.0),
)
def test_loosening_a_tolerance_never_makes_an_impossible_pair_possible(
    cable_code: str, connector_code: str, which: int, factor: float
) -> None:
    """Whatever layer is made to vary more: an impossible pair stays impossible."""
    cable, connector = CABLES[cable_code], CONNECTORS[connector_code]
    at = which % len(cable.layers)
    looser = replace(
        cable,
        layers=tuple(
            replace(layer, tolerance_m=layer.tolerance_m * factor) if place == at else layer
            for place, layer in enumerate(cable.layers)
        ),
    )
    set_up = demo_set_ups().get((cable_code, connector_code))
    before = judge_cell(cable, connector, set_up=set_up).state
    after = judge_cell(looser, connector, set_up=set_up).state
    order = list(CellState)
    assert order.index(after) >= order.index(before)
