"""``reelwright trial``: where a search for a process window stands, and what to try next."""

from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from reelwright.cli.speaking import EXIT_NO, print_json, telling_errors

if TYPE_CHECKING:
    from reelwright.core.trials.classical import Design, SurfaceReading
    from reelwright.core.trials.effects import EffectsReading
    from reelwright.core.trials.problem import TrialsProblem
    from reelwright.core.trials.search_text import SearchText
    from reelwright.core.trials.standing import Standing
    from reelwright.core.verdicts import Reason

_SEED = 1


@click.command("trial")
@click.argument("search", type=click.Path(path_type=Path))
@click.argument("trials", type=click.Path(path_type=Path), required=False)
@click.option(
    "--next",
    "count",
    type=click.IntRange(1, 3),
    default=1,
    show_default=True,
    help="How many trials to propose at once.",
)
@click.option("--plot", type=click.Path(path_type=Path), help="Draw the trials into this SVG file.")
@click.option(
    "--design",
    type=click.Choice(["full", "fraction", "central"]),
    help="Print the runs of a classical design instead.",
)
@click.option("--seed", type=click.IntRange(0), default=_SEED, show_default=True)
@click.option("--json", "as_json", is_flag=True, help="One JSON object for programs.")
def command(
    *,
    search: Path,
    trials: Path | None,
    count: int,
    plot: Path | None,
    design: str | None,
    seed: int,
    as_json: bool,
) -> None:
    """Say where a search for a process window stands, and which trial comes next.

    SEARCH is a TOML file that says what can be set, what is measured and what is demanded; TRIALS
    is a CSV file of the trials made so far. Both are told in docs/guide/trials-file.md. Exits with
    0 where the window is proven, 1 where it is not yet or where nothing is safe to try.
    """
    with telling_errors(as_json=as_json):
        text, problem = _read(search, trials)
        if design is not None:
            _tell_design(problem, design, seed, as_json=as_json)
            return
        from reelwright.core.trials.standing import stand

        found = stand(problem, count=count, seed=seed, most_trials=text.most_trials)
        if plot is not None:
            _draw(found, plot)
    if as_json:
        print_json(_standing_json(text, found))
    else:
        _tell(text, found)
    if not found.found:
        raise SystemExit(EXIT_NO)


def _read(search: Path, trials: Path | None) -> "tuple[SearchText, TrialsProblem]":
    """Read both files; the faults of the search are told before those of the trials."""
    from reelwright.core.errors import Fault, InputFaults
    from reelwright.core.trials.search_text import read_search

    content = search.read_bytes()
    try:
        told = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputFaults(
            [
                Fault(
                    file=search.name,
                    row=content[: error.start].count(b"\n") + 1,
                    field=None,
                    value=f"0x{content[error.start]:02X}",
                    problem="this is not UTF-8",
                    accepted="a file saved as UTF-8",
                )
            ]
        ) from error
    text = read_search(told, file=search.name)
    if trials is None:
        return text, text.frame.problem(())
    from reelwright.core.trials.trials_text import read_trials
    from reelwright.shop.tables import read_lines

    lines = read_lines(name=trials.name, content=trials.read_bytes(), each="trial")
    found = read_trials(lines, file=trials.name, frame=text.frame)
    return text, text.frame.problem([one.trial for one in found])


def _tell(text: "SearchText", found: "Standing") -> None:
    from reelwright.core.quantities.words import sentence
    from reelwright.core.trials.gain import Aim
    from reelwright.core.trials.window import Window
    from reelwright.core.trials.words import room_sentence, span_sentences, sure_sentence

    problem, window = found.model.problem, found.window
    click.echo(f"{text.name}: {sure_sentence(window, problem)}.")
    click.echo(sentence(found.headline))
    if isinstance(window, Window):
        told = [check.sentence for check in window.checks]
        told += [*span_sentences(window, problem), room_sentence(window)]
    else:
        told = [reason.sentence for reason in window.reasons]
    for one in told:
        click.echo(f"- {sentence(one)}")
    chosen = found.next.chosen
    if isinstance(window, Window) and chosen and chosen[0].aim is Aim.WIDEN:
        click.echo("For a wider window:")
    for proposal in found.next.chosen:
        click.echo(f"Trial: {proposal.sentence}")
    if found.next.reason is not None:
        click.echo(sentence(found.next.reason.sentence))


