"""Facts of the trade that must come out of the engine over the demo workshop's cables and drawings.

Common practice, no published source; none of them is typed in anywhere.
"""

from dataclasses import replace
from itertools import pairwise

import pytest

from reelwright.core.ends.fit.compatibility import judge_fit
from reelwright.core.ends.fit.joining import judge_joining, ways_to_join
from reelwright.core.ends.order.burr import judge_burr
from reelwright.core.ends.order.search import ProposedStep, judge_order
from reelwright.core.ends.order.steps import EndSetUp, end_work, order_of_work
from reelwright.core.ends.strip.blades import Blade, plan_blades
from reelwright.core.ends.strip.checks import judge_strip
from reelwright.core.ends.strip.cuts import cuts_of
from reelwright.core.ends.strip.levels import needed_levels
from reelwright.core.ends.strip.plan import (
    MACHINE_STRIP_TOLERANCES,
    StripPlan,
    WireStrip,
    plan_strip,
)
from reelwright.core.ends.strip.spread import COMMON_STRIP_SPREAD
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.verdicts import Outcome, Reason
from reelwright.demo.set_ups import SetUpEntry
from tests.demo.test_set_ups import CABLES, CONNECTORS, SET_UPS, dies_of, name

DRAWN = [each for each in SET_UPS if CONNECTORS[each.connector_code].drawing]
CRIMPED = [each for each in DRAWN if each.connector_code.startswith(("BNC", "RCA"))]
PAIRS = [
    pytest.param(cable, connector, id=f"{cable.code}-{connector.code}")
    for connector in CONNECTORS.values()
    for cable in CABLES.values()
    if connector.drawing is not None and judge_fit(cable, connector).possible
]


def strip_of(entry: SetUpEntry) -> StripPlan | WireStrip:
    """The strip of a set-up as its sheet lays it down, from the drawing where there is one."""
    connector = CONNECTORS[entry.connector_code]
    if connector.drawing is not None:
        planned = plan_strip(
            connector.drawing, tolerances=MACHINE_STRIP_TOLERANCES, method=connector.method
        )
        assert isinstance(planned, StripPlan)
        return planned
    numbers = entry.numbers
    assert numbers.cores_bared_mm is not None
    return WireStrip(
        jacket_back_mm=None if numbers.jacket_back_mm is None else float(numbers.jacket_back_mm),
        bared_mm=float(numbers.cores_bared_mm),
        tolerance_mm=float(numbers.cores_bared_tolerance_mm or 0),
    )


def set_up_of(entry: SetUpEntry) -> EndSetUp:
    """What the set-up says of one end."""
    return EndSetUp(
        method=CONNECTORS[entry.connector_code].method,
        strip=strip_of(entry),
        boot=True,
        program=entry.numbers.program or None,
        pin_die=None,
        ferrule_die=None,
    )


def pair(entry: SetUpEntry) -> tuple[Cable, Connector]:
    """The cable and the connector of a set-up."""
    return CABLES[entry.cable_code], CONNECTORS[entry.connector_code]


@pytest.mark.parametrize(("cable", "connector"), PAIRS)
def test_phono_and_bnc_ends_need_three_levels_and_the_crimp(
    cable: Cable, connector: Connector
) -> None:
    """On every cable that fits: three levels and the crimp; F two levels and compression."""
    levels, ways = needed_levels(cable, connector), ways_to_join(cable, connector)
    assert not isinstance(levels, Reason)
    assert not isinstance(ways, Reason)
    allowed = [way.method for way in ways if way.works]
    if connector.mating == "F":
        assert len(levels) == 2
        assert allowed == [Method.COMPRESSION]
    else:
        assert len(levels) == 3
        assert allowed == [Method.CRIMP_CRIMP]


def test_all_mating_faces_with_a_stem_are_among_them() -> None:
    """BNC, phono and F are each tried on a cable that fits."""
    assert {param.values[1].mating for param in PAIRS} == {"BNC", "phono", "F"}


@pytest.mark.parametrize("entry", SET_UPS, ids=name)
def test_a_sheet_has_as_many_levels_as_its_connector_needs(entry: SetUpEntry) -> None:
    """Levels typed on the sheet, cuts of its strip and places of the connector agree."""
    cable, connector = pair(entry)
    levels, cuts = needed_levels(cable, connector), cuts_of(cable, strip_of(entry))
    assert not isinstance(levels, Reason)
    assert not isinstance(cuts, Reason)
    assert entry.numbers.levels == len(levels) == len(cuts)
    positions = [cut.position_mm for cut in cuts if cut.position_mm is not None]
    assert all(first <= second for first, second in pairwise(positions))


