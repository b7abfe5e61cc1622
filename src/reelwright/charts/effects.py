"""Effects of a two-level design as bars from zero, the largest on top, each with its error."""

from dataclasses import dataclass

from reelwright.charts.plain import plain_svg, register_fonts
from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_given, require_text
from reelwright.core.quantities.show import show_digits, with_unit

ROW_PX = 30


@dataclass(frozen=True, kw_only=True)
class EffectBar:
    """One effect: ``change`` and its standard ``error`` in the response's unit, if it is known."""

    name: str
    change: float
    error: float | None
    stands_out: bool

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_given(self, "error")


def draw_effects(title: str, unit: str, bars: tuple[EffectBar, ...], *, width_px: int = 420) -> str:
    """Return the drawing as SVG, ``width_px`` wide without its names; raise BadValue for no bar."""
    if not bars:
        raise BadValue(owner="draw_effects", field="bars", value=bars, accepted="one or more")
    import vl_convert

    from reelwright.charts.effects_plot import effects_spec

    register_fonts()
    told = "; ".join(f"{bar.name} {with_unit(show_digits(bar.change), unit)}" for bar in bars)
    spec = effects_spec(bars, unit=unit, width_px=width_px)
    return plain_svg(str(vl_convert.vegalite_to_svg(spec)), title=title, description=f"{told}.")
