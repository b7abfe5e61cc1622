"""The group of commands. Each lives in a module of its own and loads only when it is called."""

import importlib

import click

from reelwright import __version__

_COMMANDS = {
    "ask": "reelwright.cli.ask",
    "cut": "reelwright.cli.cut",
    "day": "reelwright.cli.day",
    "demo": "reelwright.cli.demo",
    "end": "reelwright.cli.end",
    "serve": "reelwright.cli.serve",
    "trial": "reelwright.cli.trial",
}


class _LateGroup(click.Group):
    """Imports a command's module when it is asked for, so that ``--help`` answers at once."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in _COMMANDS:
            return None
        command: click.Command = importlib.import_module(_COMMANDS[cmd_name]).command
        return command


@click.group(cls=_LateGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="reelwright")
def command_line() -> None:
    """From a customer's question to a proven cable.

    The folder of the workshop is named by REELWRIGHT_HOME. Every command exits with 0 when it did
    what was asked, 1 when the answer is a no, 2 when the input was bad.
    """