@pytest.mark.parametrize("entry", DRAWN, ids=name)
def test_every_released_strip_is_what_its_end_asks_for(entry: SetUpEntry) -> None:
    """Nothing is bad: hole, bottom, ferrule, fold, ovality, axis; growth may want a look."""
    cable, connector = pair(entry)
    checks = judge_strip(
        strip_of(entry), cable, connector, spread=COMMON_STRIP_SPREAD, dies=dies_of(entry)
    )
    assert len(checks) >= 3
    assert [check.name for check in checks if check.outcome is Outcome.BAD] == []
    cautions = {check.name for check in checks if check.outcome is Outcome.CAUTION}
    assert cautions <= {"pin growth"}
    assert judge_joining(cable, connector).outcome is Outcome.GOOD


@pytest.mark.parametrize("entry", CRIMPED, ids=name)
def test_strip_lengths_lie_where_the_trade_has_them(entry: SetUpEntry) -> None:
    """a 3.4 to 5.5, b 3.0 to 5.2, c 5.5 to 8.2 mm: about the 3.5–4.5, 4.5–6.0, 6.5–9.0 usual."""
    strip = strip_of(entry)
    assert isinstance(strip, StripPlan)
    assert 3.0 <= strip.conductor_mm <= 6.0
    assert 3.0 <= strip.dielectric_mm <= 6.0
    assert 5.0 <= strip.braid_mm <= 9.0


def blades_of(entry: SetUpEntry, blade_mm: float) -> tuple[Blade, ...]:
    """The blades of a set-up with a spread of their closing diameter."""
    found = plan_blades(
        CABLES[entry.cable_code],
        strip_of(entry),
        replace(COMMON_STRIP_SPREAD, blade_m=blade_mm / 1e3),
    )
    assert not isinstance(found, Reason)
    return found


@pytest.mark.parametrize("entry", DRAWN, ids=name)
def test_fresh_blades_spoil_few_strips_and_dull_ones_more(entry: SetUpEntry) -> None:
    """Some 2 % with fresh blades (at most 5 here); dull ones, straying 0.05 mm, spoil more."""
    fresh = sum(each.nick_chance + each.uncut_chance for each in blades_of(entry, 0.02))
    dull = sum(each.nick_chance + each.uncut_chance for each in blades_of(entry, 0.05))
    assert 0.0005 < fresh < 0.05
    assert dull > 1.5 * fresh


@pytest.mark.parametrize("entry", DRAWN, ids=name)
def test_a_conductor_is_nicked_less_often_than_once_in_a_thousand(entry: SetUpEntry) -> None:
    """At the best closing, which lies by the trade's own range."""
    first = blades_of(entry, 0.02)[0]
    assert first.nick_chance < 1e-3
    assert first.closes_low_mm - 0.05 <= first.best_mm <= first.closes_high_mm + 0.05


def test_a_burr_wants_a_trim_before_the_pin_where_the_bore_is_tight() -> None:
    """Cut by shears: on every BNC and F end; the phono plug's wide pin lets the thin one pass."""
    wants = {
        (entry.cable_code, entry.connector_code): burr.outcome is Outcome.CAUTION
        for entry in DRAWN
        if (burr := judge_burr(*pair(entry))) is not None
    }
    assert all(trim for (_, connector), trim in wants.items() if connector[:3] in ("BNC", "F-7"))
    assert wants["VID-60", "RCA-60"]
    assert not wants["PHO-61", "RCA-60"]
    steps = [
        step.text
        for step in order_of_work(
            set_up_of(SET_UPS[0]), cable=CABLES["VID-70"], connector=CONNECTORS["BNC-70"]
        )
    ]
    trim, pin = "trim the burr off the conductor", "pin on, press it"
    assert steps.index(trim) < steps.index(pin)


@pytest.mark.parametrize("entry", CRIMPED, ids=name)
def test_nobody_assembles_an_end_whose_boot_was_not_threaded_first(entry: SetUpEntry) -> None:
    """On every crimped end the boot passes the jacket and not the fitted end: by its bore."""
    cable, connector = pair(entry)
    work = end_work(set_up_of(entry), cable=cable, connector=connector)
    boot = next(ring for ring in work.rings if ring.name == "boot")
    assert boot.passes(cable.jacket.largest_m)
    assert not boot.passes(work.widest_m)
    order = ["thread ferrule", "strip", *(["trim"] if work.burr else [])]
    order += ["pin", "body", "ferrule", "thread boot", "boot home"]
    checks = judge_order(
        [work], [ProposedStep(end="A", code=code) for code in order], other_end_made=True
    )
    bad = {check.name for check in checks if check.outcome is Outcome.BAD}
    assert "end A: slide the boot home" in bad
    good_order = ["thread boot", *[code for code in order if code != "thread boot"]]
    checks = judge_order(
        [work], [ProposedStep(end="A", code=code) for code in good_order], other_end_made=True
    )
    assert {check.outcome for check in checks} == {Outcome.GOOD}
