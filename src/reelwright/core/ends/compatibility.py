"""Whether a connector can be put on a cable, judged by millimetres and not by a list.

Each pair of dimensions is two-sided: at the worst of the tolerances the cable must pass, and at the
loosest the connector must still grip it.
"""

from dataclasses import dataclass

from reelwright.core.ends.dies import judge_ferrule_die, judge_pin_die
from reelwright.core.ends.ferrule_crimp import ferrule_joint
from reelwright.core.ends.grip import judge_grips
from reelwright.core.ends.pin_crimp import pin_joint
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.connector import Band, Connector, Method
from reelwright.core.parts.impedance import ImpedanceMatch, impedance_class
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.quantities.show import show_dimension, show_plain
from reelwright.core.quantities.words import with_article
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

_GEOMETRY = Source(text="data sheet of the cable, drawing of the connector", basis=Basis.COMPUTED)

_CABLES_FOR = {
    Method.CRIMP_CRIMP: (Family.COAX,),
    Method.COMPRESSION: (Family.COAX,),
    Method.SOLDER: (Family.COAX, Family.PAIR, Family.LOUDSPEAKER),
    Method.WELD: (Family.LOUDSPEAKER,),
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
    jacket_bore = connector.accepts_jacket.high_m
    if drawing is not None and drawing.ferrule_bore_m is not None:
        jacket_bore = min(jacket_bore, drawing.ferrule_bore_m)
    checks = _judge_within(
        what="jacket",
        layer=cable.jacket,
        band=Band(low_m=min(connector.accepts_jacket.low_m, jacket_bore), high_m=jacket_bore),
        hole="bore",
    )
    if drawing is not None and drawing.boot_bore_m is not None:
        checks.append(
            _judge_passes("jacket in the boot", cable.jacket, drawing.boot_bore_m, "boot bore")
        )
    conductor = cable.layer(LayerRole.CONDUCTOR)
    if conductor is not None:
        if connector.accepts_conductor is not None:
            checks += _judge_within(
                what="conductor", layer=conductor, band=connector.accepts_conductor, hole="range"
            )
        if drawing is not None and drawing.barrel_bore_m is not None:
            checks.append(_judge_passes("conductor", conductor, drawing.barrel_bore_m, "barrel"))
        checks += _judge_strands(cable, connector)
    if connector.method in _STEMMED:
        checks += _judge_stem(cable, connector)
    checks += _judge_impedance(cable, connector)
    return checks


def _judge_stem(cable: Cable, connector: Connector) -> list[Check]:
    drawing = connector.drawing
    if drawing is None or drawing.stem_bore_m is None:
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
        checks.append(_judge_passes(word, over_dielectric, drawing.stem_bore_m, "stem bore"))
    braid = cable.layer(LayerRole.BRAID)
    if (
        connector.method is Method.CRIMP_CRIMP
        and braid is not None
        and over_dielectric is not None
        and drawing.stem_outside_m is not None
        and drawing.ferrule_bore_m is not None
    ):
        grown = drawing.stem_outside_m - over_dielectric.outside_diameter_m
        opened = Layer(
            role=LayerRole.BRAID,
            material=braid.material,
            outside_diameter_m=braid.outside_diameter_m + grown,
            tolerance_m=braid.tolerance_m,
        )
        checks.append(
            _judge_passes("braid over the stem", opened, drawing.ferrule_bore_m, "ferrule bore")
        )
    if (
        connector.method is Method.COMPRESSION
        and braid is not None
        and over_dielectric is not None
        and drawing.ferrule_bore_m is not None
    ):
        # The braid is turned back over the jacket, and both go into the sleeve.
        folded = Layer(
            role=LayerRole.BRAID,
            material=braid.material,
            outside_diameter_m=cable.jacket.outside_diameter_m
            + braid.outside_diameter_m
            - over_dielectric.outside_diameter_m,
            tolerance_m=cable.jacket.tolerance_m,
        )
        checks.append(
            _judge_passes(
                "jacket with the braid folded back", folded, drawing.ferrule_bore_m, "sleeve"
            )
        )
    return checks


def _judge_dies(cable: Cable, connector: Connector, dies: Dies) -> list[Check]:
    checks: list[Check] = []
    pin = pin_joint(cable, connector)
    if dies.pin_across_flats_m is not None and pin is not None:
        checks.append(
            judge_pin_die(
                barrel_outside_m=pin.barrel_outside_m,
                barrel_bore_m=pin.barrel_bore_m,
                conductor=pin.conductor,
                conductor_area_m2=pin.conductor_m2,
                across_flats_m=dies.pin_across_flats_m,
            )
        )
    ferrule = ferrule_joint(cable, connector)
    if dies.ferrule_across_flats_m is not None and ferrule is not None:
        checks.append(
            judge_ferrule_die(
                stem_outside_m=ferrule.stem_outside_m,
                braid_thickness_m=ferrule.braid_stack_m / 2,
                braid_spread_m=ferrule.braid_spread_m,
                braid_metal_share=ferrule.braid_metal_share,
                ferrule_wall_m=ferrule.wall_m,
                across_flats_m=dies.ferrule_across_flats_m,
            )
        )
    return checks


def _judge_within(*, what: str, layer: Layer, band: Band, hole: str) -> list[Check]:
    """Return one check for the upper side and, where the lower side decides, one for that."""
    checks = [_judge_passes(what, layer, band.high_m, hole)]
    if layer.smallest_m < band.low_m:
        size, least = layer.outside_diameter_m, band.low_m
        if size < least:
            sentence = (
                f"{what} {show_dimension(size)} < {show_dimension(least)}, the least it grips, "
                f"by {show_dimension(least - size)}{_tolerance(layer)}"
            )
        else:
            sentence = (
                f"{what} {show_dimension(size)} is gripped from {show_dimension(least)}, but at "
                f"the lower end of its tolerance (±{show_dimension(layer.tolerance_m)}) it is "
                f"{show_dimension(least - layer.smallest_m)} too thin"
            )
        checks.append(
            Check(
                name=f"{what} too thin",
                outcome=Outcome.BAD,
                sentence=sentence,
                source=_GEOMETRY,
                value=size * 1e3,
                limit=least * 1e3,
                margin=(layer.smallest_m - least) * 1e3,
                unit="mm",
            )
        )
    return checks


def _judge_passes(what: str, layer: Layer, bore_m: float, hole: str) -> Check:
    size = layer.outside_diameter_m
    if size > bore_m:
        sentence = (
            f"{what} {show_dimension(size)} > {hole} {show_dimension(bore_m)} "
            f"by {show_dimension(size - bore_m)}{_tolerance(layer)}"
        )
    elif layer.largest_m > bore_m:
        sentence = (
            f"{what} {show_dimension(size)} passes {hole} {show_dimension(bore_m)} by "
            f"{show_dimension(bore_m - size)}, but at the upper end of its tolerance "
            f"(±{show_dimension(layer.tolerance_m)}) it is "
            f"{show_dimension(layer.largest_m - bore_m)} too thick"
        )
    else:
        sentence = (
            f"{what} {show_dimension(size)} passes {hole} {show_dimension(bore_m)} "
            f"with {show_dimension(bore_m - size)} to spare{_tolerance(layer)}"
        )
    return Check(
        name=what,
        outcome=Outcome.GOOD if layer.largest_m <= bore_m else Outcome.BAD,
        sentence=sentence,
        source=_GEOMETRY,
        value=size * 1e3,
        limit=bore_m * 1e3,
        margin=(bore_m - layer.largest_m) * 1e3,
        unit="mm",
    )


def _tolerance(layer: Layer) -> str:
    if layer.tolerance_m == 0:
        return ""
    return f" (tolerance of the cable ±{show_dimension(layer.tolerance_m)})"


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
