"""Strength of ends: least pulls by rule set, hold of coax, strands hurt, bends."""

from collections.abc import Callable

from reelwright.core.ends.strength.pull_rules import (
    PullMinimum,
    PullRules,
    Wire,
    WireMetal,
    rule_set,
)
from reelwright.core.ends.strength.pull_rules.cable_retention import (
    POUND_FORCE_N,
    USUAL_RETENTION_N,
)
from reelwright.core.ends.strength.strands import StrandRules, StrippedWire, strands_allowed
from reelwright.core.parts.bend import (
    COAX_BEND,
    DATA_PAIR_BEND,
    POLYIMIDE_BEND,
    BendRule,
    judge_bend,
    straight_at_end_m,
)
from reelwright.core.quantities.convert import awg_area_m2
from reelwright.core.statistics.tolerance import (
    confidence_above,
    one_sided_tolerance_factor,
    sample_without_failure,
)
from reelwright.core.verdicts import Outcome
from tests.references.harness import (
    Basis,
    ReferenceCheck,
    absolute,
    exact,
    reference_test,
    relative,
    rows_of,
)

_AS_PRINTED = exact(because="a table is looked up, not computed")
_COLUMNS = "as two application specifications of terminals print it, tables of tensile force"


def _wire(
    awg: int | None = None,
    area_mm2: float | None = None,
    *,
    coax: bool = False,
    lead: bool = False,
    break_n: float | None = None,
) -> Wire:
    area_m2 = None if area_mm2 is None else area_mm2 * 1e-6
    if area_m2 is None and awg is not None:
        area_m2 = awg_area_m2(awg)
    return Wire(
        metal=WireMetal.COPPER,
        awg=awg,
        area_m2=area_m2,
        solid=False,
        coax=coax,
        grounding_lead=lead,
        break_n=break_n,
    )


def _asked_n(rules: PullRules, wire: Wire) -> float:
    found = rule_set(rules).minimum_for(wire)
    assert isinstance(found, PullMinimum), found
    return found.minimum_n


def _column(rules: PullRules, column: str, rows: dict[str, float]) -> tuple[ReferenceCheck, ...]:
    def gauge(named: str) -> int:
        return int(named) if "/" not in named else 1 - int(named[0])

    return tuple(
        ReferenceCheck(
            id=f"strength.{rules}.{named.replace('/', '_')}",
            module="core.ends.strength.pull_rules",
            quantity=f"least pull of a crimp on {named} AWG, {rules} column",
            source=f"{column}, {_COLUMNS}",
            basis=Basis.SEEN,
            expected=force_n,
            unit="N",
            within=_AS_PRINTED,
            ours=lambda named=named: _asked_n(rules, _wire(gauge(named))),  # type: ignore[misc]
        )
        for named, force_n in rows.items()
    )


_COMMERCIAL = {
    "26": 13.4, "24": 22.3, "22": 35.6, "20": 57.9, "18": 89.0, "16": 133.5, "14": 222.5,
    "12": 311.5, "10": 356.0, "8": 400.5, "6": 445.0, "4": 623.0, "2": 801.0, "1/0": 1112.5,
    "2/0": 1235.0,
}  # fmt: skip
_MILITARY = {
    "26": 31.1, "24": 44.5, "22": 66.7, "20": 84.5, "18": 169.0, "16": 222.5, "14": 311.5,
    "12": 489.3, "10": 667.2,
}  # fmt: skip
_IEC = {
    0.05: 6.0, 0.08: 11.0, 0.12: 15.0, 0.14: 18.0, 0.22: 28.0, 0.25: 32.0, 0.32: 40.0, 0.5: 60.0,
    0.75: 85.0, 0.82: 90.0, 1.0: 108.0, 1.3: 135.0, 1.5: 150.0, 2.1: 200.0, 2.5: 230.0, 3.3: 275.0,
    4.0: 310.0, 5.3: 355.0, 6.0: 360.0, 8.4: 370.0, 10.0: 380.0,
}  # fmt: skip


def _pounds(force_n: float) -> float:
    return force_n / POUND_FORCE_N


