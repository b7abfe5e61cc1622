"""Rows of a search to values of the core, and a window to what is written down of it."""

from collections.abc import Iterable, Sequence
from typing import Any

from reelwright.core.trials.frame import SearchFrame
from reelwright.core.trials.guess import Guess, Level, Peak, Slope
from reelwright.core.trials.problem import Demand
from reelwright.core.trials.record import Trial
from reelwright.core.trials.response import Looks, Response
from reelwright.core.trials.settings import Setting
from reelwright.core.trials.trials_text import make_trial
from reelwright.core.trials.window import Window
from reelwright.shop.trials.models import Search, SearchResponse, TrialMade
from reelwright.shop.trials.states import GuessKind


def frame_value(row: Search) -> SearchFrame:
    """Return what a search asks; its settings, responses and looks come with the row."""
    return SearchFrame(
        settings=tuple(
            Setting(
                name=one.name,
                unit=one.unit,
                low=one.low,
                high=one.high,
                step=one.step,
                drift=one.drift,
            )
            for one in row.settings.all()
        ),
        responses=tuple(_response(one) for one in row.responses.all()),
        looks=tuple(Looks(name=one.name, least_share=one.least_share) for one in row.looks.all()),
        demand=Demand(
            coverage=row.coverage,
            confidence=row.confidence,
            unsafe_chance=row.unsafe_chance,
            expected_good_fraction=row.expected_good_fraction,
            clear_drifts_ratio=row.clear_drifts_ratio,
        ),
    )


def _response(row: SearchResponse) -> Response:
    return Response(
        name=row.name,
        unit=row.unit,
        lower_limit=row.lower_limit,
        upper_limit=row.upper_limit,
        unsafe_below=row.unsafe_below,
        unsafe_above=row.unsafe_above,
        guess=_guess(row),
    )


def _guess(row: SearchResponse) -> Guess:
    if row.guess_best_at is not None and row.guess_ratio_factor is not None:
        return Peak(
            setting=row.guess_setting,
            best_at=row.guess_best_at,
            ratio_factor=row.guess_ratio_factor,
        )
    return Slope() if row.guess_kind == GuessKind.SLOPE else Level()


def guess_columns(guess: Guess) -> dict[str, Any]:
    """Return the columns that keep a first guess."""
    match guess:
        case Peak():
            return {
                "guess_kind": GuessKind.PEAK.value,
                "guess_setting": guess.setting,
                "guess_best_at": guess.best_at,
                "guess_ratio_factor": guess.ratio_factor,
            }
        case Slope():
            return {"guess_kind": GuessKind.SLOPE.value}
        case Level():
            return {"guess_kind": GuessKind.LEVEL.value}


def trial_value(row: TrialMade) -> Trial:
    """Return one trial; its readings (with their responses) and looks come with the row."""
    readings: dict[str, list[float]] = {}
    for one in row.readings.all():
        readings.setdefault(one.response.name, []).append(one.value)
    return make_trial(
        number=row.number,
        values=tuple(float(value) for value in row.values),
        readings=readings.items(),
        seen=((one.looks.name, (one.good, one.seen_count)) for one in row.seen.all()),
        failure=row.failure,
    )


def window_content(
    window: Window, settings: Sequence[Setting], trials: Iterable[Trial]
) -> dict[str, Any]:
    """Return a window as it is written down: numbers, and the sentences that claim them."""
    return {
        "settings": [
            {
                "name": setting.name,
                "unit": setting.unit,
                "centre": centre,
                "low": span.low,
                "high": span.high,
                "centre_shown": setting.show(centre),
                "low_shown": setting.show(span.low),
                "high_shown": setting.show(span.high),
            }
            for setting, centre, span in zip(settings, window.centre, window.spans, strict=True)
        ],
        "claims": [check.sentence for check in window.checks],
        "drifts_to_edge_ratio": round(window.drifts_to_edge_ratio, 2),
        "stays_chance": round(window.stays_chance, 4),
        "trials": [trial.number for trial in trials],
    }
