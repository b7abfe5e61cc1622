"""The window: where the lower tolerance bound of every response clears its limit, and its centre.

The recommended point is not the best one but the one with most room: going out from it in any
direction, along the settings and across them, the nearest edge lies as many standard deviations of
the machine's own play away as can be. The edge of what may be tried counts as an edge.
"""

from dataclasses import dataclass
from itertools import product

import numpy as np

from reelwright.core.trials.belief import Belief, believe
from reelwright.core.trials.candidates import candidates
from reelwright.core.trials.judge import checks_at, reasons_for_none, reasons_for_too_few
from reelwright.core.trials.model import TrialsModel
from reelwright.core.trials.space import FloatArray
from reelwright.core.verdicts import Check, Reason

_REACH = 60.0
_RUNGS = 16
_HALVINGS = 4
_CENTRES = 24
_REFINEMENTS = 6
_DRIFTS = 512
_NEARLY = 0.75


@dataclass(frozen=True, kw_only=True)
class Span:
    """How far one setting may go, the others at the centre; ``low`` and ``high`` in ``unit``."""

    setting: str
    unit: str
    low: float
    high: float


@dataclass(frozen=True, kw_only=True)
class Window:
    """A window was found. ``centre``: the settings recommended, in the problem's order.

    ``drifts_to_edge_ratio``: the nearest edge in standard deviations of the machine's play, up to
    60. ``confirmed``: a trial was made at the centre, or so near that it speaks for it.
    ``stays_chance`` (1): that the machine, drifting, is inside. ``spans``: how far each setting may
    go by itself. ``checks``: each response at the centre.
    """

    centre: tuple[float, ...]
    spans: tuple[Span, ...]
    drifts_to_edge_ratio: float
    confirmed: bool
    stays_chance: float
    checks: tuple[Check, ...]


@dataclass(frozen=True, kw_only=True)
class NoWindow:
    """No window, because: one reason or more. ``nearest`` comes closest, ``None`` before trials."""

    reasons: tuple[Reason, ...]
    nearest: tuple[float, ...] | None


def find_window(model: TrialsModel, *, seed: int) -> Window | NoWindow:
    """Return the window that the trials prove, or why there is none; one ``seed``, one answer."""
    dice = np.random.default_rng(seed)
    if not model.responses and not model.looks:
        return NoWindow(
            reasons=(Reason(code="nothing measured", sentence="nothing was measured yet"),),
            nearest=None,
        )
    found = believe(model, np.vstack([candidates(model, dice), model.tried]))
    nearest = model.space.values(found.points[int(np.argmax(_worth(model, found)))])
    few = reasons_for_too_few(model)
    if few or model.unknown or not bool(_in_window(model, found).any()):
        return NoWindow(reasons=(*few, *reasons_for_none(model, found)), nearest=nearest)
    centre, room = _centre(model, found, dice)
    values = model.space.values(centre)
    asked = model.problem.demand.clear_drifts_ratio
    if room < asked:
        return NoWindow(
            reasons=(
                Reason(
                    code="narrower than drift",
                    sentence=(
                        f"what is proven is too small for this machine: even at "
                        f"{model.problem.show(values)} an edge lies {room:.1f} standard deviations "
                        f"of its play away, and {asked:g} are asked; more trials about it may "
                        f"show more, or a steadier machine"
                    ),
                ),
            ),
            nearest=values,
        )
    drifted = np.clip(
        centre + model.space.plays * dice.standard_normal((_DRIFTS, model.space.dimensions)), 0, 1
    )
    return Window(
        centre=values,
        spans=_spans(model, centre),
        drifts_to_edge_ratio=room,
        confirmed=_is_tried(model, centre, room),
        stays_chance=float(_in_window(model, believe(model, drifted)).mean()),
        checks=checks_at(model, centre),
    )


def unconfirmed_centre(
    model: TrialsModel, *, seed: int, window: Window | NoWindow | None
) -> FloatArray | None:
    """Return the centre (1) ``(n_setting,)`` of a window proven and not tried, else ``None``.

    ``window`` is that of ``model`` and ``seed`` where it was found already: it is not sought again.
    """
    if not len(model.tried) or not bool((believe(model, model.tried).inside > 0.5).any()):
        return None
    if window is None:
        window = find_window(model, seed=seed)
    if isinstance(window, NoWindow) or window.confirmed:
        return None
    return np.asarray(model.space.to_cube(np.array([window.centre]))[0], dtype=np.float64)


def in_window(
    model: TrialsModel, points: FloatArray
) -> "np.ndarray[tuple[int], np.dtype[np.bool_]]":
    """Return which of ``points`` (1) ``(n, n_setting)`` are proven: in the window, and safe."""
    return _in_window(model, believe(model, points))


def _in_window(model: TrialsModel, belief: Belief) -> "np.ndarray[tuple[int], np.dtype[np.bool_]]":
    return np.asarray(belief.proven & (belief.safe >= 1 - model.problem.demand.unsafe_chance))


def _worth(model: TrialsModel, belief: Belief) -> FloatArray:
    unsafe = np.maximum(0.0, 1 - model.problem.demand.unsafe_chance - belief.safe)
    return np.asarray(belief.worst_bound - 10 * unsafe, dtype=np.float64)


