"""What is told of a strip: where its blades close, how often they nick, what the end asks."""

from dataclasses import dataclass, replace

from reelwright.core.ends.dies.pin_growth import MeasuredGrowth
from reelwright.core.ends.fit.compatibility import Dies
from reelwright.core.ends.fit.joining import judge_joining
from reelwright.core.ends.order.burr import judge_burr
from reelwright.core.ends.strip.blades import Blade, plan_blades
from reelwright.core.ends.strip.checks import judge_strip
from reelwright.core.ends.strip.levels import needed_levels
from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.ends.strip.spread import COMMON_STRIP_SPREAD
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.show import show_length_mm, show_percent
from reelwright.core.quantities.words import sentence
from reelwright.core.verdicts import Check, Outcome, Reason
from reelwright.drawings.blades import draw_blades
from reelwright.shop.setups.end_view import end_dies, end_view
from reelwright.shop.setups.sheet import SetUpSheet

_RARE = 0.0001
_SAME_MM = 0.005
_MUCH = 0.03
"""Chance of a nick or of a layer left uncut from which a cut is shown with a caution: above the
about 2 % of strips that fresh blades spoil (common practice, no published source)."""


@dataclass(frozen=True, kw_only=True)
class BladeRow:
    """One cut of the table; figures with their units."""

    name: str
    position: str
    spares: str
    closes: str
    best: str
    outside: str
    nick: str
    uncut: str
    mark: str
    nick_means: str
    uncut_means: str
    draw_off: str


@dataclass(frozen=True, kw_only=True)
class BladesView:
    """The section "Blades": drawing, rows, checks; ``refusal`` where the layers forbid the cuts."""

    answer: str
    svg: str
    rows: tuple[BladeRow, ...]
    checks: tuple[Check, ...]
    levels: tuple[str, ...]
    spread: tuple[tuple[str, str], ...]
    spread_source: str
    sharp: bool
    worst: str
    refusal: str


def blades_view(
    strip: StripPlan | WireStrip,
    cable: Cable,
    connector: Connector,
    *,
    jacket: str,
    title: str,
    dies: Dies | None,
    growth: MeasuredGrowth | None = None,
) -> BladesView:
    """Return what is told of a strip's blades, and whether the strip suits its end.

    ``growth``: of measured pins, where there is a set-up that some were measured of.
    """
    spread = COMMON_STRIP_SPREAD
    blades = plan_blades(cable, strip, spread)
    checks = [*judge_strip(strip, cable, connector, spread=spread, dies=dies, growth=growth)]
    if connector.drawing is not None:
        checks.append(judge_joining(cable, connector))
    worst = _worst(checks)
    burr = judge_burr(cable, connector)
    if burr is not None:
        # It is answered by the trim among the steps, and so no caution of the strip.
        checks.append(burr)
    rows = () if isinstance(blades, Reason) else blades
    levels = needed_levels(cable, connector)
    return BladesView(
        answer=_answer(rows),
        svg=draw_blades(cable, rows, spread, jacket=jacket, title=f"{title}, blades")
        if rows
        else "",
        rows=tuple(map(_row, rows)),
        checks=tuple(replace(check, sentence=sentence(check.sentence)) for check in checks),
        levels=()
        if isinstance(levels, Reason)
        else tuple(sentence(f"{each.shows}: {each.because}") for each in levels),
        spread=_spread_rows(),
        spread_source=str(spread.source),
        sharp=any(each.fluoropolymer for each in rows),
        worst=worst,
        refusal=sentence(blades.sentence) if isinstance(blades, Reason) else "",
    )


def set_up_blades(
    sheet: SetUpSheet, cable: Cable, connector: Connector, *, growth: MeasuredGrowth | None
) -> BladesView | None:
    """Return what is told of a set-up's blades; None while it has no strip dimensions."""
    view = end_view(sheet, cable)
    if view is None:
        return None
    return blades_view(
        view.strip,
        cable,
        connector,
        jacket=view.jacket,
        title=sheet.name,
        dies=end_dies(sheet),
        growth=growth,
    )


def _worst(checks: list[Check]) -> str:
    """The outcome that decides, for the mark beside the heading."""
    worst = max((check.outcome for check in checks), key=lambda each: each.rank)
    return str(worst if worst is not Outcome.NOT_COMPUTED else Outcome.CAUTION)


def _row(blade: Blade) -> BladeRow:
    cut = blade.cut
    at_mm, away_mm = cut.position_mm, blade.draw_off_mm
    much = max(blade.nick_chance, blade.uncut_chance) > _MUCH
    return BladeRow(
        name=cut.name,
        position="as the job asks" if at_mm is None else show_length_mm(at_mm, decimals=2),
        spares=str(cut.spares.role),
        closes=f"{blade.closes_low_mm:.2f} to {show_length_mm(blade.closes_high_mm, decimals=2)}",
        best=show_length_mm(blade.best_mm, decimals=2),
        outside=_outside(blade),
        nick=_chance(blade.nick_chance),
        uncut=_chance(blade.uncut_chance),
        mark="caution" if much else "good",
        nick_means=sentence(blade.nick_means),
        uncut_means=sentence(blade.uncut_means),
        draw_off="" if away_mm is None else show_length_mm(away_mm, decimals=2),
    )


def _answer(blades: tuple[Blade, ...]) -> str:
    """How many strips of a hundred these blades spoil, by which of the two."""
    nicked = sum(blade.nick_chance for blade in blades)
    uncut = sum(blade.uncut_chance for blade in blades)
    return (
        f"Of 100 strips at the best closing about {_of_hundred(nicked)} are nicked and "
        f"{_of_hundred(uncut)} keep something uncut."
    )


def _of_hundred(chance: float) -> str:
    return f"{chance * 100:.1f}" if chance >= 0.0005 else "none"


def _outside(blade: Blade) -> str:
    """Why the best closing is not among the usual ones; empty where it is."""
    closer_mm = blade.closes_low_mm - blade.best_mm
    wider_mm = blade.best_mm - blade.closes_high_mm
    if closer_mm > _SAME_MM:
        told = show_length_mm(closer_mm, decimals=2)
        return (
            f"Best {told} closer than usual: the {blade.cut.spares.role} varies by more than may "
            f"stay of the {blade.cut.name}, and a shallow ring in it does no harm."
        )
    if wider_mm > _SAME_MM:
        told = show_length_mm(wider_mm, decimals=2)
        return f"Best {told} wider than usual: a nick costs more than what tears."
    return ""


def _chance(chance: float) -> str:
    if chance < _RARE:
        return f"under {show_percent(_RARE, decimals=2)}"
    return show_percent(chance, decimals=2 if chance < 0.01 else 1)


def _spread_rows() -> tuple[tuple[str, str], ...]:
    spread = COMMON_STRIP_SPREAD
    return (
        ("Blade spread, standard deviation", show_length_mm(spread.blade_m * 1e3, decimals=2)),
        ("Clamp, standard deviation", show_length_mm(spread.clamp_m * 1e3, decimals=2)),
        ("Insulation, thinnest over thickest wall", f"{spread.dielectric_concentricity_ratio:.2f}"),
        ("Jacket, thinnest over thickest wall", f"{spread.jacket_concentricity_ratio:.2f}"),
        (
            "Jacket, largest less smallest diameter",
            show_percent(spread.jacket_ovality_share, decimals=1),
        ),
    )
