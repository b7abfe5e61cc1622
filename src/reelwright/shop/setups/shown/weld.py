"""A weld's energy by the shop's own gauges: the law, this gauge, and what the welder can do."""

from dataclasses import dataclass

import numpy as np

from reelwright.charts.weld_law import (
    KnownPoint,
    LawPoint,
    WeldLaw,
    WeldLawChart,
    WeldLawRow,
    draw_weld_law,
)
from reelwright.core.ends.weld.energy import judge_barrel, judge_gauges, judge_welder
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.parts.layers import LayerRole
from reelwright.core.quantities.show import show_in, show_percent
from reelwright.core.quantities.show_scaled import show_area_m2, show_awg
from reelwright.core.quantities.words import sentence
from reelwright.core.trials.weld_energy import CONFIDENCE, EnergyGuess, EnergyLaw, guess_energy
from reelwright.core.verdicts import Check
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.to_core import WeldedGauge
from reelwright.shop.tools.machines import welders

_GAUGES = (18, 16, 14, 12, 10, 8, 6)


@dataclass(frozen=True, kw_only=True)
class GaugeRow:
    """One gauge against welder and plug, as the table shows it."""

    gauge: str
    area: str
    energy: str
    outcome: str
    why: str


@dataclass(frozen=True, kw_only=True)
class WeldView:
    """What the part of the page says; ``chart`` is None where no law can be drawn."""

    answer: str
    chart: WeldLawChart | None
    checks: tuple[tuple[str, str], ...]
    gauges: tuple[GaugeRow, ...]
    welder: str


def weld_view(
    sheet: SetUpSheet, cable: Cable, connector: Connector, known: tuple[WeldedGauge, ...]
) -> WeldView | None:
    """Return the energy of a weld by the gauges ``known`` to the shop; None for any other end."""
    area_m2 = cable.sheet.conductor_area_m2
    if sheet.method is not Method.WELD or area_m2 is None:
        return None
    gauges = [each.gauge for each in known]
    guess = guess_energy(gauges, area_m2=area_m2, confidence=CONFIDENCE)
    machine = next(iter(welders()), None)

    def energy_of_j(asked_m2: float) -> float | None:
        return guess_energy(gauges, area_m2=asked_m2, confidence=CONFIDENCE).energy_j

    checks: list[Check] = []
    conductor = cable.layer(LayerRole.CONDUCTOR)
    wanted_j = sheet.numbers.weld_energy_j or guess.energy_j
    if machine is not None and wanted_j is not None:
        checks.append(judge_welder(machine, energy_j=wanted_j, area_m2=area_m2))
    if conductor is not None and connector.accepts_conductor is not None:
        checks.append(
            judge_barrel(conductor_m=conductor.largest_m, takes=connector.accepts_conductor)
        )
    rows: tuple[GaugeRow, ...] = ()
    if machine is not None and connector.accepts_conductor is not None:
        rows = tuple(
            GaugeRow(
                gauge=show_awg(each.awg),
                area=show_area_m2(each.area_m2),
                energy="" if each.energy_j is None else show_in(each.energy_j, "J", decimals=0),
                outcome=str(max((c.outcome for c in each.checks), key=lambda o: o.rank)),
                why=sentence(max(each.checks, key=lambda c: c.outcome.rank).sentence),
            )
            for each in judge_gauges(
                machine, connector.accepts_conductor, energy_of_j, gauges=_GAUGES
            )
        )
    return WeldView(
        answer=_answer(sheet, guess),
        chart=None if guess.law is None else _chart(guess.law, guess, known, area_m2, cable.code),
        checks=tuple((str(each.outcome), sentence(each.sentence)) for each in checks),
        gauges=rows,
        welder="" if machine is None else machine.code,
    )


def _answer(sheet: SetUpSheet, guess: EnergyGuess) -> str:
    own_j = sheet.numbers.weld_energy_j
    if own_j is None:
        return sentence(guess.sentence)
    if guess.energy_j is None:
        return sentence(
            f"the set-up welds with {show_in(own_j, 'J', decimals=0)}; {guess.sentence}"
        )
    return (
        f"The set-up welds with {show_in(own_j, 'J', decimals=0)}; the law through the shop's own "
        f"gauges says {show_in(guess.energy_j, 'J', decimals=0)}."
    )


def _chart(
    law: EnergyLaw,
    guess: EnergyGuess,
    known: tuple[WeldedGauge, ...],
    area_m2: float,
    code: str,
) -> WeldLawChart:
    ends = (min(law.smallest_m2, area_m2) / 1.5, max(law.largest_m2, area_m2) * 1.7)
    asked = None if guess.energy_j is None else _point(law, area_m2)
    drawn = WeldLaw(
        title=f"Weld energy by area, with {code}",
        curve=tuple(_point(law, float(each)) for each in np.geomspace(*ends, 41)),
        known=tuple(
            KnownPoint(
                name=each.name,
                area_m2=each.gauge.area_m2,
                energy_j=each.gauge.energy_j,
            )
            for each in known
        ),
        asked=asked,
    )
    rows = [
        WeldLawRow(
            what=point.name,
            area=show_area_m2(point.area_m2),
            energy=show_in(point.energy_j, "J", decimals=0),
            law=_banded(_point(law, point.area_m2)),
        )
        for point in drawn.known
    ]
    if asked is not None:
        rows.append(
            WeldLawRow(what=code, area=show_area_m2(area_m2), energy="", law=_banded(asked))
        )
    return draw_weld_law(drawn, tuple(rows))


def _point(law: EnergyLaw, area_m2: float) -> LawPoint:
    band = law.band_j(area_m2=area_m2, confidence=CONFIDENCE)
    return LawPoint(
        area_m2=area_m2,
        energy_j=law.energy_j(area_m2=area_m2),
        low_j=None if band is None else band[0],
        high_j=None if band is None else band[1],
    )


def _banded(point: LawPoint) -> str:
    told = show_in(point.energy_j, "J", decimals=0)
    if point.low_j is None or point.high_j is None:
        return told
    return (
        f"{told} ({point.low_j:.0f} to {show_in(point.high_j, 'J', decimals=0)} with "
        f"{show_percent(CONFIDENCE)})"
    )
