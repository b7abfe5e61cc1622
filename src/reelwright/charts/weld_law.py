"""Weld energy over the conductor's area: the shop's own gauges, the law through them, its band."""

from dataclasses import dataclass

from reelwright.charts.plain import plain_svg, register_fonts
from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_given, require_positive, require_text
from reelwright.core.quantities.show import show_in
from reelwright.core.quantities.show_scaled import show_area_m2


@dataclass(frozen=True, kw_only=True)
class LawPoint:
    """One place on the law: ``area_m2`` [m²], ``energy_j`` [J], its band [J] where it is known."""

    area_m2: float
    energy_j: float
    low_j: float | None
    high_j: float | None

    def __post_init__(self) -> None:
        require_positive(self, "area_m2", "energy_j")
        require_given(self, "low_j", "high_j")


@dataclass(frozen=True, kw_only=True)
class KnownPoint:
    """One gauge that is welded, named by its set-ups."""

    name: str
    area_m2: float
    energy_j: float

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_positive(self, "area_m2", "energy_j")


@dataclass(frozen=True, kw_only=True)
class WeldLaw:
    """The law as ``curve``, rising in area, the gauges known, and the one asked, if guessed."""

    title: str
    curve: tuple[LawPoint, ...]
    known: tuple[KnownPoint, ...]
    asked: LawPoint | None

    def __post_init__(self) -> None:
        require_text(self, "title")
        areas = [point.area_m2 for point in self.curve]
        if len(areas) < 2 or areas != sorted(set(areas)):
            raise BadValue(
                owner="WeldLaw", field="curve", value=areas, accepted="two or more, rising"
            )


@dataclass(frozen=True, kw_only=True)
class WeldLawRow:
    """One row of the table twin; ``law`` is what the law says there, with its band."""

    what: str
    area: str
    energy: str
    law: str


@dataclass(frozen=True, kw_only=True)
class WeldLawChart:
    """The drawing and the table that says the same."""

    svg: str
    table: tuple[WeldLawRow, ...]


def draw_weld_law(
    law: WeldLaw, rows: tuple[WeldLawRow, ...], *, width_px: int = 560, height_px: int = 240
) -> WeldLawChart:
    """Return the chart with its table. The plot is ``width_px`` × ``height_px`` without axes."""
    import vl_convert

    from reelwright.charts.weld_law_plot import weld_law_spec

    register_fonts()
    spec = weld_law_spec(law, width_px=width_px, height_px=height_px)
    told = [
        f"{point.name}: {show_area_m2(point.area_m2)}, {show_in(point.energy_j, 'J', decimals=0)}"
        for point in law.known
    ]
    if law.asked is not None:
        asked = law.asked
        told.append(
            f"asked: {show_area_m2(asked.area_m2)}, {show_in(asked.energy_j, 'J', decimals=0)}"
        )
    svg = plain_svg(
        str(vl_convert.vegalite_to_svg(spec)), title=law.title, description="; ".join(told) + "."
    )
    return WeldLawChart(svg=svg, table=rows)
