"""Whether the burr that shears leave on a conductor must come off before the pin goes on."""

from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.parts.layers import LayerRole
from reelwright.core.quantities.show import show_dimension
from reelwright.core.verdicts import Basis, Check, Outcome, Source

SHEARS_BURR_SHARE = 0.10
"""Height of the burr over the diameter [1] of a conductor cut by shears: a tenth of what is cut, as
in sheet metal; common practice, no published source."""

_BURR = Source(text="a burr a tenth of the conductor high", basis=Basis.COMMON_PRACTICE)


def judge_burr(
    cable: Cable, connector: Connector, *, burr_share: float = SHEARS_BURR_SHARE
) -> Check | None:
    """Return whether a conductor passes with its burr; a caution means: trim it first.

    Held against the barrel's bore; where the conductor is the pin, against the thickest that the
    mate takes. Pins without a stated bore: against the accepted range. ``None``: nothing goes over
    this conductor (soldered, welded, cut through, polished), so that no burr is in the way.
    """
    conductor = cable.layer(LayerRole.CONDUCTOR)
    if conductor is None or connector.method not in (Method.CRIMP_CRIMP, Method.COMPRESSION):
        return None
    drawing = connector.drawing
    bore_m = None if drawing is None else drawing.smallest_m("barrel_bore_m")
    hole = "barrel"
    if bore_m is None and connector.accepts_conductor is not None:
        bore_m = connector.accepts_conductor.high_m
        hole = "widest that is taken"
    widest_m = conductor.largest_m + burr_share * conductor.outside_diameter_m
    told = f"conductor with its burr {show_dimension(widest_m)}"
    if bore_m is None:
        outcome, margin_m = Outcome.CAUTION, None
        sentence = f"{told}, and no bore is given that it would pass: trim it"
    elif widest_m > bore_m:
        outcome, margin_m = Outcome.CAUTION, bore_m - widest_m
        sentence = (
            f"{told} > {hole} {show_dimension(bore_m)} by {show_dimension(widest_m - bore_m)}: "
            "trim it"
        )
    else:
        outcome, margin_m = Outcome.GOOD, bore_m - widest_m
        sentence = (
            f"{told} passes {hole} {show_dimension(bore_m)} with "
            f"{show_dimension(bore_m - widest_m)} to spare"
        )
    return Check(
        name="burr on the conductor",
        outcome=outcome,
        sentence=sentence,
        source=_BURR,
        value=widest_m * 1e3,
        limit=None if bore_m is None else bore_m * 1e3,
        margin=None if margin_m is None else margin_m * 1e3,
        unit="mm",
    )
