"""Power traces: read in whole or not at all, once, held against the good ones, taken back."""

import dataclasses
from decimal import Decimal

import pytest
from django.db import DatabaseError, connection, transaction

from reelwright.core.ends.weld.trace import compare_weld
from reelwright.core.errors import InputFaults
from reelwright.core.parts.connector import Method
from reelwright.core.verdicts import Outcome
from reelwright.demo.weld_traces import trace_file
from reelwright.shop.catalogue.services import connector_add
from reelwright.shop.setups import services as setups
from reelwright.shop.setups.welds.selectors import judged, weld_traces
from reelwright.shop.setups.welds.services import (
    TraceTaken,
    weld_trace_record,
    weld_trace_take_back,
)
from reelwright.shop.setups.welds.trace_file import MOST_MOMENTS, read_trace
from tests.shop.refusals import refused
from tests.shop.setups.conftest import COMPLETE
from tests.small_world import CABLE, CONNECTOR, SHEET, TODAY, SmallWorld

PLUG = dataclasses.replace(CONNECTOR, code="SW-WELD", method=Method.WELD)
WELDED = dataclasses.replace(
    COMPLETE,
    weld_horn="H-1",
    weld_energy_j=149.0,
    weld_pressure_kpa=230.0,
    weld_amplitude_um=40.0,
)
RAMP = "time_s,power_w,height_mm\n0,0,2.0\n0.1,200,1.9\n0.2,400,1.7\n0.3,400,1.5\n0.4,0,1.3\n"


@pytest.fixture
def welded(world: SmallWorld) -> int:
    """A revision of a weld, on trial: its number."""
    connector_add(by=world.ada, connector=PLUG, price=Decimal(2), loss_db=0.1, loss_source=SHEET)
    setups.set_up_add(by=world.ben, code="S-9", cable_code=CABLE.code, connector_code=PLUG.code)
    number: int = setups.revision_draft(
        by=world.ben,
        set_up_code="S-9",
        letter="A",
        numbers=WELDED,
        on=TODAY,
    ).pk
    setups.revision_try(by=world.ben, revision_id=number, on=TODAY)
    return number


def read(
    world: SmallWorld,
    revision_id: int,
    content: bytes,
    *,
    good: bool = True,
    reason: str = "",
    width_m: float | None = 2e-3,
) -> TraceTaken:
    """Read one trace in as Ben."""
    return weld_trace_record(
        by=world.ben,
        revision_id=revision_id,
        name="weld.csv",
        content=content,
        joint_width_m=width_m,
        good=good,
        reason=reason,
        on=TODAY,
    )


def test_a_trace_is_kept_with_what_it_comes_to_and_only_once(
    world: SmallWorld, welded: int
) -> None:
    """By hand: 0.1 s times 200, 400 and 400 W are 100 J; 2.0 mm less 1.3 mm are 0.7 mm."""
    first = read(world, welded, RAMP.encode())
    assert first.new
    assert read(world, welded, RAMP.encode()) == TraceTaken(number=first.number, new=False)
    (kept,) = weld_traces(welded)
    assert kept.features.energy_j == pytest.approx(100.0)
    assert kept.features.collapse_m == pytest.approx(0.7e-3)
    assert kept.joint_height_m == pytest.approx(1.3e-3)
    assert kept.curve == ((0.0, 0.0), (0.1, 200.0), (0.2, 400.0), (0.3, 400.0), (0.4, 0.0))


def test_the_sixth_is_held_against_five_good_ones(world: SmallWorld, welded: int) -> None:
    """Below five nothing is compared; a tinned wire is then found, and a good one is not."""
    for number in range(1, 6):
        read(world, welded, trace_file(number, tinned=False))
    traces = weld_traces(welded)
    assert {check.outcome for check in judged(traces[-1], traces)} == {Outcome.NOT_COMPUTED}
    tinned = trace_file(7, tinned=True)
    with refused("reason_missing"):
        read(world, welded, tinned)
    with refused("reason_missing"):
        read(world, welded, tinned, good=False)
    read(world, welded, tinned, good=False, reason="the wire was tinned")
    read(world, welded, trace_file(6, tinned=False))
    *_, doubtful, good = weld_traces(welded)
    told = {check.name: check.outcome for check in judged(doubtful, weld_traces(welded))}
    assert told["peak power"] is Outcome.BAD
    assert told["collapse of the joint"] is Outcome.BAD
    # The doubtful one is no measure for what comes after it.
    after = judged(good, weld_traces(welded))
    assert after == compare_weld(good.features, [one.features for one in traces])
    assert {check.outcome for check in after} == {Outcome.GOOD}