def _strands(awg: int, strands: int) -> tuple[int, int]:
    allowed = strands_allowed(
        StrippedWire(awg=awg, strands=strands, nicked_strands=0, broken_strands=0, aluminium=False),
        StrandRules.AIRCRAFT_WIRE,
    )
    assert allowed is not None
    return allowed


def _shield(strands: int) -> tuple[int, int]:
    allowed = strands_allowed(
        StrippedWire(
            awg=None, strands=strands, nicked_strands=0, broken_strands=0, aluminium=False
        ),
        StrandRules.SPACE_SHIELD,
    )
    assert allowed is not None
    return allowed


def _least_radius(rule: BendRule, outcomes: tuple[Outcome, ...]) -> float:
    """The smallest radius over the diameter that ends so, found by trying, to a thousandth."""
    diameter_m = 6e-3
    low, high = 1.0, 20.0
    while high - low > 1e-4:
        middle = (low + high) / 2
        check = judge_bend(outside_diameter_m=diameter_m, radius_m=middle * diameter_m, rule=rule)
        low, high = (low, middle) if check.outcome in outcomes else (middle, high)
    return high


_BENT = absolute(1e-3, because="found by halving to a ten-thousandth")
_ALLOWED = (Outcome.GOOD, Outcome.CAUTION)
_FAA = "FAA AC 43.13-1B (1998), Table 11-13"
_NASA = "NASA-STD-8739.4 Change 6"
_row = rows_of(
    "core.ends.strength.pull_rules",
    prefix="strength.",
    others={"strands": "core.ends.strength.strands", "bend": "core.parts.bend",
            "factor": "core.statistics", "zero": "core.statistics",
            "confidence": "core.statistics"},
)  # fmt: skip


def _strand_rows(gauge: int, strands: int, nicked: int, broken: int) -> tuple[ReferenceCheck, ...]:
    def what(place: int) -> Callable[[], float]:
        return lambda: float(_strands(gauge, strands)[place])

    return tuple(
        _row(f"strands.faa.{strands}.{word}", f"strands of {strands} that may be {word}", _FAA,
             Basis.SEEN, float(most), "strands", _AS_PRINTED, what(place))
        for place, (word, most) in enumerate((("nicked", nicked), ("broken", broken)))
    )  # fmt: skip


