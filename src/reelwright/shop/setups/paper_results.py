"""What the sheet of a set-up prints of its engines and its readings: as its page shows them."""

from reelwright.core.ends.dies.cavities import CavityUse
from reelwright.core.ends.dies.pin_growth import MeasuredGrowth
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.words import sentence
from reelwright.core.verdicts import Check, Outcome
from reelwright.documents.set_up_sheet import (
    BladePrint,
    CrimpPrint,
    MeasuredRow,
    ModeRow,
    PullProof,
    TipPrint,
    Told,
    WeldPrint,
)
from reelwright.shop.setups.readings.given import laid_down_told
from reelwright.shop.setups.selectors import pulls
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.shown.blades import BladesView
from reelwright.shop.setups.shown.cavities import CrimpView, crimp_context
from reelwright.shop.setups.shown.heights import HeightsShown
from reelwright.shop.setups.shown.pin_tip import pin_tip_view
from reelwright.shop.setups.shown.pulls import pulls_shown
from reelwright.shop.setups.shown.weld import weld_view
from reelwright.shop.setups.states import Part
from reelwright.shop.setups.to_core import WeldedGauge

_MARKS = {
    Outcome.GOOD: "good",
    Outcome.CAUTION: "caution",
    Outcome.NOT_COMPUTED: "caution",
    Outcome.BAD: "bad",
}


_PARTS = {
    str(CavityUse.PIN): Part.PIN_CRIMP,
    str(CavityUse.FERRULE): Part.FERRULE_CRIMP,
}


def told(check: Check) -> Told:
    """Return a check as its sentence."""
    return Told(mark=_MARKS[check.outcome], sentence=sentence(check.sentence))


def blade_rows(blades: BladesView | None) -> tuple[BladePrint, ...]:
    """Return the cuts of a strip."""
    return tuple(
        BladePrint(
            name=row.name,
            position=row.position,
            closes=row.closes,
            best=row.best,
            nick=row.nick,
            uncut=row.uncut,
            mark=row.mark,
        )
        for row in (() if blades is None else blades.rows)
    )


def strip_told(blades: BladesView | None) -> tuple[Told, ...]:
    """Return what is wrong with a strip for its end, or why its blades cannot be told."""
    if blades is None:
        return ()
    if blades.refusal:
        return (Told(mark="bad", sentence=blades.refusal),)
    return tuple(
        told(check) for check in blades.checks if check.outcome in (Outcome.CAUTION, Outcome.BAD)
    )


def crimps(sheet: SetUpSheet, cable: Cable, connector: Connector) -> tuple[CrimpPrint, ...]:
    """Return the crimps of an end in the cavities that the page draws."""
    views: tuple[CrimpView, ...] = crimp_context(
        cable,
        connector,
        pin_mm=sheet.numbers.pin_die_mm,
        ferrule_mm=sheet.numbers.ferrule_die_mm,
    )["crimps"]
    return tuple(
        CrimpPrint(
            use=view.use,
            cavity=row.code,
            width=row.width,
            does=Told(mark=_MARKS[Outcome(row.outcome)], sentence=row.sentence),
            height=laid_down_told(sheet.numbers, _PARTS[view.use]),
            fits="" if view.height is None else view.height.told,
            force=None if view.force is None else told(view.force),
        )
        for view in views
        for row in view.rows
        if row.code == view.shown
    )


def tip(
    sheet: SetUpSheet, cable: Cable, connector: Connector, *, growth: MeasuredGrowth | None
) -> TipPrint | None:
    """Return where the pin's tip lands; None for ends without a pin that could land wrong."""
    view = pin_tip_view(sheet, cable, connector, growth=growth)
    if view is None:
        return None
    if "missing" in view:
        return TipPrint(told=(), window="", gauge="", missing=sentence(view["missing"]))
    return TipPrint(
        told=(
            Told(mark=_MARKS[view["outcome"]], sentence=sentence(view["headline"])),
            *map(told, view["checks"]),
        ),
        window=view["window"],
        gauge=view["gauge"] or "",
        missing="",
    )


def weld(
    sheet: SetUpSheet, cable: Cable, connector: Connector, known: tuple[WeldedGauge, ...]
) -> WeldPrint | None:
    """Return a weld's energy by the gauges ``known`` to the shop; None for any other end."""
    view = weld_view(sheet, cable, connector, known)
    if view is None:
        return None
    rows = () if view.chart is None else view.chart.table
    return WeldPrint(
        answer=view.answer,
        law=next((row.law for row in rows if row.what == cable.code), ""),
        told=tuple(Told(mark=_MARKS[Outcome(mark)], sentence=text) for mark, text in view.checks),
    )


def measured_rows(found: HeightsShown) -> tuple[MeasuredRow, ...]:
    """Return what was measured of the ends, part by part."""
    return tuple(
        MeasuredRow(
            name=row.name,
            laid_down=row.laid_down,
            count=str(row.count),
            mean=row.mean,
            spread=row.spread,
            outside="" if row.outside is None else str(row.outside or "none"),
            cpk="" if row.figures is None else row.figures.cpk,
            cpk_least="" if row.figures is None else row.figures.least,
            share="" if row.figures is None else row.figures.share,
        )
        for row in found.rows
    )


def measured_told(found: HeightsShown) -> tuple[Told, ...]:
    """Return what the tolerance of the height lets pass, what heights and strips show.

    Cuts that keep their tolerance are told by their figures alone.
    """
    first = () if found.laid_down is None else (found.laid_down,)
    strips = [each for each in found.strips.checks if each.outcome is not Outcome.GOOD]
    missing = [found.strips.missing] if found.rows else []
    if found.checks and not found.gauge_known:
        missing.append(found.gauge)
    return (
        *map(told, (*first, *found.checks, *strips)),
        *(Told(mark="caution", sentence=each) for each in missing if each),
    )


def pull_proof(sheet: SetUpSheet, cable: Cable) -> PullProof | None:
    """Return what the pulls show; None where no least pull is laid down yet."""
    shown = pulls_shown(sheet, cable, pulls(sheet.revision_id))
    if shown is None:
        return None
    return PullProof(
        mark=_MARKS[shown.check.outcome],
        sentence=sentence(shown.check.sentence),
        more=shown.more,
        modes=tuple(
            ModeRow(
                name=row.mode,
                count=str(row.count),
                weakest=row.weakest,
                mean=row.mean,
                spread=row.spread,
            )
            for row in shown.modes
        ),
        others=tuple(map(told, shown.others)),
        minimum=f"{shown.minimum} {shown.tester}".strip(),
    )
