"""What a new search begins with: the cells of its form, filled in from what the shop knows.

Ranges, steps and drifts are common practice, no published source; every cell may be changed. The
energy of a weld comes from the shop's own gauges, least pulls and crimp heights from the set-up.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from reelwright.core.parts.cable import Cable
from reelwright.core.quantities.show import show_in, show_number
from reelwright.core.quantities.show_scaled import show_area_m2
from reelwright.core.quantities.words import listed, sentence
from reelwright.core.trials.weld_energy import CONFIDENCE, KnownGauge, guess_energy
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.trials.states import Process

_DEMAND = {
    "demand-coverage": "95",
    "demand-confidence": "90",
    "demand-unsafe_chance": "10",
    "demand-expected_good_fraction": "90",
    "demand-clear_drifts_ratio": "2",
    "most_trials": "20",
}


@dataclass(frozen=True, kw_only=True)
class Beginning:
    """The cells of the form by name, and ``notes``: where each guess comes from."""

    cells: dict[str, str]
    notes: tuple[str, ...]


def begin_with(
    process: Process,
    cable: Cable,
    sheet: SetUpSheet | None,
    gauges: Sequence[KnownGauge],
) -> Beginning:
    """Return what a search of ``process`` on ``cable`` begins with.

    ``sheet`` is the set-up of the pair, if there is one.
    """
    cells = {**_DEMAND, "name": f"{process.value.capitalize()} of {cable.code}"}
    notes: list[str] = []
    if process is Process.OTHER:
        cells["name"] = f"Search on {cable.code}"
        return Beginning(cells=cells, notes=())
    pull_n = None if sheet is None else sheet.numbers.minimum_pull_n
    if process in (Process.WELD, Process.CRIMP):
        cells |= {"response-1-name": "pull", "response-1-unit": "N"}
        cells["response-1-guess-kind"] = "level"
        if pull_n is not None and sheet is not None:
            cells["response-1-lower_limit"] = f"{pull_n:g}"
            notes.append(f"The least pull is that of {sheet.name}.")
        else:
            notes.append("No set-up of this pair states a least pull yet: say it here.")
    if process is Process.WELD:
        notes.append(_weld(cells, cable, gauges))
    elif process is Process.CRIMP:
        notes.append(_crimp(cells, sheet))
    elif process is Process.STRIP:
        notes.append(_strip(cells, cable))
    return Beginning(cells=cells, notes=tuple(notes))


def _setting(place: int, *cells: str) -> dict[str, str]:
    keys = ("name", "unit", "low", "high", "step", "drift")
    return {f"setting-{place}-{key}": cell for key, cell in zip(keys, cells, strict=True)}


def _weld(cells: dict[str, str], cable: Cable, gauges: Sequence[KnownGauge]) -> str:
    cells["question"] = f"Which energy and pressure weld {cable.code} safely?"
    cells |= _setting(1, "energy", "J", "", "", "5", "4")
    cells |= _setting(2, "pressure", "bar", "1.5", "4.0", "0.1", "0.05")
    cells |= {"looks-1-name": "not burnt", "looks-1-least_share": "0.8"}
    area_m2 = cable.sheet.conductor_area_m2
    if area_m2 is None:
        return "The area of the conductor is not stated, so its energy cannot be guessed."
    guess = guess_energy(gauges, area_m2=area_m2, confidence=CONFIDENCE)
    energy_j = guess.energy_j
    if energy_j is None:
        return f"{sentence(guess.sentence)} Say the range here."
    step = 5 if energy_j >= 100 else 1
    cells |= _setting(
        1,
        "energy",
        "J",
        f"{step * round(0.6 * energy_j / step):g}",
        f"{step * round(1.4 * energy_j / step):g}",
        f"{step:g}",
        show_number(0.013 * energy_j, decimals=1),
    )
    cells |= {
        "response-1-guess-kind": "peak",
        "response-1-guess-setting": "energy",
        "response-1-guess-best_at": show_number(energy_j, decimals=1),
        "response-1-guess-ratio_factor": "1.5",
    }
    known = listed(show_area_m2(one.area_m2) for one in gauges)
    return f"{sentence(guess.sentence)} By the law through {known}."


def _crimp(cells: dict[str, str], sheet: SetUpSheet | None) -> str:
    cells["question"] = "At which crimp height does the contact hold best?"
    cells |= _setting(1, "crimp height", "mm", "", "", "0.01", "0.008")
    height = None if sheet is None else sheet.numbers.crimp_height_mm
    if height is None or sheet is None:
        return "No set-up of this pair states a crimp height yet: say the range here."
    middle = float(height)
    cells |= _setting(
        1, "crimp height", "mm", f"{middle - 0.15:.2f}", f"{middle + 0.15:.2f}", "0.01", "0.008"
    )
    cells |= {
        "response-1-guess-kind": "peak",
        "response-1-guess-setting": "crimp height",
        "response-1-guess-best_at": f"{middle:.2f}",
        "response-1-guess-ratio_factor": "1.08",
    }
    height_told = show_in(middle, "mm", decimals=2)
    return f"First guess of the height: {height_told}, as {sheet.name} has it."


def _strip(cells: dict[str, str], cable: Cable) -> str:
    cells["question"] = "How deep may the blade go: the jacket off, nothing under it nicked?"
    cells |= {
        "looks-1-name": "jacket comes off",
        "looks-1-least_share": "0.8",
        "looks-2-name": "nothing nicked",
        "looks-2-least_share": "0.8",
    }
    inner = [layer.outside_diameter_m for layer in cable.layers[:-1]]
    wall_mm = (cable.jacket.outside_diameter_m - max(inner)) / 2 * 1e3 if inner else 0.0
    if wall_mm <= 0.1 or cable.conductors > 1:
        cells |= _setting(1, "blade depth", "mm", "", "", "0.02", "0.02")
        return "The wall of the jacket does not follow from the layers: say the range here."
    cells |= _setting(
        1, "blade depth", "mm", f"{0.5 * wall_mm:.2f}", f"{1.1 * wall_mm:.2f}", "0.02", "0.02"
    )
    return f"The jacket's wall is {show_in(wall_mm, 'mm', decimals=2)} by its data sheet."
