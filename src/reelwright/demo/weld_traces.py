"""Power traces of T-15's welds: six good ones and one of a tinned wire, all invented.

The power rises steeply while the strands settle, then slowly while they join, and ends when the
energy is in; a tinned wire slips and takes its power later and lower.
"""

import datetime as dt
import random

from reelwright.demo.calendar import SEED
from reelwright.demo.opening import NAMES
from reelwright.shop.people.selectors import person
from reelwright.shop.setups.selectors import chosen_sheet
from reelwright.shop.setups.welds.services import weld_trace_record

SET_UP = "T-15"
_ENERGY_J, _PEAK_W, _KNEE_S, _STEP_S = 149.0, 560.0, 0.07, 0.005
_WIDTH_M, _BEFORE_MM, _AFTER_MM = 2.0e-3, 1.95, 1.30
_TINNED = "the wire was tinned"


def trace_file(number: int, *, tinned: bool) -> bytes:
    """Return the file of one weld; the same number always gives the same."""
    dice = random.Random(f"{SEED} trace {number}")
    knee_s = dice.gauss(_KNEE_S, 0.002) * (1.9 if tinned else 1.0)
    peak_w = dice.gauss(_PEAK_W, 9.0) * (0.72 if tinned else 1.0)
    after_mm = dice.gauss(_AFTER_MM, 0.012) + (0.22 if tinned else 0.0)
    lines = ["time_s,power_w,height_mm"]
    time_s = energy_j = power_w = 0.0
    while energy_j < _ENERGY_J:
        settled = min(1.0, time_s / knee_s)
        rise = 0.72 * settled + 0.28 * min(1.0, max(0.0, time_s - knee_s) / 0.22)
        now_w = max(0.0, peak_w * rise + dice.gauss(0.0, 4.0))
        energy_j += (power_w + now_w) / 2 * _STEP_S
        power_w = now_w
        height_mm = _BEFORE_MM - (_BEFORE_MM - after_mm) * min(1.0, energy_j / _ENERGY_J)
        lines.append(f"{time_s:.3f},{power_w:.1f},{height_mm:.3f}")
        time_s += _STEP_S
    lines.append(f"{time_s:.3f},0,{after_mm:.3f}")
    return "\n".join(lines).encode()


def write_traces(day: dt.date) -> None:
    """Read in six good welds, and then the one that a bench person doubted."""
    _, sheet = chosen_sheet(SET_UP)
    for number in range(1, 8):
        tinned = number == 7
        weld_trace_record(
            by=person(NAMES.other),
            revision_id=sheet.revision_id,
            name=f"weld-{number}.csv",
            content=trace_file(number, tinned=tinned),
            joint_width_m=_WIDTH_M,
            good=not tinned,
            reason=_TINNED if tinned else "",
            on=day,
        )
