"""``reelwright ask``: a verdict on one run."""

import click

from reelwright.cli.speaking import EXIT_NO, open_workshop, print_json, telling_errors


@click.command("ask")
@click.argument("length")
@click.option("--signal", required=True, help='What it shall carry, such as "serial video 3G".')
@click.option("--cable", default="you choose", show_default=True, help="A cable's code or name.")
@click.option("--end-a", required=True, help="The connector at one end, such as BNC.")
@click.option("--end-b", help="The connector at the other end; the same where not given.")
@click.option("--colour", default="", help="The colour of the jacket.")
@click.option("--space", default="", help="Where it lies, such as plenum.")
@click.option("--adapters", default="", help="How many couplers and patch points lie in it.")
@click.option("--temperature", default="", help="The warmest it gets, such as 40 °C.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for programs.")
def command(
    *,
    length: str,
    signal: str,
    cable: str,
    end_a: str,
    end_b: str | None,
    colour: str,
    space: str,
    adapters: str,
    temperature: str,
    as_json: bool,
) -> None:
    """Say whether a run of LENGTH (such as 450ft or 33'4") will work, and with what to spare.

    Exits with 1 where the answer is no, or where something must be known first.
    """
    with telling_errors(as_json=as_json):
        open_workshop()
        from reelwright.shop.day.ask import ask
        from reelwright.shop.people.selectors import today, workshop

        here = workshop()
        currency = here.currency
        found = ask(
            cells={
                "length": length,
                "signal": signal,
                "cable": cable,
                "end_a": end_a,
                "end_b": end_b or end_a,
                "colour": colour,
                "space": space,
                "adapters": adapters,
                "temperature": temperature,
            },
            on=today(here),
        )
    answer = found.answer
    if as_json:
        print_json(answer.to_json())
    else:
        click.echo(answer.headline)
        click.echo(f"Read as {answer.reading}.")
        for sentence in (*answer.reasons, *answer.notes, *answer.questions):
            click.echo(f"- {sentence}")
        if answer.far_end:
            click.echo(f"Far end: {answer.far_end}")
        if answer.possible is not None:
            click.echo(f"Not promised: {answer.possible.sentence}")
        for offer in answer.offers:
            told = [offer.verdict] if offer.verdict else []
            if offer.price is not None:
                told.append(f"{offer.price} {currency} each")
            click.echo(f"Offer: {offer.sentence}")
            if told:
                click.echo(f"       {'; '.join(told)}.")
        if answer.price is not None:
            click.echo(f"Price {answer.price.unit_price} {answer.price.currency} each.")
    if answer.state != "accepted":
        raise SystemExit(EXIT_NO)
