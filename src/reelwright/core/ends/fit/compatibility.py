"""Whether a connector can be put on a cable, judged by millimetres and not by a list.

Each pair of dimensions is two-sided: the thickest cable must pass the smallest connector, and at
the loosest the connector must still grip. Both keep a tolerance, the cable's and the connector's.
"""

from dataclasses import dataclass, replace

from reelwright.core.ends.dies.ferrule_crimp import ferrule_joint, judge_ferrule_joint
from reelwright.core.ends.dies.pin_crimp import judge_pin_joint, pin_joint
from reelwright.core.ends.fit.grip import judge_grips
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.connector import Band, Connector, Method
from reelwright.core.parts.drawing import Drawing
from reelwright.core.parts.impedance import ImpedanceMatch, impedance_class
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.quantities.show import show_dimension, show_fine, show_plain
from reelwright.core.quantities.words import with_article
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

_GEOMETRY = Source(text="data sheet of the cable, drawing of the connector", basis=Basis.COMPUTED)

_CABLES_FOR = {
    Method.CRIMP_CRIMP: (Family.COAX,),
    Method.COMPRESSION: (Family.COAX,),
    Method.SOLDER: (Family.COAX, Family.PAIR, Family.LOUDSPEAKER),
    Method.WELD: (Family.LOUDSPEAKER,),
    Method.SCREW: (Family.PAIR, Family.LOUDSPEAKER),
    Method.DISPLACEMENT: (Family.DATA,),
    Method.POLISH: (Family.FIBRE,),
}
_STEMMED = (Method.CRIMP_CRIMP, Method.COMPRESSION)


@dataclass(frozen=True, kw_only=True)
class Fit:
    """One cable against one connector: every dimension that was compared, and why not."""

    cable_code: str
    connector_code: str
    possible: bool
    checks: tuple[Check, ...]
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, kw_only=True)
class _Hole:
    """What a layer must pass. ``tolerance_m`` is None where the maker states none."""

    name: str
    nominal_m: float
    tolerance_m: float | None

    @property
    def smallest_m(self) -> float:
        return self.nominal_m - (self.tolerance_m or 0.0)


@dataclass(frozen=True, kw_only=True)
class Dies:
    """Across-flats size of the two hexagons of a set-up, in metres; ``None``: none is used."""

    pin_across_flats_m: float | None
    ferrule_across_flats_m: float | None


def judge_fit(cable: Cable, connector: Connector, *, dies: Dies | None = None) -> Fit:
    """Return whether the pair is possible; with ``dies``, whether these close on it rightly.

    What the drawing does not give is "not computed", and that never makes a pair possible.
    """
    checks = [_judge_kind(cable, connector)]
    if checks[0].outcome is Outcome.GOOD:
        checks += _judge_dimensions(cable, connector)
        if dies is not None:
            checks += _judge_dies(cable, connector, dies)
        pin_m = None if dies is None else dies.pin_across_flats_m
        ferrule_m = None if dies is None else dies.ferrule_across_flats_m
        checks += judge_grips(
            cable, connector, pin_across_flats_m=pin_m, ferrule_across_flats_m=ferrule_m
        )
    against = [c for c in checks if c.outcome in (Outcome.BAD, Outcome.NOT_COMPUTED)]
    return Fit(
        cable_code=cable.code,
        connector_code=connector.code,
        possible=not against,
        checks=tuple(checks),
        reasons=tuple(
            Reason(code=check.name.replace(" ", "_"), sentence=check.sentence) for check in against
        ),
    )


def _judge_kind(cable: Cable, connector: Connector) -> Check:
    wanted = _CABLES_FOR[connector.method]
    good = cable.family in wanted
    kinds = " or ".join(wanted)
    sentence = f"{with_article(connector.method)} end takes {kinds}"
    if not good:
        sentence += f", and {cable.code} is {cable.family.one}"
    return Check(
        name="kind of cable",
        outcome=Outcome.GOOD if good else Outcome.BAD,
        sentence=sentence,
        source=_GEOMETRY,
        value=str(cable.family),
        limit=kinds,
        margin=None,
        unit="",
    )


