"""Where trials were made, where it is safe, what is proven, and which trial comes next.

With two settings or more a map over two of them, the others held; with one setting the first
response along it, with its bound and its limit.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reelwright.charts.plain import plain_svg, register_fonts
from reelwright.core.errors import BadValue
from reelwright.core.quantities.words import listed
from reelwright.core.trials.belief import believe, bound_distance
from reelwright.core.trials.model import TrialsModel
from reelwright.core.trials.propose import Proposals
from reelwright.core.trials.window import NoWindow, Window

FloatArray = NDArray[np.float64]

_ACROSS_PX, _UP_PX, _CELL_PX = 600, 400, 5


@dataclass(frozen=True, kw_only=True)
class TrialRow:
    """One row of the chart's table twin: a trial that was made, or one that comes next."""

    what: str
    settings: tuple[str, ...]
    outcome: str


@dataclass(frozen=True, kw_only=True)
class TrialsChart:
    """The drawing and the table that says the same."""

    svg: str
    table: tuple[TrialRow, ...]


@dataclass(frozen=True, kw_only=True, eq=False)
class MapData:
    """What the map shows, in units of the two settings.

    ``proven`` and ``safe`` are fields ``(n_up, n_across)``, zero or more inside. A point is
    (across, up, text, kind), kind one of "good", "short", "failed", "next"; ``centre`` is
    (across, up, play across, play up), ``None`` without a window.
    """

    across: FloatArray
    ups: FloatArray
    across_title: str
    up_title: str
    proven: FloatArray
    safe: FloatArray
    points: tuple[tuple[float, float, str, str], ...]
    centre: tuple[float, float, float, float] | None


@dataclass(frozen=True, kw_only=True, eq=False)
class LineData:
    """One response along one setting: ``mean``, ``low`` and ``high`` bounds ``(n,)``, readings."""

    across: FloatArray
    across_title: str
    up_title: str
    mean: FloatArray
    low: FloatArray
    high: FloatArray
    safe: FloatArray
    limits: tuple[float, ...]
    unit: str
    readings: tuple[tuple[float, float, str], ...]
    nexts: tuple[tuple[float, str], ...]
    failures: tuple[tuple[float, str], ...]
    span: tuple[float, float] | None
    centre: float | None


def draw_trials(
    model: TrialsModel,
    *,
    window: Window | NoWindow,
    proposals: Proposals,
    across: str | None = None,
    up: str | None = None,
) -> TrialsChart:
    """Return the chart of a search; ``across`` and ``up`` name the settings of the axes.

    Without names, the first two. Settings that are not shown are held at the centre of the window,
    else where the search is nearest to one. Raises BadValue for a name that is no setting.
    """
    import vl_convert

    from reelwright.charts.trials_plot import line_spec, map_spec

    register_fonts()
    if len(model.problem.settings) == 1:
        spec = line_spec(_line(model, window, proposals), width_px=_ACROSS_PX, height_px=_UP_PX)
    else:
        places = _axes(model, across, up)
        spec = map_spec(
            _map(model, window, proposals, places),
            width_px=_ACROSS_PX,
            height_px=_UP_PX,
            cell_px=_CELL_PX,
        )
    svg = plain_svg(
        str(vl_convert.vegalite_to_svg(spec)),
        title="Trials, and the window they prove",
        description=_describe(model, window, proposals),
    )
    return TrialsChart(svg=svg, table=_table(model, proposals))


def held_values(model: TrialsModel, window: Window | NoWindow) -> tuple[float, ...]:
    """Return the settings at which the map is cut, each in its unit."""
    if isinstance(window, Window):
        return window.centre
    if window.nearest is not None:
        return window.nearest
    return model.space.values(np.full(model.space.dimensions, 0.5))


def _axes(model: TrialsModel, across: str | None, up: str | None) -> tuple[int, int]:
    names = [one.name for one in model.problem.settings]
    first = across or next(name for name in names if name != up)
    chosen = (first, up or next(name for name in names if name != first))
    for name in chosen:
        if name not in names or chosen[0] == chosen[1]:
            raise BadValue(
                owner="draw_trials",
                field="across",
                value=chosen,
                accepted=f"two different of {listed(names)}",
            )
    return names.index(chosen[0]), names.index(chosen[1])


def _title(model: TrialsModel, place: int) -> str:
    setting = model.problem.settings[place]
    return setting.name if setting.unit == "1" else f"{setting.name}, {setting.unit}"


def _good(model: TrialsModel, number: int) -> bool:
    """Return whether every reading's mean of this trial holds its limits."""
    trial = next(one for one in model.problem.trials if one.number == number)
    held = [
        sign * (float(np.mean(values)) - limit) >= 0
        for response in model.problem.responses
        if (values := trial.values_of(response.name))
        for limit, sign in response.limits
    ]
    seen = [
        shown.good / shown.seen_count >= one.least_share
        for one in model.problem.looks
        if (shown := trial.seen_of(one.name)) is not None
    ]
    return all(held) and all(seen)


