"""What ``reelwright cut`` prints: for people, reel by reel; for programs, all of it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict
from itertools import groupby
from pathlib import Path
from typing import Any

import click

from reelwright.core.cutting.beside import Tally
from reelwright.core.cutting.plan import CutPlan, ReelCuts, Segment, SegmentKind, Unserved
from reelwright.core.cutting.problem import CutProblem, ItemRules
from reelwright.core.cutting.spares import SpareOutlook
from reelwright.core.cutting.wall import Wall, wall_after
from reelwright.core.quantities.show import show_chance, show_metres, show_number
from reelwright.core.quantities.words import counted, sentence
from reelwright.drawings.cut_plan import reel_title, remnant_use


def tell_plan(
    problem: CutProblem, plan: CutPlan, spares: Sequence[SpareOutlook], tallies: Sequence[Tally]
) -> None:
    """Print the plan: the answer first, what is wrong with it, then reel by reel."""
    click.echo(_headline(problem, plan))
    for warning in plan.warnings:
        click.echo(f"Warning: {sentence(warning.sentence)}")
    for outlook in spares:
        click.echo(f"{'Spares' if outlook.enough else 'Warning'}: {outlook.sentence}")
    for missing in _alike(plan.unserved):
        _tell_unserved(missing)
    for standing in plan.standings:
        click.echo(standing.sentence)
    click.echo(_rack_after(wall_after(problem, plan)))
    for tally in tallies:
        click.echo(sentence(tally.sentence))
    why = _why(plan)
    for cuts in plan.reels:
        click.echo()
        _tell_reel(cuts, problem.rules_of(cuts.item), why[cuts.reel_id])


def _headline(problem: CutProblem, plan: CutPlan) -> str:
    wanted, served = len(problem.pieces), len(plan.placements)
    scrap = show_metres(sum(cuts.scrap_mm for cuts in plan.reels), decimals=2)
    reels = counted(len(plan.reels), "reel")
    if served == wanted:
        return f"All {counted(wanted, 'piece')} are cut from {reels}; {scrap} scrap."
    return (
        f"{served} of {counted(wanted, 'piece')} are cut from {reels}, {wanted - served} not "
        f"served; {scrap} scrap."
    )


def _rack_after(wall: Wall) -> str:
    whole_mm = sum(each.length_mm for each in wall.lengths)
    told = f"In the rack afterwards: {counted(len(wall.lengths), 'clean length')}"
    if wall.lengths:
        told += f", {show_metres(whole_mm, decimals=2)}"
    if wall.expected_unused_count:
        told += (
            f"; on average {show_number(wall.expected_unused_count, decimals=1)} of them, "
            f"{show_metres(wall.expected_unused_mm, decimals=2)}, will not be used in time"
        )
    return sentence(told)


def _alike(unserved: Iterable[Unserved]) -> Iterator[list[Unserved]]:
    """Pieces that miss for the same reason are told together."""
    for _, each in groupby(
        unserved, key=lambda one: (one.item, one.cut_length_mm, one.reasons, one.would_serve)
    ):
        yield list(each)


def _tell_unserved(alike: Sequence[Unserved]) -> None:
    one = alike[0]
    names = ", ".join(each.piece_id for each in alike)
    click.echo(f"Not served: {names} ({show_metres(one.cut_length_mm)} of {one.item}).")
    for reason in one.reasons:
        click.echo(f"- {sentence(reason.sentence)}")
    click.echo(f"- {sentence(one.would_serve)}")


def _tell_reel(cuts: ReelCuts, rules: ItemRules, why: Sequence[str]) -> None:
    told = (
        f"{reel_title(cuts)}: {counted(len(cuts.cuts), 'piece')}, enough with "
        f"{show_chance(cuts.chance_of_enough)}"
    )
    click.echo(told)
    width = len(_at(cuts.segments[-1].start_mm))
    for part in cuts.segments:
        click.echo(f"  {_at(part.start_mm):>{width}}  {_part(part, rules)}")
    click.echo(
        f"  Stays on the reel: {show_metres(cuts.left_on_reel_mm, decimals=2)}; "
        f"scrap: {show_metres(cuts.scrap_mm, decimals=2)}."
    )
    for reason in why:
        click.echo(f"  {reason}")


def _at(position_mm: int) -> str:
    return show_number(position_mm / 1000, decimals=3)


def _part(part: Segment, rules: ItemRules) -> str:
    length = show_metres(part.length_mm)
    match part.kind:
        case SegmentKind.CUT:
            return f"{length}  {part.piece_id}"
        case SegmentKind.FLAW:
            return f"{length}  flaw, {'stays on the reel' if part.stays_on_reel else 'skip it'}"
        case _:
            use = remnant_use(part.length_mm, rules) if part.kind is not SegmentKind.SCRAP else ""
            return f"{length}  {part.kind}{', ' + use if use else ''}"


def _why(plan: CutPlan) -> dict[str, tuple[str, ...]]:
    """The reasons of each reel's pieces, each once."""
    found: dict[str, dict[str, None]] = {cuts.reel_id: {} for cuts in plan.reels}
    for placement in plan.placements:
        for reason in placement.why:
            found[placement.reel_id][sentence(reason.sentence)] = None
    return {reel: tuple(reasons) for reel, reasons in found.items()}


def plan_json(
    problem: CutProblem,
    plan: CutPlan,
    spares: Sequence[SpareOutlook],
    tallies: Sequence[Tally],
    *,
    drawing: Path | None,
) -> dict[str, Any]:
    """Return the plan for programs, as docs/guide/cut-files.md lays it down."""
    why = _why(plan)
    return {
        "wanted": len(problem.pieces),
        "served": len(plan.placements),
        "chance_of_enough": problem.chance_of_enough,
        "reels": [
            {
                "id": cuts.reel_id,
                "item": cuts.item,
                "lot": cuts.lot,
                "location": cuts.location,
                "chance_of_enough": cuts.chance_of_enough,
                "left_on_reel_mm": cuts.left_on_reel_mm,
                "scrap_mm": cuts.scrap_mm,
                "parts": [
                    {
                        "kind": str(part.kind),
                        "start_mm": part.start_mm,
                        "end_mm": part.end_mm,
                        "piece": part.piece_id,
                        "stays_on_reel": part.stays_on_reel,
                    }
                    for part in cuts.segments
                ],
                "why": why[cuts.reel_id],
            }
            for cuts in plan.reels
        ],
        "unserved": [
            {
                "piece": one.piece_id,
                "item": one.item,
                "cut_length_mm": one.cut_length_mm,
                "reasons": [vars(reason) for reason in one.reasons],
                "would_serve": one.would_serve,
            }
            for one in plan.unserved
        ],
        "warnings": [vars(warning) for warning in plan.warnings],
        "standings": [
            {
                "item": standing.item,
                "sentence": standing.sentence,
                "proven_best": standing.proven_best,
                "levels": dict(standing.levels),
                "aims": [asdict(aim) for aim in standing.aims],
            }
            for standing in plan.standings
        ],
        "rack_after": [asdict(each) for each in wall_after(problem, plan).lengths],
        "spares": [
            asdict(outlook) | {"enough": outlook.enough, "sentence": outlook.sentence}
            for outlook in spares
        ],
        "beside": [
            {
                "way": tally.way,
                "served": tally.served_count,
                "scrap_mm": tally.scrap_mm,
                "levels": dict(tally.levels),
            }
            for tally in tallies
        ],
        "drawing": None if drawing is None else str(drawing),
    }