def _directions(dimensions: int, dice: "np.random.Generator") -> FloatArray:
    axes = np.vstack([np.eye(dimensions), -np.eye(dimensions)])
    # All corners of the box of play; at five settings there are 32 of them.
    corners = np.array(list(product((-1.0, 1.0), repeat=dimensions))) if dimensions > 1 else axes
    others = dice.standard_normal((16, dimensions))
    along = np.vstack([axes, corners, others])
    return np.asarray(along / np.linalg.norm(along, axis=1, keepdims=True), dtype=np.float64)


def _room(model: TrialsModel, centres: FloatArray, directions: FloatArray) -> FloatArray:
    """Return how many standard deviations of play away the nearest edge of each centre lies."""
    rungs = _REACH * np.linspace(0, 1, _RUNGS) ** 2
    inner = np.zeros((len(centres), len(directions)))
    outer = np.full(inner.shape, _REACH)
    # Up the ladder with all rays of a centre, until one of them is outside.
    climbing = np.arange(len(centres))
    for high in rungs[1:]:
        held = _holds(model, centres[climbing], directions, np.full_like(inner[climbing], high))
        inner[climbing] = np.where(held, high, inner[climbing])
        outer[climbing] = np.where(held, outer[climbing], high)
        climbing = climbing[held.all(axis=1)]
        if not len(climbing):
            break
    for _ in range(_HALVINGS):
        middle = (inner + outer) / 2
        held = _holds(model, centres, directions, middle)
        inner, outer = np.where(held, middle, inner), np.where(held, outer, middle)
    return np.asarray(inner.min(axis=1), dtype=np.float64)


def _holds(
    model: TrialsModel, centres: FloatArray, directions: FloatArray, lengths: FloatArray
) -> "np.ndarray[tuple[int, ...], np.dtype[np.bool_]]":
    """Return which ends of the rays of ``lengths`` ``(n_centre, n_ray)`` are in the window."""
    moves = directions * lengths[..., None] * model.space.plays
    flat = (centres[:, None, :] + moves).reshape(-1, centres.shape[1])
    held = ((flat >= -1e-9) & (flat <= 1 + 1e-9)).all(axis=1)
    held[held] = in_window(model, flat[held])
    return np.asarray(held.reshape(lengths.shape))


def _centre(
    model: TrialsModel, found: Belief, dice: "np.random.Generator"
) -> tuple[FloatArray, float]:
    """Return the proven setting with most room, and that room; of equals, the surest."""
    proven = np.flatnonzero(_in_window(model, found))
    order = proven[np.argsort(-found.worst_bound[proven])]
    # The surest few, and as many from all over what is proven.
    spread = order[np.linspace(0, len(order) - 1, min(len(order), _CENTRES)).astype(int)]
    chosen = np.unique(np.r_[order[:_CENTRES], spread])
    directions = _directions(model.space.dimensions, dice)
    points = found.points[chosen]
    rooms = _room(model, points, directions)
    sure = found.worst_bound[chosen]
    place = int(np.lexsort((-sure, -rooms))[0])
    point, room, best = points[place], float(rooms[place]), float(sure[place])
    for _ in range(_REFINEMENTS):
        near = model.space.neighbours(point, (1, 2, 4, 8))
        rooms = _room(model, near, directions)
        sure = believe(model, near).worst_bound
        place = int(np.lexsort((-sure, -rooms))[0])
        if (float(rooms[place]), float(sure[place])) <= (room, best):
            break
        point, room, best = near[place], float(rooms[place]), float(sure[place])
    return _rather_tried(model, point, room, directions)


def _rather_tried(
    model: TrialsModel, point: FloatArray, room: float, directions: FloatArray
) -> tuple[FloatArray, float]:
    """Return a point that was tried, at a step of the machine, where it has nearly the room."""
    tried = model.space.distinct(model.tried)
    rooms = _room(model, tried, directions)
    wanted = max(_NEARLY * room, model.problem.demand.clear_drifts_ratio)
    if not len(rooms) or float(rooms.max()) < wanted:
        return point, room
    sure = believe(model, tried).worst_bound
    place = int(np.lexsort((-sure, -rooms))[0])
    return tried[place], float(rooms[place])


def _is_tried(model: TrialsModel, centre: FloatArray, room: float) -> bool:
    apart = np.linalg.norm((model.tried - centre) / model.space.plays, axis=1)
    return bool((apart <= room / 2).any())


def _spans(model: TrialsModel, centre: FloatArray) -> tuple[Span, ...]:
    spans = []
    for place, setting in enumerate(model.problem.settings):
        steps = np.arange(model.space.counts[place] + 1)
        line = np.repeat(centre[None, :], len(steps), axis=0)
        line[:, place] = steps / model.space.counts[place]
        inside = in_window(model, line)
        here = int(np.rint(centre[place] * model.space.counts[place]))
        low = high = here
        while low > 0 and inside[low - 1]:
            low -= 1
        while high < len(steps) - 1 and inside[high + 1]:
            high += 1
        spans.append(
            Span(
                setting=setting.name,
                unit=setting.unit,
                low=round(setting.low + low * setting.step, 9),
                high=round(setting.low + high * setting.step, 9),
            )
        )
    return tuple(spans)