def _standing_json(text: "SearchText", found: "Standing") -> dict[str, Any]:
    from reelwright.core.trials.window import Window

    problem, window = found.model.problem, found.window
    names = [one.name for one in problem.settings]
    shown: dict[str, Any] | None = None
    if isinstance(window, Window):
        shown = {
            "centre": dict(zip(names, window.centre, strict=True)),
            "spans": {span.setting: [span.low, span.high] for span in window.spans},
            "confirmed": window.confirmed,
            "drifts_to_edge_ratio": window.drifts_to_edge_ratio,
            "stays_chance": window.stays_chance,
            "claims": [check.sentence for check in window.checks],
        }
    return {
        "search": text.name,
        "units": {one.name: one.unit for one in problem.settings},
        "trials": len(problem.trials),
        "found": found.found,
        "headline": found.headline,
        "window": shown,
        "reasons": [] if isinstance(window, Window) else [vars(one) for one in window.reasons],
        "next": [
            {
                "settings": dict(zip(names, one.values, strict=True)),
                "aim": str(one.aim),
                "inside_chance": one.inside_chance,
                "safe_chance": one.safe_chance,
                "sentence": one.sentence,
            }
            for one in found.next.chosen
        ],
        "stop": None if found.stop is None else vars(found.stop),
    }


def _draw(found: "Standing", plot: Path) -> None:
    from reelwright.charts.trials import draw_trials

    drawn = draw_trials(found.model, window=found.window, proposals=found.next)
    plot.write_text(drawn.svg, encoding="utf-8")


def _tell_design(problem: "TrialsProblem", kind: str, seed: int, *, as_json: bool) -> None:
    from reelwright.core.quantities.words import sentence
    from reelwright.core.trials.classical import (
        Design,
        DesignKind,
        classical_design,
        read_surface,
    )
    from reelwright.core.trials.effects import read_effects
    from reelwright.core.verdicts import Reason

    design = classical_design(problem, DesignKind(kind), seed=seed)
    read = []
    effects = []
    for response in problem.responses if problem.trials else ():
        found = read_effects(problem, response)
        if isinstance(found, Reason):
            read.append(read_surface(problem, response))
        else:
            effects.append(found)
    if as_json:
        print_json(_design_json(problem, design) | {"effects": [asdict(one) for one in effects]})
    elif isinstance(design, Design):
        click.echo(sentence(design.sentence))
        for run in design.runs:
            click.echo(f"Run {run.number}: {problem.show(run.values)}.")
        for each in effects:
            _tell_effects(each)
        for one in read:
            _tell_surface(one)
    else:
        click.echo(sentence(design.sentence))
    if not isinstance(design, Design):
        raise SystemExit(EXIT_NO)


def _tell_surface(one: "SurfaceReading | Reason") -> None:
    from reelwright.core.quantities.words import sentence
    from reelwright.core.verdicts import Reason

    if isinstance(one, Reason):
        click.echo(sentence(one.sentence))
        return
    for told in one.sentences:
        click.echo(sentence(told))
    for term in one.terms:
        click.echo(
            f"- {term.name}: {term.change:+.3g} ± {term.error:.2g} {term.unit} from the "
            f"middle to the end of the range; by chance {term.chance:.0%}."
        )


def _tell_effects(effects: "EffectsReading") -> None:
    from reelwright.core.quantities.words import sentence

    for told in effects.sentences:
        click.echo(sentence(told))
    for row in effects.effects:
        error = "" if row.error is None else f" ± {row.error:.2g}"
        chance = "" if row.chance is None else f"; by chance {row.chance:.0%}"
        mixed = f"; mixed with {', '.join(row.mixed_with)}" if row.mixed_with else ""
        click.echo(
            f"- {row.name}: {row.change:+.3g}{error} {row.unit} from the low to the high end"
            f"{chance}{mixed}."
        )


def _design_json(problem: "TrialsProblem", design: "Design | Reason") -> dict[str, Any]:
    from reelwright.core.verdicts import Reason

    if isinstance(design, Reason):
        return vars(design)
    names = [one.name for one in problem.settings]
    return {
        "kind": str(design.kind),
        "sentence": design.sentence,
        "units": {one.name: one.unit for one in problem.settings},
        "runs": [
            {"number": run.number, "settings": dict(zip(names, run.values, strict=True))}
            for run in design.runs
        ],
    }
