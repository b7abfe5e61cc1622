"""What stands on a label, and how large the roll's labels are."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_between, require_text


@dataclass(frozen=True, kw_only=True)
class LabelRoll:
    """The printed part of one label on the roll, in millimetres, seen as it is read."""

    width_mm: float
    height_mm: float

    def __post_init__(self) -> None:
        require_between(self, "width_mm", low=30.0, high=150.0)
        require_between(self, "height_mm", low=15.0, high=100.0)


@dataclass(frozen=True, kw_only=True)
class Label:
    """One end of one cable. ``lines`` are the texts under the serial, the first the most needed;
    there may be none. ``feet`` is the length again in feet and inches, and may be empty.
    """

    serial: str
    end: str
    lines: tuple[str, ...]
    length: str
    feet: str

    def __post_init__(self) -> None:
        require_text(self, "serial", "end", "length")


@dataclass(frozen=True, kw_only=True)
class Labels:
    """The labels in the order they leave the printer; ``code`` names the roll's job."""

    code: str
    roll: LabelRoll
    labels: tuple[Label, ...]

    def __post_init__(self) -> None:
        require_text(self, "code")
        if not self.labels:
            raise BadValue(owner="Labels", field="labels", value=(), accepted="one or more labels")
        twice = sorted(
            {
                f"{label.serial} {label.end}"
                for label in self.labels
                if sum((o.serial, o.end) == (label.serial, label.end) for o in self.labels) > 1
            }
        )
        if twice:
            raise BadValue(
                owner="Labels", field="labels", value=twice, accepted="each serial and end once"
            )
