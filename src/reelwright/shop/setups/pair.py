"""One cable with one connector, from the records: what is computed, and where its set-up stands."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from reelwright.core.ends.fit.grid import Cell, CellState, judge_cell
from reelwright.core.ends.order.assembly import LEVELLED
from reelwright.core.ends.strip.plan import MACHINE_STRIP_TOLERANCES, StripPlan, plan_strip
from reelwright.core.errors import UnknownCode
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.words import sentence
from reelwright.core.verdicts import Reason
from reelwright.shop.catalogue.selectors import cables, connectors
from reelwright.shop.setups.selectors import standing_set_ups
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.to_core import pair_set_ups
from reelwright.shop.tools.gauging import cavity_values


@dataclass(frozen=True, kw_only=True)
class PairNow:
    """One pair; ``sheet`` is the revision that counts: released, else the newest."""

    cable: Cable
    connector: Connector
    cell: Cell
    sheet: SetUpSheet | None

    @property
    def possible(self) -> bool:
        """Whether nothing computed speaks against it."""
        return self.cell.state in (CellState.RELEASED, CellState.TO_DEVELOP)

    @property
    def headline(self) -> str:
        """The answer in one line, without its full stop."""
        if self.cell.state is CellState.IMPOSSIBLE:
            return f"Impossible: {self._first}"
        if self.cell.state is CellState.NOT_KNOWN:
            return f"Not known: {self._first}"
        if self.cell.state is CellState.RELEASED and self.sheet is not None:
            return f"Possible, and {self.sheet.name} is released"
        if self.cell.reasons:
            return f"Possible, but not as released: {self._first}"
        if self.sheet is not None:
            return f"Possible; {self.sheet.name} is {self.sheet.state}"
        return "Possible; its set-up is still to be developed"

    @property
    def _first(self) -> str:
        """The first reason, its tolerance left to the list under it."""
        return self.cell.reasons[0].sentence.split(" (tolerance")[0]

    @property
    def reasons(self) -> tuple[str, ...]:
        """What speaks against it, as sentences."""
        return tuple(sentence(reason.sentence) for reason in self.cell.reasons)

    @property
    def cautions(self) -> tuple[str, ...]:
        """What lets it pass and still wants to be read, as sentences."""
        return tuple(sentence(check.sentence) for check in self.cell.cautions)

    @property
    def proposed_strip(self) -> StripPlan | Reason:
        """The strip that the connector's drawing asks for, or why none can be planned."""
        if self.connector.method not in LEVELLED:
            return Reason(
                code="strip_by_hand",
                sentence=f"an end that is {self.connector.method} is not stripped in levels",
            )
        if self.connector.drawing is None:
            return Reason(code="no_drawing", sentence="its drawing is not in the records")
        return plan_strip(
            self.connector.drawing,
            tolerances=MACHINE_STRIP_TOLERANCES,
            method=self.connector.method,
        )


def pair_now(cable_code: str, connector_code: str) -> PairNow:
    """Return one pair as it is now. Raises UnknownCode with the codes there are."""
    cable = _found("cable", cable_code, cables())
    connector = _found("connector", connector_code, connectors())
    pair = (cable_code, connector_code)
    sheet = standing_set_ups().get(pair)
    set_up = pair_set_ups([sheet] if sheet else []).get(pair)
    return PairNow(
        cable=cable,
        connector=connector,
        cell=judge_cell(cable, connector, set_up=set_up, cavities=cavity_values()),
        sheet=sheet,
    )


def _found(kind: str, code: str, there: Mapping[str, Any]) -> Any:
    if code not in there:
        raise UnknownCode(kind=kind, code=code, near=there)
    return there[code]


def strip_words(strip: StripPlan) -> str:
    """Return a strip in one line: "a 4.25, b 5.00, c 7.70 mm; cut at 4.25, 9.25, 16.95 mm"."""
    lengths = (("a", strip.conductor_mm), ("b", strip.dielectric_mm), ("c", strip.braid_mm))
    told = ", ".join(f"{letter} {length_mm:.2f}" for letter, length_mm in lengths)
    cuts = ", ".join(f"{cut_mm:.2f}" for cut_mm in dict.fromkeys(strip.cuts_mm))
    return f"{told}\u202fmm; cut at {cuts}\u202fmm from the end"
