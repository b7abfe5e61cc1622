"""``reelwright demo``: the invented workshop."""

import click

from reelwright.cli.speaking import open_workshop, print_json, telling_errors


@click.command("demo")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for programs.")
def command(as_json: bool) -> None:
    """Build the invented workshop in REELWRIGHT_HOME, unless it stands there already.

    It has its own fixed working day and never mixes with a workshop of yours: a folder that
    holds another workshop is refused.
    """
    with telling_errors(as_json=as_json):
        open_workshop(begun=False)
        from reelwright.demo.build import build_or_find

        found = build_or_find()
        if as_json:
            print_json(found.to_json())
            return
        built = "was built" if found.built else "stands there already"
        click.echo(f"{found.name} (invented) {built}: {found.home}")
        click.echo(f"Its working day:  {found.working_day:%A %d %B %Y}")
        click.echo(f"The night's orders:  {found.orders}")
        click.echo(f"One more at 14:10:  {found.late_orders}")
        for account in found.sign_in:
            click.echo(f"Sign in as {account.role}:  {account.name} / {account.password}")
