"""What pages show of where a search stands: sentences, settings, drawings; desk and bench alike."""

import functools
from collections.abc import Mapping
from dataclasses import dataclass

from reelwright.charts.trials import TrialsChart, draw_trials
from reelwright.core.ends.care.cautions import Job, cautions
from reelwright.core.errors import Fault, InputFaults
from reelwright.core.parts.cable import Cable
from reelwright.core.quantities.words import sentence
from reelwright.core.trials.frame import SearchFrame
from reelwright.core.trials.gain import Aim
from reelwright.core.trials.problem import TrialsProblem
from reelwright.core.trials.standing import Standing
from reelwright.core.trials.window import Window
from reelwright.core.trials.words import room_sentence, span_sentences, sure_sentence
from reelwright.shop.trials.selectors import SearchView, TrialView, counting
from reelwright.shop.trials.standing import standing, standing_if_known
from reelwright.shop.trials.typed import TypedField, typed_fields


@dataclass(frozen=True, kw_only=True)
class Shown:
    """One setting as a person sets it."""

    key: str
    name: str
    value: str
    typed: str


@dataclass(frozen=True, kw_only=True)
class FieldCell:
    """One field of a typed trial: what stands in it and what is wrong with it."""

    field: TypedField
    value: str
    fault: str


def field_cells(
    frame: SearchFrame, cells: Mapping[str, str], faults: Mapping[str, str]
) -> list[FieldCell]:
    """Return the fields of a trial as a page shows them."""
    return [
        FieldCell(field=one, value=cells.get(one.key, ""), fault=faults.get(one.key, ""))
        for one in typed_fields(frame)
    ]


@dataclass(frozen=True, kw_only=True)
class NextTrial:
    """One trial to make: its settings and why."""

    settings: tuple[Shown, ...]
    sentence: str


@dataclass(frozen=True, kw_only=True)
class StandingWords:
    """Where a search stands, in words. ``state`` is an outcome as the marks know it."""

    headline: str
    state: str
    sure: str
    told: tuple[str, ...]
    why_none: tuple[str, ...]
    next: tuple[NextTrial, ...]
    next_title: str
    no_next: str
    found: bool
    centre: tuple[Shown, ...]


@dataclass(frozen=True, kw_only=True)
class SearchNow:
    """A search with its trials, and where it stands: known, not computed yet, or contradictory."""

    search: SearchView
    frame: SearchFrame
    trials: tuple[TrialView, ...]
    standing: Standing | None
    faults: tuple[Fault, ...]

    @property
    def words(self) -> StandingWords | None:
        """Where it stands in words; ``None`` where that is not known."""
        return None if self.standing is None else _words(self.standing)


def search_now(
    search: SearchView, frame: SearchFrame, trials: tuple[TrialView, ...], *, wait: bool
) -> SearchNow:
    """Return a search as it is now; ``wait`` computes where it stands if nobody did yet."""
    found: Standing | None = None
    faults: tuple[Fault, ...] = ()
    try:
        problem = frame.problem(counting(trials))
    except InputFaults as error:
        faults = error.faults
    else:
        ask = standing if wait else standing_if_known
        found = ask(problem, most_trials=search.most_trials)
    return SearchNow(search=search, frame=frame, trials=trials, standing=found, faults=faults)


def _settings(problem: TrialsProblem, values: tuple[float, ...]) -> tuple[Shown, ...]:
    return tuple(
        Shown(key=f"setting-{place}", name=one.name, value=one.show(value), typed=f"{value:g}")
        for place, (one, value) in enumerate(zip(problem.settings, values, strict=True), start=1)
    )


def _words(found: Standing) -> StandingWords:
    problem, window = found.model.problem, found.window
    told: list[str] = []
    centre: tuple[Shown, ...] = ()
    if isinstance(window, Window):
        told = [check.sentence for check in window.checks]
        told += [*span_sentences(window, problem), room_sentence(window)]
        centre = _settings(problem, window.centre)
        why: list[str] = []
    else:
        why = [reason.sentence for reason in window.reasons]
    chosen = found.next.chosen
    widening = isinstance(window, Window) and bool(chosen) and chosen[0].aim is Aim.WIDEN
    state = "good" if found.found else "caution"
    if found.stop is not None and not found.found:
        state = "bad"
    return StandingWords(
        headline=found.headline,
        state=state,
        sure=sentence(sure_sentence(window, problem)),
        told=tuple(sentence(one) for one in told),
        why_none=tuple(sentence(one) for one in why),
        next=tuple(
            NextTrial(settings=_settings(problem, one.values), sentence=one.sentence)
            for one in chosen
        ),
        next_title="For a wider window" if widening else "Try next",
        no_next="" if found.next.reason is None else sentence(found.next.reason.sentence),
        found=found.found,
        centre=centre,
    )


@functools.lru_cache(maxsize=16)
def standing_chart(found: Standing, across: str, up: str) -> TrialsChart | None:
    """Return the chart of a standing; ``None`` where there is nothing to draw yet.

    Raises BadValue for a name that is no setting.
    """
    problem = found.model.problem
    if len(problem.settings) == 1 and not found.model.responses:
        return None
    return draw_trials(
        found.model,
        window=found.window,
        proposals=found.next,
        across=across or None,
        up=up or None,
    )


def caution_sentences(search: SearchView, cable: Cable) -> tuple[str, ...]:
    """Return the cautions of the machine that the trials are made on."""
    fluoropolymer = any(
        word in layer.material.upper()
        for layer in cable.layers
        for word in ("FEP", "PTFE", "FLUORO")
    )
    job = Job(methods=(search.method,), fluoropolymer=fluoropolymer, line_v=None, test_v=None)
    return tuple(one.sentence for one in cautions(job))


def faults_at_fields(error: InputFaults, frame: SearchFrame) -> dict[str, str]:
    """Return what is wrong with a typed trial by field; what belongs to none stands under "all"."""
    keys: Mapping[str, str] = {
        **{one.name: f"setting-{place}" for place, one in enumerate(frame.settings, start=1)},
        **{one.name: f"response-{place}" for place, one in enumerate(frame.responses, start=1)},
        **{one.name: f"looks-{place}" for place, one in enumerate(frame.looks, start=1)},
    }
    words: dict[str, str] = {}
    for fault in error.faults:
        field = fault.field or ""
        key = keys.get(field, field)
        known = key == "failure" or key.rpartition("-")[0] in ("setting", "response", "looks")
        told = f"{sentence(fault.problem)} Accepted: {fault.accepted}."
        key = key if known else "all"
        words[key] = f"{words[key]} {told}" if key in words else told
    return words
