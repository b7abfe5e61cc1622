"""Which way of joining a drawing allows: crimped, or compressed; and why the other will not do."""

from dataclasses import dataclass

from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.parts.drawing import Drawing
from reelwright.core.quantities.show import show_dimension
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

_DRAWING = Source(text="features of the connector's drawing", basis=Basis.COMPUTED)


@dataclass(frozen=True, kw_only=True)
class Joining:
    """One way of joining: what on the drawing speaks for it and what rules it out."""

    method: Method
    speaks_for: tuple[str, ...]
    rules_out: tuple[str, ...]

    @property
    def works(self) -> bool:
        """True where nothing rules it out."""
        return not self.rules_out


def ways_to_join(cable: Cable, connector: Connector) -> tuple[Joining, Joining] | Reason:
    """Return whether a coax end can be crimped, and whether it can be compressed, each with why.

    Crimped: a pin of its own with a barrel takes the conductor, and a ring is closed over a hollow
    stem. Compressed: the cable's own conductor, solid, is the pin, and one sleeve is driven along
    the axis over the braid folded back. Follows from the features of the drawing.
    """
    drawing = connector.drawing
    if drawing is None:
        return Reason(
            code="joining_not_computed",
            sentence=f"there is no drawing of the back end of {connector.code} to judge by",
        )
    return _crimp(drawing), _compression(cable, drawing)


def judge_joining(cable: Cable, connector: Connector) -> Check:
    """Return whether the method that a connector is listed with is one its drawing allows."""
    ways = ways_to_join(cable, connector)
    if isinstance(ways, Reason):
        return _check(connector, Outcome.NOT_COMPUTED, f"{ways.sentence}: not computed")
    way = next((each for each in ways if each.method is connector.method), None)
    if way is None:
        return _check(
            connector,
            Outcome.NOT_COMPUTED,
            f"{connector.method}: no drawing says how: not computed",
        )
    told = way.speaks_for if way.works else way.rules_out
    verb = "is" if way.works else "cannot be"
    return _check(
        connector,
        Outcome.GOOD if way.works else Outcome.BAD,
        f"{connector.code} {verb} {_done(way.method)}: {'; '.join(told)}",
    )


def _done(method: Method) -> str:
    return "crimped" if method is Method.CRIMP_CRIMP else "compressed"


def _check(connector: Connector, outcome: Outcome, sentence: str) -> Check:
    return Check(
        name="way of joining",
        outcome=outcome,
        sentence=sentence,
        source=_DRAWING,
        value=str(connector.method),
        limit=None,
        margin=None,
        unit="",
    )


def _crimp(drawing: Drawing) -> Joining:
    speaks_for, rules_out = [], []
    if drawing.barrel_depth_m is not None:
        depth = show_dimension(drawing.barrel_depth_m)
        speaks_for.append(f"a pin with a barrel of {depth} takes the conductor")
    else:
        rules_out.append("there is no pin with a barrel to crimp the conductor in")
    if drawing.stem_outside_m is None or drawing.stem_length_m is None:
        rules_out.append("there is no stem for a ferrule to be closed on")
    elif drawing.ferrule_bore_m is None or drawing.ferrule_outside_m is None:
        rules_out.append("there is no ferrule to be closed")
    else:
        speaks_for.append(
            f"a ferrule of {show_dimension(drawing.ferrule_outside_m)} is closed over a stem of "
            f"{show_dimension(drawing.stem_outside_m)}"
        )
    if drawing.seat_to_flange_m is None:
        rules_out.append("no seat fixes how far the dielectric reaches under the pin")
    return Joining(
        method=Method.CRIMP_CRIMP, speaks_for=tuple(speaks_for), rules_out=tuple(rules_out)
    )


def _compression(cable: Cable, drawing: Drawing) -> Joining:
    speaks_for, rules_out = [], []
    if drawing.barrel_depth_m is not None:
        depth = show_dimension(drawing.barrel_depth_m)
        rules_out.append(
            f"a pin with a barrel of {depth} takes the conductor, and driving a sleeve along the "
            "axis closes no barrel"
        )
    elif drawing.conductor_protrusion_m is None:
        rules_out.append("no length is given for the conductor to stand out as the pin")
    elif not cable.solid_conductor:
        rules_out.append("the conductor is the pin, and a stranded one spreads")
    else:
        out = show_dimension(drawing.conductor_protrusion_m)
        speaks_for.append(f"the cable's own solid conductor is the pin and stands {out} out")
    if drawing.stem_outside_m is None or drawing.stem_length_m is None:
        rules_out.append("there is no stem to go under the braid")
    elif drawing.ferrule_bore_m is None:
        rules_out.append("there is no sleeve to be driven over the jacket")
    else:
        speaks_for.append(
            f"one sleeve of {show_dimension(drawing.ferrule_bore_m)} bore is driven over "
            "jacket and folded braid"
        )
    return Joining(
        method=Method.COMPRESSION, speaks_for=tuple(speaks_for), rules_out=tuple(rules_out)
    )
