"""Which cavity to take for a cable and a connector: the nearest, each with what it would do."""

from collections.abc import Iterable
from dataclasses import dataclass

from reelwright.core.ends.dies.cavities import Cavity, CavityUse
from reelwright.core.ends.dies.ferrule_crimp import FerruleJoint, FerruleOutcome, ferrule_outcome
from reelwright.core.ends.dies.pin_crimp import PinJoint, PinOutcome, pin_outcome
from reelwright.core.quantities.constants import INCH_M
from reelwright.core.quantities.show import show_dimension
from reelwright.core.verdicts import Basis, Outcome, Source

INCH_SERIES_IN = (0.042, 0.063, 0.068, 0.100, 0.128, 0.178, 0.213, 0.255, 0.324, 0.429)
"""Widths across flats [in] that hexagonal dies for coax are usually sold in; common practice, no
published source. In-betweens exist."""

SERIES_SOURCE = Source(
    text="usual widths of hexagonal dies, 0.042 to 0.429 in", basis=Basis.COMMON_PRACTICE
)


@dataclass(frozen=True, kw_only=True)
class Window:
    """Widths across flats [m] that grip at the loosest and spare at the tightest.

    ``smallest_m`` above ``largest_m`` where no one width does both.
    """

    smallest_m: float
    largest_m: float

    @property
    def middle_m(self) -> float:
        """Half way between the two [m]."""
        return (self.smallest_m + self.largest_m) / 2

    @property
    def open(self) -> bool:
        """Whether there is such a width."""
        return self.smallest_m <= self.largest_m

    def off_m(self, across_flats_m: float) -> float:
        """Return how far a width [m] lies outside [m]; negative: too narrow; 0 inside."""
        if across_flats_m > self.largest_m:
            return across_flats_m - self.largest_m
        return min(0.0, across_flats_m - self.smallest_m)


@dataclass(frozen=True, kw_only=True)
class Prediction:
    """What one cavity would do on nominal parts; ``off_m`` [m] is how far it is off the window."""

    cavity: Cavity
    result: PinOutcome | FerruleOutcome
    off_m: float
    sentence: str

    @property
    def outcome(self) -> Outcome:
        """As good as the worst of its checks; too wide for the window is bad."""
        beside = Outcome.GOOD
        if self.off_m != 0:
            beside = Outcome.BAD if self.off_m > 0 else Outcome.CAUTION
        return max(beside, self.result.outcome, key=lambda each: each.rank)


@dataclass(frozen=True, kw_only=True)
class CavityChoice:
    """The nearest cavities, best first; ``best`` is ``None`` where none of them will do.

    ``why`` says what the best has over the others, or what to buy where none fits; ``standard_m``
    [m] holds the widths of the inch series inside the window.
    """

    use: CavityUse
    window: Window
    nearest: tuple[Prediction, ...]
    best: Prediction | None
    why: str
    standard_m: tuple[float, ...]


def choose_cavity(
    joint: PinJoint | FerruleJoint,
    window: Window,
    cavities: Iterable[Cavity],
    *,
    nearest_count: int,
) -> CavityChoice:
    """Return the ``nearest_count`` (a count) nearest cavities in service, ranked, and what to do.

    First those without a fault, nearest to the middle of the window before others; then the rest
    by how far they lie outside. ``window``: as ``pin_window_m`` and ``ferrule_window_m`` give it,
    with the tolerances of both sides.
    """
    use = CavityUse.PIN if isinstance(joint, PinJoint) else CavityUse.FERRULE
    found = [
        _predict(joint, window, each) for each in cavities if each.use is use and each.in_service
    ]
    found.sort(
        key=lambda each: (
            abs(each.off_m),
            each.outcome.rank,
            abs(each.cavity.across_flats_m - window.middle_m),
            each.cavity.code,
        )
    )
    nearest = tuple(found[:nearest_count])
    best = next((each for each in nearest if each.outcome.rank <= Outcome.CAUTION.rank), None)
    if best is not None and best.off_m != 0 and window.open:
        best = None
    standard_m = tuple(
        size * INCH_M
        for size in INCH_SERIES_IN
        if window.smallest_m <= size * INCH_M <= window.largest_m
    )
    return CavityChoice(
        use=use,
        window=window,
        nearest=nearest,
        best=best,
        why=_why(window, nearest, best, standard_m),
        standard_m=standard_m,
    )


def _predict(joint: PinJoint | FerruleJoint, window: Window, cavity: Cavity) -> Prediction:
    width_m = cavity.across_flats_m
    result: PinOutcome | FerruleOutcome
    if isinstance(joint, PinJoint):
        result, loose = pin_outcome(joint, across_flats_m=width_m), "the thinnest conductor"
        hurt = "the pin grows longer and its seam opens"
    else:
        result, loose = ferrule_outcome(joint, across_flats_m=width_m), "the thinnest braid"
        hurt = "the dielectric under the stem is crushed"
    off_m = window.off_m(width_m)
    away = show_dimension(abs(off_m))
    if width_m < joint.smallest_hexagon_m:
        told = (
            "smaller than solid metal allows: "
            f"{show_dimension(joint.smallest_hexagon_m)} is the least"
        )
    elif off_m > 0:
        told = f"too wide by {away}: {loose} is loose"
    elif off_m < 0:
        told = f"too narrow by {away}: {hurt}"
    else:
        told = "grips at the loosest and spares at the tightest"
        nearer_m = min(width_m - window.smallest_m, window.largest_m - width_m)
        told += f", {show_dimension(nearer_m)} inside"
        minded = [c.sentence for c in result.checks if c.outcome is Outcome.CAUTION]
        if minded:
            told += f"; but {minded[0]}"
    if cavity.left_count < 0:
        told += f"; its service is {-cavity.left_count} closings overdue"
    return Prediction(cavity=cavity, result=result, off_m=off_m, sentence=told)


def _why(
    window: Window,
    nearest: tuple[Prediction, ...],
    best: Prediction | None,
    standard_m: tuple[float, ...],
) -> str:
    between = (
        f"{show_dimension(window.smallest_m)} to {show_dimension(window.largest_m)} across flats"
    )
    if best is not None:
        others = sum(1 for each in nearest if each is not best and each.off_m == 0)
        beside = "nearest to the middle" if others else "the only one in service"
        if not window.open:
            return f"no one width both grips and spares; {best.cavity.code} is nearest to both"
        return f"{best.cavity.code} is {beside} of the {between} that hold and spare"
    if not window.open:
        return (
            f"no one width grips the loosest (at most {show_dimension(window.largest_m)}) and "
            f"spares the tightest (at least {show_dimension(window.smallest_m)}): measure the lot "
            "and choose by it"
        )
    if standard_m:
        sizes = " or ".join(
            f"{size_m / INCH_M:.3f}\u202fin ({show_dimension(size_m)})" for size_m in standard_m
        )
        return f"none in service fits: get one of {between}, of the usual widths {sizes}"
    return (
        f"none in service fits, and no usual width lies in {between}: have one made to "
        f"{show_dimension(window.middle_m)} ±{show_dimension(window.largest_m - window.middle_m)}"
    )
