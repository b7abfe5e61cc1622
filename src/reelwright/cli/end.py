"""``reelwright end``: a set-up sheet, or whether a cable and a connector go together."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from reelwright.cli.speaking import (
    EXIT_BAD_INPUT,
    EXIT_NO,
    open_workshop,
    print_json,
    stop,
    telling_errors,
)

if TYPE_CHECKING:
    from reelwright.documents.set_up_sheet import MeasuredRow, SetUpPaper, TipPrint

_PDF = b"%PDF-"


@click.command("end")
@click.argument("set_up", required=False)
@click.option("--rev", "letter", default="", help="The revision; the newest where not given.")
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Where the PDF goes; named after set-up and revision, here, where not given.",
)
@click.option("--cable", help="The code of a cable, with --connector: do they go together?")
@click.option("--connector", help="The code of a connector, with --cable.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for programs.")
def command(
    *,
    set_up: str | None,
    letter: str,
    out: Path | None,
    cable: str | None,
    connector: str | None,
    as_json: bool,
) -> None:
    """Write the sheet of SET_UP (such as T-02) as PDF, and say what is in it.

    Exits with 1 where its revision is not released: then the sheet says so on every page, and what
    is missing is told. With --cable and --connector instead, says whether an end can be made of
    them, and exits with 1 where it cannot or is not known.
    """
    pair = cable is not None and connector is not None
    if pair == (set_up is not None) or (not pair and (cable or connector)):
        stop(
            "Name a set-up, or a cable with a connector: reelwright end T-02, or reelwright end "
            "--cable VID-60 --connector BNC-60.",
            code=EXIT_BAD_INPUT,
        )
    if pair and (letter or out):
        stop("--rev and --out go with a set-up, not with a pair.", code=EXIT_BAD_INPUT)
    with telling_errors(as_json=as_json):
        open_workshop()
        if cable is not None and connector is not None:
            fine = _tell_pair(cable, connector, as_json=as_json)
        else:
            fine = _write_sheet(set_up or "", letter, out, as_json=as_json)
    if not fine:
        raise SystemExit(EXIT_NO)


def _write_sheet(code: str, letter: str, out: Path | None, *, as_json: bool) -> bool:
    from reelwright.documents.set_up_sheet import render_set_up_sheet
    from reelwright.shop.people.selectors import today, workshop
    from reelwright.shop.setups.paper import set_up_paper, sheet_file_name
    from reelwright.shop.setups.selectors import chosen_sheet
    from reelwright.shop.trials.gauges import shop_gauges

    _, sheet = chosen_sheet(code, letter)
    place = out or Path(sheet_file_name(sheet))
    if place.is_dir():
        place = place / sheet_file_name(sheet)
    _require_place(place)
    content = set_up_paper(code, letter=letter, on=today(workshop()), gauges=shop_gauges())
    place.write_bytes(render_set_up_sheet(content))
    if as_json:
        print_json(
            {
                "set_up": sheet.code,
                "revision": sheet.letter,
                "cable": content.cable,
                "connector": content.connector,
                "state": content.state,
                "released": content.released,
                "missing_for": content.missing_for or None,
                "missing": list(content.missing),
                "strip": [vars(row) for row in content.strip_rows],
                "steps": list(content.steps),
                "order_told": content.order_told or None,
                "operations": list(content.operations),
                "machines": {row.name: row.value for row in content.machines},
                "pulls": None if content.pulls is None else content.pulls.sentence,
                "pin_tip": _tip_lines(content.tip) or None,
                "measured": [vars(row) for row in content.measured],
                "measured_told": [row.sentence for row in content.measured_told],
                "bend": [row.sentence for row in content.bend_told],
                "body": content.body_told or None,
                "cautions": [row.sentence for row in content.cautions],
                "photographs": len(content.photographs),
                "sheet": str(place),
            }
        )
    else:
        _tell_sheet(content, place)
    return content.released


def _require_place(place: Path) -> None:
    """End unless the PDF may be written there: nothing but an earlier sheet is replaced."""
    if not place.absolute().parent.is_dir():
        stop(f"{place}: there is no folder {place.absolute().parent}.", code=EXIT_BAD_INPUT)
    if place.exists():
        with place.open("rb") as file:
            if file.read(len(_PDF)) != _PDF:
                stop(f"{place} is another file, and no PDF: name a new one.", code=EXIT_BAD_INPUT)


def _tell_sheet(content: "SetUpPaper", place: Path) -> None:
    click.echo(f"{content.code}, {content.cable} in {content.connector}: {content.state}")
    click.echo(content.lead)
    for row in content.strip_rows:
        cut = f", cut at {row.cut_at}" if row.cut_at else ""
        click.echo(f"Strip {row.letter}, {row.name}: {row.length} mm{cut}")
    if content.threaded_first:
        click.echo(f"Before anything else: {content.threaded_first}")
    for number, step in enumerate(content.steps, start=1):
        click.echo(f"{number}. {step}")
    if content.order_told:
        click.echo(content.order_told)
    for number, operation in enumerate(content.operations, start=1):
        click.echo(f"Operation {number}: {operation}")
    for figure in content.machines:
        click.echo(f"{figure.name}: {figure.value}")
    if content.pulls is not None:
        click.echo(content.pulls.sentence)
    for told in (
        *(f"Pin tip: {line}" for line in _tip_lines(content.tip)),
        *map(_measured, content.measured),
        *(row.sentence for row in (*content.measured_told, *content.bend_told)),
        *filter(None, [content.body_told]),
    ):
        click.echo(told)
    for caution in content.cautions:
        click.echo(f"Take care: {caution.sentence}")
    if not content.released:
        from reelwright.documents.set_up_sheet import NOT_FOR_ORDERS

        click.echo(NOT_FOR_ORDERS)
        if content.missing:
            click.echo(f"Missing before it is {content.missing_for}:")
        for sentence in content.missing:
            click.echo(f"- {sentence}")
    click.echo(f"Sheet: {place}")


def _tip_lines(tip: "TipPrint | None") -> list[str]:
    """Return where the pin's tip lands, or what is missing to tell; nothing without such a pin."""
    if tip is None:
        return []
    return [tip.missing] if tip.missing else [row.sentence for row in tip.told]


