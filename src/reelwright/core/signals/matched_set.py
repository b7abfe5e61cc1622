"""Legs of one set, cut from different lots so that all have the same delay."""

from collections.abc import Sequence
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.physics.delay import match_delays, skew_s
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.quantities.guard import require_not_negative, require_positive, require_text
from reelwright.core.verdicts import Reason


@dataclass(frozen=True, kw_only=True)
class Leg:
    """One leg of a set: its name (a channel, a colour), its cable and the lot it is cut from."""

    name: str
    cable: Cable
    lot: Lot | None

    def __post_init__(self) -> None:
        require_text(self, "name")


@dataclass(frozen=True, kw_only=True)
class MatchedLeg:
    """One leg as it should be cut, in finished length.

    ``equal_length_delay_s`` [s] is its delay at the length asked; ``length_m`` [m] gives the
    set's common delay; ``change_m`` [m] is that length less the one asked; ``spare_m`` [m] is what
    is left of the tolerance, negative where the tolerance is broken.
    """

    name: str
    equal_length_delay_s: float
    length_m: float
    change_m: float
    spare_m: float


@dataclass(frozen=True, kw_only=True)
class MatchedSet:
    """A set cut to one delay ``target_s`` [s].

    ``equal_length_skew_s`` [s]: the skew had all legs the length asked. ``delay_uncertainty_s``
    [s]: the largest standard uncertainty of a leg's delay from its lot; where it matters more than
    the skew that is allowed, the legs are cut long, measured and trimmed. ``tolerance_needed_m``
    [m]: the symmetric tolerance that the lengths and the cut's own spread need together.
    """

    target_s: float
    equal_length_skew_s: float
    delay_uncertainty_s: float
    legs: tuple[MatchedLeg, ...]
    tolerance_needed_m: float

    @property
    def within_tolerance(self) -> bool:
        """Whether every leg keeps the length tolerance, the cut taken as exact."""
        return all(leg.spare_m >= 0 for leg in self.legs)


def match_set(
    legs: Sequence[Leg],
    *,
    nominal_m: float,
    tolerance_minus_m: float,
    tolerance_plus_m: float,
    cut_tolerance_m: float,
) -> MatchedSet | Reason:
    """Return the lengths that give all legs one delay, or the reason why that is not known.

    ``nominal_m`` [m] is the length asked, with its tolerances [m]; ``cut_tolerance_m`` [m] is how
    near a cut comes to its aim. Connectors are taken alike on every leg. Raises BadValue for
    fewer than two legs, two of one name, or negative lengths.
    """
    frame = _Frame(
        nominal_m=nominal_m,
        tolerance_minus_m=tolerance_minus_m,
        tolerance_plus_m=tolerance_plus_m,
        cut_tolerance_m=cut_tolerance_m,
    )
    names = [leg.name for leg in legs]
    if len(names) < 2 or len(set(names)) != len(names):
        raise BadValue(
            owner="match_set", field="legs", value=names, accepted="two or more, each its own name"
        )
    per_metre: dict[str, float] = {}
    uncertainty = 0.0
    for leg in legs:
        known = known_value(leg.cable, leg.lot, Stated.DELAY)
        if known is None:
            return Reason(
                code="delay-missing",
                sentence=f"the delay of {leg.cable.code} for leg {leg.name} is not known",
            )
        per_metre[leg.name] = known.value
        uncertainty = max(uncertainty, known.relative_uncertainty * known.value * nominal_m)
    match = match_delays(nominal_m=nominal_m, delay_s_per_m=per_metre)
    matched = tuple(frame.leg(name, per_metre[name], match.length_m[name]) for name in names)
    return MatchedSet(
        target_s=match.target_s,
        equal_length_skew_s=skew_s({leg.name: leg.equal_length_delay_s for leg in matched}),
        delay_uncertainty_s=uncertainty,
        legs=matched,
        tolerance_needed_m=max(abs(leg.change_m) for leg in matched) + cut_tolerance_m,
    )


@dataclass(frozen=True, kw_only=True)
class _Frame:
    nominal_m: float
    tolerance_minus_m: float
    tolerance_plus_m: float
    cut_tolerance_m: float

    def __post_init__(self) -> None:
        require_positive(self, "nominal_m")
        require_not_negative(self, "tolerance_minus_m", "tolerance_plus_m", "cut_tolerance_m")

    def leg(self, name: str, delay_s_per_m: float, length_m: float) -> MatchedLeg:
        change = length_m - self.nominal_m
        allowed = self.tolerance_plus_m if change >= 0 else self.tolerance_minus_m
        return MatchedLeg(
            name=name,
            equal_length_delay_s=delay_s_per_m * self.nominal_m,
            length_m=length_m,
            change_m=change,
            spare_m=allowed - abs(change),
        )
