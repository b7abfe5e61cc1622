"""Fields of the forms of dies and presses, with what was typed and what is wrong with it."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from reelwright.core.ends.care.cautions import Caution, Job, cautions
from reelwright.core.ends.dies.press import KEEP_OUT, ForceKnown
from reelwright.core.errors import InputFaults, ShopRuleBroken, UnknownCode
from reelwright.core.parts.connector import Method
from reelwright.web.widgets.errors import faults_by_field

Choices = tuple[tuple[str, str], ...]

_OF_PRESSES = ("press", "die_change", "local_rules")


@dataclass(frozen=True, kw_only=True)
class ToolCell:
    """One field: ``key`` is the name it is sent under, ``id`` its own on the page."""

    id: str
    key: str
    label: str
    hint: str = ""
    value: str = ""
    fault: str = ""
    choices: Choices = ()
    wide: bool = False
    mode: str = ""


def filled(
    form: str, cells: Iterable[ToolCell], typed: Mapping[str, str], faults: Mapping[str, str]
) -> tuple[ToolCell, ...]:
    """Return the fields with what was typed and their faults; ``form`` tells their ids apart."""
    return tuple(
        replace(
            cell,
            id=f"{form}-{cell.key}",
            value=typed.get(cell.key, cell.value),
            fault=faults.get(cell.key, ""),
        )
        for cell in cells
    )


def press_cells() -> tuple[ToolCell, ...]:
    """Return the fields of what is known of a press's force."""
    return (
        ToolCell(
            id="",
            key="known",
            label="Its force is",
            choices=tuple((each.value, each.value) for each in ForceKnown),
            wide=True,
        ),
        ToolCell(
            id="",
            key="force",
            label="Force at the die",
            hint="Where stated or measured: 29 kN.",
        ),
        ToolCell(id="", key="bore", label="Bore of its cylinder", hint="Where computed: 100 mm."),
        ToolCell(
            id="", key="pressure", label="Pressure over the atmosphere", hint="6 bar or 600 kPa."
        ),
        ToolCell(
            id="",
            key="ratio",
            label="Ratio of toggle or intensifier",
            hint="1 where it has none.",
            mode="decimal",
        ),
        ToolCell(
            id="",
            key="efficiency",
            label="Efficiency, %",
            hint="What friction leaves of the force: at most 100.",
            mode="decimal",
        ),
    )


def press_cautions() -> tuple[Caution, ...]:
    """Return what to mind at every press, and whose rules come first."""
    told = cautions(
        Job(methods=(Method.CRIMP_CRIMP,), fluoropolymer=False, line_v=None, test_v=None)
    )
    keep_out = Caution(code="keep_out", sentence=KEEP_OUT, rules="")
    return (keep_out, *(each for each in told if each.code in _OF_PRESSES))


def refusals(do: Callable[[], None], refused_at: Mapping[str, str]) -> dict[str, str]:
    """Do it and return nothing, or the fields that refuse it with what is wrong.

    ``refused_at``: at which field a refusal of the service is told; any other is a page of its own.
    """
    try:
        do()
    except InputFaults as error:
        return {field: f"{told}." for field, told in faults_by_field(error.faults).items()}
    except ShopRuleBroken as error:
        if error.code not in refused_at:
            raise
        return {refused_at[error.code]: error.sentence}
    except UnknownCode as error:
        if error.kind not in refused_at:
            raise
        return {refused_at[error.kind]: f"There is no {error.kind} {error.code}."}
    return {}
