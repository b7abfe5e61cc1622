"""What was worked out and measured of a set-up, as its sheet prints it: every text is ready."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_text


def require_mark(owner: object, mark: str) -> None:
    """Refuse a mark that is none. Raises BadValue."""
    if mark not in ("good", "caution", "bad"):
        raise BadValue(
            owner=type(owner).__name__, field="mark", value=mark, accepted="good, caution or bad"
        )


@dataclass(frozen=True, kw_only=True)
class Told:
    """One judgement in a sentence; ``mark``: good, caution or bad."""

    mark: str
    sentence: str

    def __post_init__(self) -> None:
        require_text(self, "sentence")
        require_mark(self, self.mark)


@dataclass(frozen=True, kw_only=True)
class BladePrint:
    """One cut: where, between which diameters its blades close, the best, the share of strips that
    it nicks and leaves uncut. ``mark``: of those shares."""

    name: str
    position: str
    closes: str
    best: str
    nick: str
    uncut: str
    mark: str

    def __post_init__(self) -> None:
        require_text(self, "name", "position", "closes", "best", "nick", "uncut")
        require_mark(self, self.mark)


@dataclass(frozen=True, kw_only=True)
class CrimpPrint:
    """One crimp in the cavity that the set-up names: its reading, what it does, the height that it
    the revision lays down, what grips and spares, the force it takes. Empty: not known."""

    use: str
    cavity: str
    width: str
    does: Told
    height: str
    fits: str
    force: Told | None

    def __post_init__(self) -> None:
        require_text(self, "use", "cavity", "width")


@dataclass(frozen=True, kw_only=True)
class TipPrint:
    """Where the pin's tip lands: the answer, the window with what the gauge may read, and the rest
    of what was judged. ``missing`` alone where it is not computed."""

    told: tuple[Told, ...]
    window: str
    gauge: str
    missing: str


@dataclass(frozen=True, kw_only=True)
class WeldPrint:
    """A weld's energy by the shop's own gauges. ``law``: with its band, empty without a law."""

    answer: str
    law: str
    told: tuple[Told, ...]

    def __post_init__(self) -> None:
        require_text(self, "answer")


@dataclass(frozen=True, kw_only=True)
class MeasuredRow:
    """One part of the ends that were measured; ``outside`` empty where there is no tolerance.

    ``cpk``, what it is at least with 95 % confidence, and the ``share`` that would lie outside:
    empty where they are not computed.
    """

    name: str
    laid_down: str
    count: str
    mean: str
    spread: str
    outside: str
    cpk: str
    cpk_least: str
    share: str

    def __post_init__(self) -> None:
        require_text(self, "name", "count", "mean")


@dataclass(frozen=True, kw_only=True)
class ModeRow:
    """One way in which pulled ends gave way, in N; mean and spread empty where not reached."""

    name: str
    count: str
    weakest: str
    mean: str
    spread: str

    def __post_init__(self) -> None:
        require_text(self, "name", "count", "weakest")
