"""What a page shows of a connector: the back end of its own drawing, the face of its standard."""

from dataclasses import dataclass

from reelwright.core.parts.connector import Connector
from reelwright.core.parts.mating_face import FaceFigure, mating_face
from reelwright.core.quantities.show import show_dimension, show_fine, show_plain
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.verdicts import Source

_BACK = (
    ("Bore of the pin's barrel", "barrel_bore_m"),
    ("Outside of the barrel", "barrel_outside_m"),
    ("Depth of the barrel", "barrel_depth_m"),
    ("Bore of the stem", "stem_bore_m"),
    ("Outside of the stem", "stem_outside_m"),
    ("Bore of the ferrule", "ferrule_bore_m"),
    ("Outside of the ferrule", "ferrule_outside_m"),
    ("Bore of the boot", "boot_bore_m"),
    ("Reference plane to seat", "plane_to_seat_m"),
    ("Pin, shoulder to tip", "shoulder_to_tip_m"),
    ("Floor to reference plane", "floor_to_plane_m"),
)


def back_end(connector: Connector) -> list[tuple[str, str]]:
    """Return the dimensions that decide, with the tolerances that the drawing states."""
    jacket, conductor, drawing = (
        connector.accepts_jacket,
        connector.accepts_conductor,
        connector.drawing,
    )
    found = [("Takes jackets", _span(jacket.low_m, jacket.high_m))]
    if conductor is not None:
        found.append(("Takes conductors", _span(conductor.low_m, conductor.high_m)))
    if connector.body is not None:
        told = f"{show_plain(connector.body.impedance_ohm, 'Ω')} over "
        found.append(("Body", told + show_quantity(connector.body.delay_s, "s", digits=3)))
    if drawing is None:
        return found
    for name, field in _BACK:
        value_m = getattr(drawing, field)
        if value_m is not None:
            half_m = getattr(drawing.tolerances, field)
            told = "" if half_m is None else f" ± {show_fine(half_m)}"
            found.append((name, show_dimension(value_m) + told))
    if drawing.tip_least_m is not None and drawing.tip_most_m is not None:
        found.append(("Tip of the pin, allowed", _span(drawing.tip_least_m, drawing.tip_most_m)))
    return found


@dataclass(frozen=True, kw_only=True)
class FaceRow:
    """One dimension of the mating face and who says so."""

    name: str
    value: str
    source: Source


def face(connector: Connector) -> tuple[FaceRow, ...]:
    """Return what is known of the face that the connector mates with; empty: nothing is."""
    known = mating_face(connector)
    if known is None:
        return ()
    figures = (
        ("Bore of the outer conductor", known.outer_bore),
        ("Diameter of the pin", known.pin_diameter),
        ("Shoulder behind the reference plane", known.shoulder),
        ("Tip before the reference plane", known.tip),
    )
    return tuple(
        FaceRow(name=name, value=_limits(figure), source=figure.source)
        for name, figure in figures
        if figure is not None
    )


def _limits(figure: FaceFigure) -> str:
    match figure.least_m, figure.most_m:
        case (None, float(most_m)):
            return f"at most {show_dimension(most_m)}"
        case (float(least_m), None):
            return f"at least {show_dimension(least_m)}"
        case (float(least_m), float(most_m)) if least_m != most_m:
            return _span(least_m, most_m)
        case (float(least_m), _):
            return show_dimension(least_m)
        case _:
            return ""


def _span(low_m: float, high_m: float) -> str:
    return f"{show_dimension(low_m)} to {show_dimension(high_m)}"