def _judge_dimensions(cable: Cable, connector: Connector) -> list[Check]:
    drawing = connector.drawing
    accepted = connector.accepts_jacket
    ferrule = _drawn_hole(drawing, "ferrule_bore_m", "bore")
    if ferrule is None or ferrule.smallest_m > accepted.high_m:
        checks = _judge_within(what="jacket", layer=cable.jacket, band=accepted, hole="bore")
    else:
        checks = [_judge_passes("jacket", cable.jacket, ferrule)]
        least_m = min(accepted.low_m, ferrule.smallest_m)
        checks += _judge_held("jacket", cable.jacket, least_m)
    boot = _drawn_hole(drawing, "boot_bore_m", "boot bore")
    if boot is not None:
        checks.append(_judge_passes("jacket in the boot", cable.jacket, boot))
    conductor = cable.layer(LayerRole.CONDUCTOR)
    if conductor is not None:
        if connector.accepts_conductor is not None:
            checks += _judge_within(
                what="conductor", layer=conductor, band=connector.accepts_conductor, hole="range"
            )
        barrel = _drawn_hole(drawing, "barrel_bore_m", "barrel")
        if barrel is not None:
            checks.append(_judge_passes("conductor", conductor, barrel))
        checks += _judge_strands(cable, connector)
    if connector.method in _STEMMED:
        checks += _judge_stem(cable, connector)
    checks += _judge_impedance(cable, connector)
    return checks


def _drawn_hole(drawing: Drawing | None, dimension: str, name: str) -> _Hole | None:
    nominal_m: float | None = None if drawing is None else getattr(drawing, dimension)
    if drawing is None or nominal_m is None:
        return None
    stated_m: float | None = getattr(drawing.tolerances, dimension)
    return _Hole(name=name, nominal_m=nominal_m, tolerance_m=stated_m)


def _judge_stem(cable: Cable, connector: Connector) -> list[Check]:
    drawing = connector.drawing
    stem = _drawn_hole(drawing, "stem_bore_m", "stem bore")
    if drawing is None or stem is None:
        return [
            Check(
                name="stem",
                outcome=Outcome.NOT_COMPUTED,
                sentence=f"the drawing of {connector.code} gives no stem bore: not computed",
                source=_GEOMETRY,
                value=None,
                limit=None,
                margin=None,
                unit="mm",
            )
        ]
    checks = []
    # The stem goes between foil and braid, so where there is a foil it must pass the bore too.
    over_dielectric = cable.layer(LayerRole.FOIL) or cable.layer(LayerRole.DIELECTRIC)
    if over_dielectric is not None:
        word = (
            "dielectric" if over_dielectric.role is LayerRole.DIELECTRIC else "dielectric with foil"
        )
        checks.append(_judge_passes(word, over_dielectric, stem))
    braid = cable.layer(LayerRole.BRAID)
    if braid is None or over_dielectric is None:
        return checks
    if connector.method is Method.CRIMP_CRIMP:
        ferrule = _drawn_hole(drawing, "ferrule_bore_m", "ferrule bore")
        if drawing.stem_outside_m is not None and ferrule is not None:
            grown_m = drawing.stem_outside_m - over_dielectric.outside_diameter_m
            opened = replace(
                braid,
                outside_diameter_m=braid.outside_diameter_m + grown_m,
                tolerance_m=braid.tolerance_m + drawing.tolerance_m("stem_outside_m"),
            )
            checks.append(_judge_passes("braid over the stem", opened, ferrule))
    else:
        sleeve = _drawn_hole(drawing, "ferrule_bore_m", "sleeve")
        if sleeve is not None:
            # The braid is turned back over the jacket, and both go into the sleeve.
            thick_m = braid.outside_diameter_m - over_dielectric.outside_diameter_m
            folded = replace(
                braid,
                outside_diameter_m=cable.jacket.outside_diameter_m + thick_m,
                tolerance_m=cable.jacket.tolerance_m,
            )
            checks.append(_judge_passes("jacket with the braid folded back", folded, sleeve))
    return checks


def _judge_dies(cable: Cable, connector: Connector, dies: Dies) -> list[Check]:
    checks: list[Check] = []
    pin = pin_joint(cable, connector)
    if dies.pin_across_flats_m is not None and pin is not None:
        checks.append(judge_pin_joint(pin, across_flats_m=dies.pin_across_flats_m))
    ferrule = ferrule_joint(cable, connector)
    if dies.ferrule_across_flats_m is not None and ferrule is not None:
        checks.append(judge_ferrule_joint(ferrule, across_flats_m=dies.ferrule_across_flats_m))
    return checks


def _judge_within(*, what: str, layer: Layer, band: Band, hole: str) -> list[Check]:
    """Return one check for the upper side and, where the lower side decides, one for that.

    An accepted range has no tolerance: its ends are what the maker stands for.
    """
    upper = _Hole(name=hole, nominal_m=band.high_m, tolerance_m=0.0)
    return [_judge_passes(what, layer, upper), *_judge_held(what, layer, band.low_m)]


