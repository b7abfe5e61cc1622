"""A bar of known length: laid on a ruler it tells whether the printer kept the scale."""

from reelwright.core.errors import BadValue
from reelwright.core.quantities.show import show_length_mm
from reelwright.drawings.canvas import Canvas
from reelwright.drawings.end_dimensions import FINE_MM, THICK_MM
from reelwright.drawings.text_size import text_width
from reelwright.style import GRAPHITE, INK

_TEXT_MM = 3.0
_MARGIN_MM = 2.0
_TICK_MM = 1.6
_DECADE_MM = 10


def draw_check_bar(length_mm: int = 50) -> str:
    """Return the bar as SVG text, its width and height in mm of paper, a tick every 10 mm.

    Raises BadValue unless the length is a whole number of tens of millimetres.
    """
    if length_mm < _DECADE_MM or length_mm % _DECADE_MM:
        raise BadValue(
            owner="draw_check_bar", field="length_mm", value=length_mm, accepted="10, 20, 30 …"
        )
    told = f"{show_length_mm(length_mm)}: measure it; if it is not, the scale does not hold"
    canvas = Canvas(
        title=f"Bar of {show_length_mm(length_mm)} to check the print",
        description=f"A bar of {length_mm} mm with a tick every {_DECADE_MM} mm.",
        unit="mm",
    )
    left, axis = _MARGIN_MM, _MARGIN_MM + _TICK_MM
    for decade in range(0, length_mm, 2 * _DECADE_MM):
        canvas.rect(
            x=left + decade,
            y=axis - _TICK_MM / 4,
            width=min(_DECADE_MM, length_mm - decade),
            height=_TICK_MM / 2,
            fill=INK,
        )
    canvas.line((left, axis), (left + length_mm, axis), width=FINE_MM)
    for at in range(0, length_mm + 1, _DECADE_MM):
        ends = at in (0, length_mm)
        canvas.line(
            (left + at, axis - _TICK_MM),
            (left + at, axis + _TICK_MM),
            width=THICK_MM if ends else FINE_MM,
        )
    baseline = axis + _TICK_MM + 1.2 * _TEXT_MM
    canvas.text(told, x=left, y=baseline, size=_TEXT_MM, fill=GRAPHITE)
    width = max(left + length_mm, left + text_width(told, size=_TEXT_MM))
    return canvas.svg(width=width + _MARGIN_MM, height=baseline + _MARGIN_MM)
