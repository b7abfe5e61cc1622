"""What a good plan is: one aim after the other, or everything weighed in money.

An aim is a sum over the levels of a plan that should be as small as can be. They are taken in turn:
the next one is made as small as can be while those before stay, or give back a stated share.
"""

from collections.abc import Hashable
from dataclasses import dataclass, replace
from typing import Protocol

from reelwright.core.cutting.item import AFTER_SERVING, LEVELS, ItemCutting
from reelwright.core.quantities.guard import require_between, require_count

_LOST = AFTER_SERVING.index("value lost")
_AGE = AFTER_SERVING.index("age of the lots used")
_MICRO = 10**6


@dataclass(frozen=True, kw_only=True)
class Aim:
    """Weights of the pieces missing of each kind (kinds,) and of the levels after serving.

    ``scale`` brings the sum near to 1 for the solver; ``give_back`` of it may be lost for the aims
    that follow.
    """

    name: str
    missing: tuple[int, ...]
    levels: tuple[int, ...]
    scale: float
    give_back: int

    @property
    def serving(self) -> "Aim | None":
        """The part that counts missing pieces, where the aim counts other things besides."""
        if not any(self.levels) or not any(self.missing):
            return None
        return replace(self, levels=(0,) * len(self.levels), give_back=0)

    def value(self, missing: tuple[int, ...], levels: tuple[int, ...]) -> int:
        """Return the sum for so many pieces missing of each kind and these levels."""
        return sum(
            weight * value
            for weight, value in zip(
                (*self.missing, *self.levels), (*missing, *levels), strict=True
            )
        )


class Aims(Hashable, Protocol):
    """What a plan is to be good at; plans are remembered by it."""

    def of(self, cutting: ItemCutting) -> tuple[Aim, ...]:
        """Return the aims of one item, the first to be met first."""
        ...


@dataclass(frozen=True, kw_only=True)
class InOrder:
    """The workshop's order: serve, keep lots, few ends, little lost, few reels, few remnants, old.

    ``given_back_fraction`` (0 to 1) of the length that is wanted may be lost besides what must be,
    if that spares a reel or a remnant.
    """

    given_back_fraction: float = 0.0

    def __post_init__(self) -> None:
        require_between(self, "given_back_fraction", low=0.0, high=1.0)

    def of(self, cutting: ItemCutting) -> tuple[Aim, ...]:
        """Return an aim for each urgency, then one for each level."""
        none = (0,) * len(cutting.kinds)
        wanted_um = sum(kind.wanted * kind.length_mm for kind in cutting.kinds) * 1000
        aims = [
            Aim(
                name=LEVELS[0],
                missing=tuple(int(kind.rank == rank) for kind in cutting.kinds),
                levels=(0,) * len(AFTER_SERVING),
                scale=1.0,
                give_back=0,
            )
            for rank in range(cutting.ranks)
        ]
        for at in range(len(AFTER_SERVING)):
            aims.append(
                Aim(
                    name=AFTER_SERVING[at],
                    missing=none,
                    levels=tuple(int(other == at) for other in range(len(AFTER_SERVING))),
                    scale={_LOST: 1e-6, _AGE: 1e-3}.get(at, 1.0),
                    give_back=int(self.given_back_fraction * wanted_um) if at == _LOST else 0,
                )
            )
        return tuple(aims)


@dataclass(frozen=True, kw_only=True)
class InMoney:
    """Everything in cents, in one sum: for holding plans against each other by one number.

    ``price_cents_per_m`` is (item, cents a metre). A piece that is missing costs ``short_cents``
    for each step of its priority, and so much for each metre.
    """

    price_cents_per_m: tuple[tuple[str, int], ...]
    short_cents: int
    short_cents_per_m: int
    lot_mixed_cents: int
    unusable_end_cents: int
    reel_cents: int
    open_remnant_cents: int
    age_cents_per_m: int

    def __post_init__(self) -> None:
        require_count(
            self,
            "short_cents",
            "short_cents_per_m",
            "lot_mixed_cents",
            "unusable_end_cents",
            "reel_cents",
            "open_remnant_cents",
            "age_cents_per_m",
        )

    def of(self, cutting: ItemCutting) -> tuple[Aim, ...]:
        """Return the one aim, in millionths of a cent."""
        price = dict(self.price_cents_per_m)[cutting.item]
        return (
            Aim(
                name="cost in millionths of a cent",
                missing=tuple(
                    -kind.urgency[0] * self.short_cents * _MICRO
                    + kind.length_mm * self.short_cents_per_m * 1000
                    for kind in cutting.kinds
                ),
                levels=(
                    self.lot_mixed_cents * _MICRO,
                    self.unusable_end_cents * _MICRO,
                    price,
                    self.reel_cents * _MICRO,
                    self.open_remnant_cents * _MICRO,
                    self.age_cents_per_m * 1000,
                ),
                scale=1e-6,
                give_back=0,
            ),
        )


WORKSHOP = InOrder()
