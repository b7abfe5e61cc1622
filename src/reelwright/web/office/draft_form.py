"""What was typed into the form of a draft -> the numbers of a revision, or every fault of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from reelwright.core.ends.strength.pull_rules import PullMinimum, PullRules
from reelwright.core.errors import Fault, InputFaults, ShopRuleBroken, UnreadableQuantity
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.show import show_plain
from reelwright.core.quantities.words import counted
from reelwright.core.trials.number_text import read_plain_number
from reelwright.core.verdicts import Basis, Source
from reelwright.shop.setups.pull_rules import require_rules_kept, rules_minimum
from reelwright.shop.setups.sheet import Numbers
from reelwright.web.office.draft_fields import FIELDS, Field
from reelwright.web.office.draft_order import lines_left_behind, read_order

_FORM = "the form"
_MOST = Decimal(9999)
_MOST_LEVELS = 4
_MOST_LINES = 40
_FLOATS = ("weld_energy_j", "weld_pressure_kpa", "weld_amplitude_um", "minimum_pull_n")
REFUSED_AT = {
    "pull_under_rules": "minimum_pull_n",
    "pull_rules_silent": "pull_rules",
    "letter_not_next": "letter",
    "code_unusable": "code",
    "set_up_exists": "code",
}
"""At which field a refusal of the service is told."""


@dataclass(frozen=True, kw_only=True)
class DraftBegan:
    """What the form began with: the order laid down, the steps, and whether these were proposed."""

    order: tuple[str, ...]
    steps: tuple[str, ...]
    proposed: bool


def read_draft(
    cells: Mapping[str, str], cable: Cable, connector: Connector, began: DraftBegan
) -> Numbers:
    """Return the numbers typed; raise InputFaults with every fault, ``field`` the cell's name."""
    reader = _Reader(cells, cable)
    found = reader.numbers()
    ordered = read_order(cable, connector, cells)
    faults = [*reader.faults, *ordered.faults]
    if not ordered.faults and ordered.order != began.order and found["steps"] == began.steps:
        if began.proposed:
            # Their words tell the order before; the sheet tells the operations itself.
            found["steps"] = ()
        elif found["steps"]:
            faults.append(lines_left_behind(cells.get("steps", "")))
    if faults:
        raise InputFaults(faults)
    return Numbers(**found, order=ordered.order)


