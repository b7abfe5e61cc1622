"""What the guides say of set-ups and of ``reelwright end`` is what the code does."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from reelwright.cli.end import command
from reelwright.cli.main import command_line
from reelwright.core.parts.connector import Method
from reelwright.shop.people.permissions import Action, Role, may
from reelwright.shop.setups import rules
from reelwright.shop.setups.states import NEXT, State
from tests.day_world import DayWorld, build_day_world

GUIDES = Path(__file__).resolve().parents[2] / "docs" / "guide"
SET_UPS = (GUIDES / "set-ups.md").read_text(encoding="utf-8")
END = (GUIDES / "end.md").read_text(encoding="utf-8")
WORDS = {
    "pin_die_mm": "pin die",
    "ferrule_die_mm": "ferrule die",
    "crimp_height_mm": "crimp height",
    "program": "program",
    "blade_set": "blade set",
    "weld_horn": "horn",
    "weld_energy_j": "energy",
    "weld_pressure_kpa": "pressure",
    "weld_amplitude_um": "amplitude",
}


@pytest.fixture
def day_world(db: None) -> DayWorld:
    """The day world, rolled back afterwards."""
    return build_day_world()


class Person:
    """Somebody of one role, who works here."""

    display_name = "somebody"
    is_active = True

    def __init__(self, role: Role) -> None:
        self.role = role.value


def rows(text: str, heading: str) -> dict[str, tuple[str, ...]]:
    """The table under a heading, by its first column."""
    part = text.split(f"## {heading}\n")[1].split("\n## ", maxsplit=1)[0]
    lines = [line for line in part.splitlines() if line.startswith("| ")]
    cells = [[cell.strip() for cell in line.split("|")[1:-1]] for line in lines]
    return {first: tuple(rest) for first, *rest in cells[1:]}


def test_the_states_are_those_of_the_code_with_who_may() -> None:
    """Every state, in the order of its moves, each with the roles that may bring it about."""
    told = rows(SET_UPS, "From draft to release")
    order = [State.DRAFTED]
    while (following := NEXT[order[-1]]) is not None:
        order.append(following)
    assert list(told) == [*map(str, order), str(State.WITHDRAWN)]
    for state, (_, who) in told.items():
        drafts = state in (State.DRAFTED, State.ON_TRIAL)
        action = Action.DRAFT_SETUPS if drafts else Action.RELEASE_SETUPS
        allowed = {role.value for role in Role if may(Person(role), action)}
        assert set(who.split(", ")) == allowed, state


def test_what_proves_is_in_the_numbers_of_the_code() -> None:
    """Pulls, heights, share and confidence."""
    proven = rows(SET_UPS, "From draft to release")["proven"][0]
    assert f"{rules.PULLS_TO_PROVE} pulls or more" in proven
    assert f"{rules.HEIGHTS_TO_PROVE} crimp heights or more" in proven
    assert f"{rules.COVERAGE:.0%} of ends".replace("%", " %") in proven
    assert f"{rules.CONFIDENCE:.0%} confidence".replace("%", " %") in proven


@pytest.mark.parametrize("method", list(Method))
def test_what_an_end_needs_before_its_trial_is_named(method: Method) -> None:
    """For each way of joining every number that the rules ask for, and no other."""
    told = rows(SET_UPS, "What an end of each kind needs before its trial")
    (row,) = [cells for kinds, cells in told.items() if method.value in kinds.split(", ")]
    needed = rules.needed_fields(method)
    named = [word.strip() for word in row[1].split(",") if word.strip()]
    assert named == [WORDS[field] for field in needed if field in WORDS]
    assert row[0].startswith("a, b, c") == ("strip_braid_mm" in needed)
    assert row[0].startswith("bared cores") == ("cores_bared_mm" in needed)
    assert {"test_adapter", "minimum_pull_n", "steps"} <= set(needed)


def test_the_options_of_the_command_are_told() -> None:
    """Every option stands in the guide, and none that the command does not know."""
    known = {option for each in command.params for option in each.opts if option.startswith("--")}
    named = set(re.findall(r"(--[a-z]+)", END))
    assert named == known - {"--help"}


def test_the_keys_for_programs_are_those_that_are_written(
    day_world: DayWorld, tmp_path: Path
) -> None:
    """The object of a sheet and that of a pair hold the keys that the guide names, all of them."""
    sheet = ["end", "S-1", "--out", str(tmp_path), "--json"]
    written = json.loads(CliRunner().invoke(command_line, sheet).stdout)
    told = {key for row in rows(END, "For programs") for key in re.findall(r"`(\w+)`", row)}
    assert told == set(written)
    pair = ["end", "--cable", "SW-60", "--connector", "SW-PLUG", "--json"]
    written = json.loads(CliRunner().invoke(command_line, pair).stdout)
    assert re.findall(r"`(\w+)`", END.split("The object of a pair")[1]) == list(written)
