"""A cable type as its data sheet states it."""

import enum
import itertools
from collections.abc import Iterator
from dataclasses import dataclass

from reelwright.core.errors import BadValue, Fault, InputFaults
from reelwright.core.parts.jacket_rating import JacketRating
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.quantities.guard import (
    require_count,
    require_given,
    require_not_negative,
    require_positive,
    require_text,
)
from reelwright.core.quantities.show import show_dimension
from reelwright.core.verdicts import Source


class Family(enum.StrEnum):
    """The kinds of cable that behave alike."""

    COAX = "coax"
    PAIR = "balanced pair"
    LOUDSPEAKER = "loudspeaker pair"
    DATA = "data pairs"
    FIBRE = "plastic fibre"

    @property
    def one(self) -> str:
        """One cable of the kind, as a sentence needs it: "a coax"."""
        return "a cable of data pairs" if self is Family.DATA else f"a {self}"


@dataclass(frozen=True, kw_only=True)
class LossPoint:
    """One stated loss at 20 °C."""

    frequency_hz: float
    loss_db_per_m: float

    def __post_init__(self) -> None:
        require_positive(self, "frequency_hz", "loss_db_per_m")


@dataclass(frozen=True, kw_only=True)
class DataSheet:
    """What the maker states; ``None`` means: not stated. All values at 20 °C.

    ``capacitance_f_per_m`` is conductor to screen (coax) or core to core (pairs);
    ``capacitance_to_rest_f_per_m`` is one core to the other and the screen together.
    ``resistance_conductor_ohm_per_m`` is one conductor (one leg of a pair).
    """

    source: Source
    impedance_ohm: float | None
    delay_s_per_m: float | None
    capacitance_f_per_m: float | None
    capacitance_to_rest_f_per_m: float | None
    resistance_conductor_ohm_per_m: float | None
    resistance_screen_ohm_per_m: float | None
    conductor_area_m2: float | None
    optical_loss_db_per_m: float | None
    loss_points: tuple[LossPoint, ...]

    def __post_init__(self) -> None:
        require_given(
            self,
            "impedance_ohm",
            "delay_s_per_m",
            "capacitance_f_per_m",
            "capacitance_to_rest_f_per_m",
            "resistance_conductor_ohm_per_m",
            "resistance_screen_ohm_per_m",
            "conductor_area_m2",
            "optical_loss_db_per_m",
        )
        frequencies = [point.frequency_hz for point in self.loss_points]
        if frequencies != sorted(set(frequencies)):
            raise BadValue(
                owner="DataSheet",
                field="loss_points",
                value=frequencies,
                accepted="rising frequencies, each once",
            )


@dataclass(frozen=True, kw_only=True)
class Cable:
    """One cable type. Layers run from the middle outwards; the last is the jacket.

    ``conductors`` counts what a connector can be wired to, screen left out: a coax has 1. Raises
    InputFaults with every layer that cannot be.
    """

    code: str
    name: str
    family: Family
    conductors: int
    screened: bool
    solid_conductor: bool
    layers: tuple[Layer, ...]
    rating: JacketRating
    mass_kg_per_m: float
    bend_radius_fixed_m: float
    sheet: DataSheet

    def __post_init__(self) -> None:
        require_text(self, "code", "name")
        require_count(self, "conductors", at_least=1)
        require_positive(self, "mass_kg_per_m")
        require_not_negative(self, "bend_radius_fixed_m")
        faults = tuple(self._impossible_layers())
        if faults:
            raise InputFaults(faults)

    def _impossible_layers(self) -> Iterator[Fault]:
        def fault(value: str | None, problem: str, accepted: str) -> Fault:
            return Fault(
                file=f"layers of {self.code}",
                row=None,
                field=None,
                value=value,
                problem=problem,
                accepted=accepted,
            )

        if not self.layers or self.layers[-1].role is not LayerRole.JACKET:
            last = self.layers[-1].role.value if self.layers else None
            yield fault(last, "the outermost is no jacket", "layers ending in a jacket")
        for beneath, over in itertools.pairwise(self.layers):
            if over.outside_diameter_m < beneath.outside_diameter_m:
                yield fault(
                    f"{over.role} {show_dimension(over.outside_diameter_m)}",
                    f"is thinner than the {beneath.role} beneath it",
                    f"at least {show_dimension(beneath.outside_diameter_m)}",
                )

    def layer(self, role: LayerRole) -> Layer | None:
        """Return the outermost layer of that role, or None where the cable has none."""
        return next((layer for layer in reversed(self.layers) if layer.role is role), None)

    @property
    def jacket(self) -> Layer:
        """The outermost layer."""
        return self.layers[-1]


@dataclass(frozen=True, kw_only=True)
class LotMeasure:
    """A value measured on a lot, in the unit of the field it stands in.

    ``relative_uncertainty`` is its standard uncertainty over its value [1].
    """

    value: float
    relative_uncertainty: float

    def __post_init__(self) -> None:
        require_positive(self, "value", "relative_uncertainty")


@dataclass(frozen=True, kw_only=True)
class Lot:
    """One maker's production run as received; measured values stand in for the data sheet's.

    All values at 20 °C, the fields those of ``DataSheet``; ``None`` means: not measured.
    ``loss_points`` are empty where no loss was measured, else each with the standard uncertainty
    ``loss_relative_uncertainty`` over its loss [1].
    """

    code: str
    cable_code: str
    colour: str
    impedance_ohm: LotMeasure | None
    delay_s_per_m: LotMeasure | None
    capacitance_f_per_m: LotMeasure | None
    resistance_conductor_ohm_per_m: LotMeasure | None
    resistance_screen_ohm_per_m: LotMeasure | None
    loss_points: tuple[LossPoint, ...]
    loss_relative_uncertainty: float | None

    def __post_init__(self) -> None:
        require_text(self, "code", "cable_code", "colour")
        require_given(self, "loss_relative_uncertainty")
        frequencies = [point.frequency_hz for point in self.loss_points]
        if frequencies != sorted(set(frequencies)):
            raise BadValue(
                owner="Lot",
                field="loss_points",
                value=frequencies,
                accepted="rising frequencies, each once",
            )
        if bool(self.loss_points) != (self.loss_relative_uncertainty is not None):
            raise BadValue(
                owner="Lot",
                field="loss_relative_uncertainty",
                value=self.loss_relative_uncertainty,
                accepted="given with measured losses, and only with them",
            )