def _measured(part: "MeasuredRow") -> str:
    """Return what was measured of one part on a line, with its capability where it has one."""
    spread = f", s {part.spread}" if part.spread else ""
    told = f"Measured, {part.name}: {part.count} of {part.mean}{spread}"
    if part.outside:
        told += f", outside {part.laid_down}: {part.outside}"
    if part.cpk:
        told += (
            f"; Cpk {part.cpk}, at least {part.cpk_least} with 95\u202f% confidence, "
            f"{part.share} would lie outside"
        )
    return told


def _tell_pair(cable: str, connector: str, *, as_json: bool) -> bool:
    from reelwright.core.ends.strip.plan import StripPlan
    from reelwright.shop.setups.overrides import fit_overrides
    from reelwright.shop.setups.pair import pair_now, strip_words

    now = pair_now(cable, connector)
    said = fit_overrides().get((cable, connector))
    strip = now.proposed_strip
    if isinstance(strip, StripPlan):
        strip_told = strip_words(strip)
    else:
        strip_told = f"none proposed: {strip.sentence}"
    if as_json:
        print_json(
            {
                "cable": cable,
                "connector": connector,
                "possible": now.possible,
                "state": now.cell.state.value,
                "answer": now.headline,
                "against": list(now.reasons),
                "mind": list(now.cautions),
                "set_up": None if now.sheet is None else now.sheet.name,
                "said": None if said is None else f"{said.said_by}: {said.answer}. {said.reason}",
                "strip_mm": list(strip.cuts_mm) if isinstance(strip, StripPlan) else None,
                "strip": strip_told,
            }
        )
        return now.possible
    click.echo(f"{cable} in {connector}. {now.headline}.")
    for sentence in now.reasons:
        click.echo(f"- {sentence}")
    for sentence in now.cautions:
        click.echo(f"Mind: {sentence}")
    if said is not None:
        click.echo(f"{said.said_by} says: {said.answer}. {said.reason}")
    click.echo(f"Strip by the connector's drawing: {strip_told}.")
    return now.possible