class _Reader:
    def __init__(self, cells: Mapping[str, str], cable: Cable) -> None:
        self._cells = {key: cells.get(key, "").strip() for key in FIELDS}
        self._cable = cable
        self.faults: list[Fault] = []

    def numbers(self) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for key, field in FIELDS.items():
            if field.unit is not None:
                found[key] = self._number(key, field)
            elif field.lines:
                found[key] = self._lines(key, field)
            elif field.longest:
                found[key] = self._text(key, self._cells[key], field)
        for key in ("levels", "press_min_per_end"):
            if not self._cells[key]:
                self._fault(key, "nothing stands here", _accepted(key, FIELDS[key]))
        if found["levels"] is not None:
            found["levels"] = int(found["levels"])
        for key in _FLOATS:
            found[key] = None if found[key] is None else float(found[key])
        del found["minimum_pull_source"]
        return found | self._pull(found)

    def _fault(self, key: str, problem: str, accepted: str) -> None:
        self.faults.append(
            Fault(
                file=_FORM,
                row=None,
                field=key,
                value=self._cells[key],
                problem=problem,
                accepted=accepted,
            )
        )

    def _number(self, key: str, field: Field) -> Decimal | None:
        typed = self._cells[key]
        if not typed:
            return None
        try:
            value = Decimal(repr(read_plain_number(typed, unit=field.unit or "")))
        except UnreadableQuantity as error:
            self._fault(key, f"“{typed}” is not a {error.quantity}", error.accepted)
            return None
        exponent = value.normalize().as_tuple().exponent
        fine = isinstance(exponent, int) and -exponent <= field.decimals
        most = _MOST_LEVELS if key == "levels" else _MOST
        if value < 0 or (value == 0 and not field.zero) or value > most or not fine:
            self._fault(key, f"“{typed}” cannot be", _accepted(key, field))
            return None
        return value

    def _text(self, key: str, typed: str, field: Field) -> str:
        if len(typed) > field.longest:
            self._fault(
                key,
                f"{len(typed)} characters are too many",
                f"{'each line ' if field.lines else ''}at most {field.longest}",
            )
        elif not typed.isprintable():
            self._fault(key, "there is a sign in it that cannot be printed", "plain text")
        return typed

    def _lines(self, key: str, field: Field) -> tuple[str, ...]:
        lines = [line.strip() for line in self._cells[key].splitlines()]
        found = tuple(self._text(key, line, field) for line in lines if line)
        if len(found) > _MOST_LINES:
            self._fault(key, f"{counted(len(found), 'line')} are too many", f"{_MOST_LINES}")
        return found

    def _pull(self, found: Mapping[str, Any]) -> dict[str, Any]:
        """The least pull with its rule set and source, kept to the rule set here as by the service,
        so that it is told together with what else is wrong."""
        rules = self._choice("pull_rules", PullRules)
        basis = self._choice("minimum_pull_basis", Basis)
        told, waiver = self._cells["minimum_pull_source"], found["solid_wire_waiver"]
        least_n = found["minimum_pull_n"]
        if waiver and rules is None:
            if not self._cells["pull_rules"]:
                self._fault(
                    "solid_wire_waiver",
                    "the shop's own least pull bars nothing",
                    "a rule set whose bar it lifts, or nothing here",
                )
            waiver = ""
        source = None
        if least_n is not None and (told or rules is None):
            source = self._source(told, basis)
            if source is None:
                return {}
        elif least_n is None and told and not self._cells["minimum_pull_n"]:
            self._fault(
                "minimum_pull_source",
                "a source of a least pull that is not given",
                "a least pull with it, or nothing here",
            )
        asked = Numbers(
            levels=1,
            press_min_per_end=Decimal(1),
            minimum_pull_n=least_n,
            minimum_pull_source=source or (None if least_n is None else _UNKNOWN),
            pull_rules=rules,
            solid_wire_waiver=waiver,
        )
        try:
            require_rules_kept(self._cable, asked)
        except ShopRuleBroken as error:
            self.faults.append(
                Fault(
                    file=_FORM,
                    row=None,
                    field=REFUSED_AT[error.code],
                    value=None,
                    problem=error.sentence.removesuffix("."),
                    accepted="another rule set, or the shop's own"
                    if error.code == "pull_rules_silent"
                    else f"{show_plain(error.data['asked_n'], 'N')} or more",
                )
            )
            return {}
        if least_n is not None and source is None:
            minimum = rules_minimum(self._cable, asked)
            assert isinstance(minimum, PullMinimum)  # no rule set without one came this far
            source = minimum.source
        return {"pull_rules": rules, "minimum_pull_source": source}

    def _source(self, told: str, basis: Basis | None) -> Source | None:
        if not told:
            self._fault(
                "minimum_pull_source",
                "a least pull without saying where it comes from",
                "who asks for it, or what was measured",
            )
        if basis is None and not self._cells["minimum_pull_basis"]:
            self._fault("minimum_pull_basis", "nothing is chosen", "one of the list")
        return Source(text=told, basis=basis) if told and basis else None

    def _choice(self, key: str, kind: Any) -> Any:
        typed = self._cells[key]
        if not typed:
            return None
        if typed not in list(kind):
            self._fault(key, f"“{typed}” is not in the list", ", ".join(kind))
            return None
        return kind(typed)


_UNKNOWN = Source(text="the rule set's own", basis=Basis.STANDARD)


def _accepted(key: str, field: Field) -> str:
    if key == "levels":
        return f"a whole number, 1 to {_MOST_LEVELS}"
    least = "0" if field.zero else "above 0"
    step = f"{Decimal(1).scaleb(-field.decimals)}"
    return f"{least} to {_MOST}\u202f{field.unit}, to {step}, such as 4.25 or 4,25"