def test_a_trace_taken_back_is_no_measure_any_more(world: SmallWorld, welded: int) -> None:
    """It stays with its reason; the benches may not, and nothing is taken back twice."""
    number = read(world, welded, RAMP.encode()).number
    with refused("not_allowed"):
        weld_trace_take_back(by=world.ben, number=number, reason="wrong file", on=TODAY)
    with refused("reason_missing"):
        weld_trace_take_back(by=world.ada, number=number, reason=" ", on=TODAY)
    weld_trace_take_back(by=world.ada, number=number, reason="wrong file", on=TODAY)
    (kept,) = weld_traces(welded)
    assert not kept.serves
    assert kept.withdrawn == f"Ada, {TODAY:%Y-%m-%d}: wrong file"
    with refused("already_withdrawn"):
        weld_trace_take_back(by=world.ada, number=number, reason="again", on=TODAY)


def test_what_is_not_welded_takes_no_trace(world: SmallWorld, welded: int, drafted: int) -> None:
    """A soldered end, a viewer, a width that cannot be, a reason of a novel's length."""
    with refused("no_weld"):
        read(world, drafted, RAMP.encode())
    with refused("not_allowed"):
        weld_trace_record(
            by=world.vic,
            revision_id=welded,
            name="t.csv",
            content=RAMP.encode(),
            joint_width_m=None,
            good=True,
            reason="",
            on=TODAY,
        )
    with refused("width_impossible"):
        read(world, welded, RAMP.encode(), width_m=0.2)
    with refused("reason_long"):
        read(world, welded, RAMP.encode(), reason="x" * 201)
    setups.revision_withdraw(by=world.ada, revision_id=welded, on=TODAY, reason="old")
    with refused("not_welded_yet"):
        read(world, welded, RAMP.encode())
    assert weld_traces(welded) == ()


@pytest.mark.parametrize(
    ("content", "faults"),
    [
        ("time_s,power_w\n0,0\n0.1,x\n0.1,5\n0.3,-4\n0.4,0\n",
         [(3, "power_w"), (4, "time_s"), (5, "power_w")]),
        (RAMP.replace("1.7", ""), [(4, "height_mm")]),
        ("time_s,power_w\n0,0\n0.1,5\n0.2,0\n", [(None, None)]),
        ("time_s,power_w\n" + "".join(f"{t},0\n" for t in range(6)), [(None, None)]),
        ("time_s,watts\n0,0\n", [(1, "power_w"), (1, "watts")]),
        ("time_s,power_w\n" + "".join(f"{t / 1e3},9\n" for t in range(MOST_MOMENTS + 1)),
         [(None, None)]),
        ("", [(None, None)]),
    ],
    ids=["cells", "height", "short", "nothing", "columns", "long", "empty"],
)  # fmt: skip
def test_a_bad_file_is_told_whole(
    content: str, faults: list[tuple[int | None, str | None]]
) -> None:
    """Every fault with its row and column, all together."""
    with pytest.raises(InputFaults) as told:
        read_trace(name="t.csv", content=content.encode())
    assert [(one.row, one.field) for one in told.value.faults] == faults
    assert all(one.accepted for one in told.value.faults)


def test_the_database_itself_refuses_to_change_a_trace(world: SmallWorld, welded: int) -> None:
    """Also where the models are passed by."""
    number = read(world, welded, RAMP.encode()).number
    weld_trace_take_back(by=world.ada, number=number, reason="wrong file", on=TODAY)
    for table in ("setups_weldtrace", "setups_weldtracewithdrawal"):
        for change in (f"UPDATE {table} SET reason = 'x'", f"DELETE FROM {table}"):
            with (
                pytest.raises(DatabaseError, match="never changed"),
                transaction.atomic(),
                connection.cursor() as cursor,
            ):
                cursor.execute(change)