CHECKS = (
    *_column(PullRules.COMMERCIAL, "UL 486A crimp values", _COMMERCIAL),
    *_column(PullRules.MILITARY, "MIL-T-7928/AS7928 column", _MILITARY),
    *(
        _row(f"iec.{area_mm2:g}", f"least pull-out force, {area_mm2:g} mm²",
             "IEC 60352-2:2006, Table 1", Basis.MEMORY, force_n, "N", _AS_PRINTED,
             lambda area_mm2=area_mm2: _asked_n(PullRules.IEC, _wire(area_mm2=area_mm2)))
        for area_mm2, force_n in _IEC.items()
    ),
    *(
        _row(f"nasa.{awg}", f"least pull of a grounding lead, {awg} AWG", f"{_NASA}, Table 13-1",
             Basis.SEEN, force_n, "N", _AS_PRINTED,
             lambda awg=awg: _asked_n(PullRules.NASA, _wire(awg, lead=True)))
        for awg, force_n in ((24, 36.0), (22, 57.0))
    ),
    _row("nasa.floor", "least pull of what is not tabulated, of a wire that holds 1000 N",
         f"{_NASA}, 13.7.4 and Table 13-1, note 1: 60 %", Basis.SEEN, 600.0, "N",
         relative(1e-12, because="one multiplication"),
         lambda: _asked_n(PullRules.NASA, _wire(18, break_n=1000.0))),
    _row("retention.55235", "hold of a coax in its connector", "MIL-DTL-55235A, 4.7.7: 45 lbf",
         Basis.SEEN, 45.0, "lbf", relative(1e-12, because="a conversion and back"),
         lambda: _pounds(_asked_n(PullRules.CABLE_RETENTION, _wire(18, coax=True)))),
    _row("retention.rg58", "usual hold of a medium crimped coax, for comparison",
         "MIL-PRF-39012 slash sheets and SCTE 123-124, 40 lbf class", Basis.MEMORY, 178.0, "N",
         relative(0.01, because="a class, printed to three digits"), lambda: USUAL_RETENTION_N[1]),
    _row("retention.rg213", "usual hold of a thick crimped coax, for comparison",
         "MIL-PRF-39012 slash sheets and SCTE 123-124, 60 lbf class", Basis.MEMORY, 267.0, "N",
         relative(0.01, because="a class, printed to three digits"), lambda: USUAL_RETENTION_N[2]),
    *_strand_rows(16, 19, 2, 0),
    *_strand_rows(12, 37, 4, 0),
    *_strand_rows(6, 133, 6, 6),
    *_strand_rows(2, 665, 6, 6),
    *_strand_rows(1, 817, 6, 6),
    *_strand_rows(0, 1045, 6, 6),
    *_strand_rows(-2, 1665, 6, 6),
    *_strand_rows(-3, 2109, 6, 6),
    _row("strands.shield", "strands of 100 in a screen that may be nicked", f"{_NASA}, 10.2: 10 %",
         Basis.SEEN, 10.0, "strands", _AS_PRINTED, lambda: float(_shield(100)[0])),
    _row("strands.shield.severed", "strands of a screen that may be severed", f"{_NASA}, 10.2",
         Basis.SEEN, 0.0, "strands", _AS_PRINTED, lambda: float(_shield(100)[1])),
    _row("bend.coax.least", "least radius of a coax over its diameter", f"{_NASA}, 7.3",
         Basis.SEEN, 6.0, "1", _BENT, lambda: _least_radius(COAX_BEND, _ALLOWED)),
    _row("bend.coax.recommended", "radius recommended for a coax over its diameter",
         f"{_NASA}, 7.3", Basis.SEEN, 10.0, "1", _BENT,
         lambda: _least_radius(COAX_BEND, (Outcome.GOOD,))),
    _row("bend.polyimide.least", "least radius with polyimide film over the diameter",
         "workmanship.nasa.gov 4.03; NASA-STD-8739.4, 7.3", Basis.SEEN, 10.0, "1", _BENT,
         lambda: _least_radius(POLYIMIDE_BEND, _ALLOWED)),
    _row("bend.polyimide.recommended", "radius recommended with polyimide film, over the diameter",
         "workmanship.nasa.gov 4.03; NASA-STD-8739.4, 7.3", Basis.SEEN, 15.0, "1", _BENT,
         lambda: _least_radius(POLYIMIDE_BEND, (Outcome.GOOD,))),
    _row("bend.straight", "straight run behind a finished coax end over its diameter",
         "workmanship.nasa.gov 4.04, best practice", Basis.SEEN, 6.0, "1",
         relative(1e-12, because="one multiplication"), lambda: straight_at_end_m(5e-3) / 5e-3),
    _row("bend.data", "least radius of unscreened data pairs in service, over the diameter",
         "ANSI/TIA-568", Basis.MEMORY, 4.0, "1", _BENT,
         lambda: _least_radius(DATA_PAIR_BEND, _ALLOWED)),
    _row("factor.25", "one-sided factor, n = 25, 99 % covered, 95 % sure",
         "non-central t quantiles, computed apart from the project", Basis.COMPUTED, 3.1580, "1",
         absolute(5.1e-5, because="four decimals are given"),
         lambda: one_sided_tolerance_factor(sample_size=25, coverage=0.99, confidence=0.95)),
    _row("confidence.pulls", "confidence that 99 % hold 194.25 N, ten pulls of 248 N, s 13.5 N",
         "worked problem “ten first-article pulls” of the trade, read backwards", Basis.COMPUTED,
         0.95, "1", absolute(2e-4, because="the limit is given to a hundredth of a newton"),
         lambda: confidence_above(limit=194.25, mean=248.0, deviation=13.5, sample_size=10,
                                  coverage=0.99)),
    *(
        _row(f"zero.{covered}", f"pulls without a failure for {covered} %, 95 % sure",
             "ln(1 − γ)/ln p, rounded up", Basis.COMPUTED, float(count), "pulls",
             exact(because="a count"),
             lambda covered=covered: float(
                 sample_without_failure(coverage=covered / 100, confidence=0.95)))
        for covered, count in ((95, 59), (98, 149), (99, 299))
    ),
)  # fmt: skip
test_strength = reference_test(CHECKS)