def _kind(model: TrialsModel, number: int, failure: str | None) -> str:
    if failure is not None:
        return "failed"
    return "good" if _good(model, number) else "short"


def _map(
    model: TrialsModel,
    window: Window | NoWindow,
    proposals: Proposals,
    places: tuple[int, int],
) -> MapData:
    space = model.space
    x, y = places
    held = space.to_cube(np.array([held_values(model, window)]))[0]
    # Column centres across; rows from edge to edge, for their ends are interpolated.
    columns, rows = _ACROSS_PX // _CELL_PX, _UP_PX // _CELL_PX + 1
    across = (np.arange(columns) + 0.5) / columns
    ups = np.linspace(0, 1, rows)
    grid = np.repeat(held[None, :], columns * rows, axis=0)
    grid[:, x] = np.tile(across, rows)
    grid[:, y] = np.repeat(ups, columns)
    belief = believe(model, grid)
    allowed = 1 - model.problem.demand.unsafe_chance
    safe = ((belief.safe - allowed) * 10).reshape(rows, columns)
    proven = (
        np.minimum(belief.worst_bound.reshape(rows, columns), safe)
        if belief.bounds.shape[1] and not model.unknown
        else np.full((rows, columns), -1.0)
    )
    points = [
        (trial.values[x], trial.values[y], str(trial.number),
         _kind(model, trial.number, trial.failure))
        for trial in model.problem.trials
    ]  # fmt: skip
    points += [
        (one.values[x], one.values[y], _next_name(place, len(proposals.chosen)), "next")
        for place, one in enumerate(proposals.chosen)
    ]
    centre = None
    if isinstance(window, Window):
        settings = model.problem.settings
        centre = (window.centre[x], window.centre[y], settings[x].play, settings[y].play)
    return MapData(
        across=space.lows[x] + across * space.spans[x],
        ups=space.lows[y] + ups * space.spans[y],
        across_title=_title(model, x),
        up_title=_title(model, y),
        proven=proven,
        safe=safe,
        points=tuple(points),
        centre=centre,
    )


def _next_name(place: int, count: int) -> str:
    return "next" if count == 1 else f"next {place + 1}"


def _line(model: TrialsModel, window: Window | NoWindow, proposals: Proposals) -> LineData:
    setting = model.problem.settings[0]
    if not model.responses:
        raise BadValue(
            owner="draw_trials",
            field="model",
            value="no response",
            accepted="a search in which one response was measured",
        )
    response = model.responses[0]
    at = np.linspace(0, 1, _ACROSS_PX // _CELL_PX + 1)[:, None]
    mean, spread = response.at(at)
    away = bound_distance(response, model.problem.demand, spread)
    safe = believe(model, at).safe - (1 - model.problem.demand.unsafe_chance)
    trials = model.problem.trials
    return LineData(
        across=(model.space.lows[0] + at[:, 0] * model.space.spans[0]),
        across_title=_title(model, 0),
        up_title=f"{response.response.name}, {response.response.unit}",
        mean=mean,
        low=mean - away,
        high=mean + away,
        safe=safe,
        limits=tuple(limit for limit, _ in response.response.limits),
        unit=response.response.unit,
        readings=tuple(
            (trial.values[0], value, str(trial.number))
            for trial in trials
            for value in trial.values_of(response.response.name)
        ),
        nexts=tuple(
            (one.values[0], _next_name(place, len(proposals.chosen)))
            for place, one in enumerate(proposals.chosen)
        ),
        failures=tuple(
            (trial.values[0], str(trial.number)) for trial in trials if trial.failure is not None
        ),
        span=(window.spans[0].low, window.spans[0].high) if isinstance(window, Window) else None,
        centre=window.centre[0] if isinstance(window, Window) and setting else None,
    )


def _describe(model: TrialsModel, window: Window | NoWindow, proposals: Proposals) -> str:
    made = len(model.problem.trials)
    told = [f"{made} trials were made"]
    if isinstance(window, Window):
        told.append(f"the window's centre is {model.problem.show(window.centre)}")
    else:
        told.append(f"no window, because {window.reasons[0].sentence}")
    if proposals.chosen:
        told.append(f"next: {model.problem.show(proposals.chosen[0].values)}")
    return "; ".join(told) + "."


_OUTCOMES = {"good": "within every limit", "short": "not within every limit"}


def _table(model: TrialsModel, proposals: Proposals) -> tuple[TrialRow, ...]:
    settings = model.problem.settings

    def shown(values: tuple[float, ...]) -> tuple[str, ...]:
        return tuple(one.show(value) for one, value in zip(settings, values, strict=True))

    rows = [
        TrialRow(
            what=f"trial {trial.number}",
            settings=shown(trial.values),
            outcome=_OUTCOMES.get(
                _kind(model, trial.number, trial.failure), f"failed: {trial.failure}"
            ),
        )
        for trial in model.problem.trials
    ]
    rows += [
        TrialRow(
            what=_next_name(place, len(proposals.chosen)),
            settings=shown(one.values),
            outcome=one.sentence,
        )
        for place, one in enumerate(proposals.chosen)
    ]
    return tuple(rows)