def _judge_held(what: str, layer: Layer, least_m: float) -> list[Check]:
    if layer.smallest_m >= least_m:
        return []
    size_m = layer.outside_diameter_m
    if size_m < least_m:
        sentence = (
            f"{what} {show_dimension(size_m)} < {show_dimension(least_m)}, the least it grips, "
            f"by {show_dimension(least_m - size_m)}{_tolerances(layer, 0.0)}"
        )
    else:
        sentence = (
            f"{what} {show_dimension(size_m)} is gripped from {show_dimension(least_m)}, but at "
            f"the lower end of its tolerance (±{show_dimension(layer.tolerance_m)}) it is "
            f"{show_dimension(least_m - layer.smallest_m)} too thin"
        )
    return [
        Check(
            name=f"{what} too thin",
            outcome=Outcome.BAD,
            sentence=sentence,
            source=_GEOMETRY,
            value=size_m * 1e3,
            limit=least_m * 1e3,
            margin=(layer.smallest_m - least_m) * 1e3,
            unit="mm",
        )
    ]


def _judge_passes(what: str, layer: Layer, hole: _Hole) -> Check:
    size_m, bore_m = layer.outside_diameter_m, hole.nominal_m
    spare_m = hole.smallest_m - layer.largest_m
    # A nanometre of binary rounding is no reason to refuse.
    good = spare_m >= -1e-9
    told = f"{what} {show_dimension(size_m)}"
    if size_m > bore_m:
        sentence = (
            f"{told} > {hole.name} {show_dimension(bore_m)} "
            f"by {show_dimension(size_m - bore_m)}{_tolerances(layer, hole.tolerance_m)}"
        )
    elif not good:
        worst = (
            f"at the worst of the tolerances (cable ±{show_dimension(layer.tolerance_m)}, "
            f"connector ±{show_fine(hole.tolerance_m)})"
            if hole.tolerance_m
            else f"at the upper end of its tolerance (±{show_dimension(layer.tolerance_m)})"
        )
        sentence = (
            f"{told} passes {hole.name} {show_dimension(bore_m)} by "
            f"{show_dimension(bore_m - size_m)}, but {worst} it is "
            f"{show_dimension(-spare_m)} too thick"
        )
    else:
        sentence = (
            f"{told} passes {hole.name} {show_dimension(bore_m)} with "
            f"{show_dimension(bore_m - size_m)} to spare{_tolerances(layer, hole.tolerance_m)}"
        )
    return Check(
        name=what,
        outcome=Outcome.GOOD if good else Outcome.BAD,
        sentence=sentence,
        source=_GEOMETRY,
        value=size_m * 1e3,
        limit=bore_m * 1e3,
        margin=spare_m * 1e3,
        unit="mm",
    )


def _tolerances(layer: Layer, connector_m: float | None) -> str:
    told = [] if layer.tolerance_m == 0 else [f"of the cable ±{show_dimension(layer.tolerance_m)}"]
    if connector_m is None:
        told.append("of the connector not stated")
    elif connector_m:
        told.append(f"of the connector ±{show_fine(connector_m)}")
    return f" (tolerance {', '.join(told)})" if told else ""


def _judge_strands(cable: Cable, connector: Connector) -> list[Check]:
    if not connector.solid_conductor_only or cable.solid_conductor:
        return []
    return [
        Check(
            name="stranded conductor",
            outcome=Outcome.BAD,
            sentence=(
                f"the conductor of {cable.code} is stranded; "
                f"{connector.code} takes a solid one only"
            ),
            source=_GEOMETRY,
            value="stranded",
            limit="solid",
            margin=None,
            unit="",
        )
    ]


_IMPEDANCE_VERBS = {
    ImpedanceMatch.SAME: "belong together",
    ImpedanceMatch.NEAR: "are near each other, not of one class: it can be made, a little reflects",
    ImpedanceMatch.OTHER: "do not belong together: it can be made, it reflects",
}


def _judge_impedance(cable: Cable, connector: Connector) -> list[Check]:
    own, wanted = cable.sheet.impedance_ohm, connector.impedance_ohm
    if own is None or wanted is None:
        return []
    connector_class = impedance_class(wanted)
    match = connector_class.match(own)
    return [
        Check(
            name="impedance class",
            outcome=Outcome.GOOD if match is ImpedanceMatch.SAME else Outcome.CAUTION,
            sentence=(
                f"cable {show_plain(own, 'Ω')} and connector {show_plain(wanted, 'Ω')} "
                f"{_IMPEDANCE_VERBS[match]}"
            ),
            source=connector_class.source,
            value=own,
            limit=wanted,
            margin=connector_class.margin_ohm(own),
            unit="Ω",
        )
    ]
