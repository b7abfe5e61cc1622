"""Words for triggers and small direct-current supplies."""

import re

from reelwright.core.signals.read_video import decimal
from reelwright.core.signals.reading import SignalReading, asking, reading
from reelwright.core.signals.trigger_dc import DirectSupply

WORDS = r"^(?!.*\b(phantom|mic))(?=.*(\btriggers?\b|\bsupply\b|\d\s*v\s*dc\b|\bdc\b|\bmains\b))"
"""What names a trigger or a supply; a microphone's supply is its own matter."""

_MAINS = re.compile(r"\bmains\b|\bac\b|\b\d+\s*vac\b|\b(110|115|120|208|220|230|240|400)\s*v")
_VOLTS = re.compile(r"(\d+(?:[.,]\d+)?)\s*v(?:olts?)?(?:\s*dc)?\b(?!\s*(?:fall|drop|less))")
_AMPERES = re.compile(r"(\d+(?:[.,]\d+)?)\s*(m?)a(?:mp(?:ere)?s?)?\b")
_WATTS = re.compile(r"(\d+(?:[.,]\d+)?)\s*w(?:atts?)?\b")
_FALL_PERCENT = re.compile(r"(\d+(?:[.,]\d+)?)\s*%")
_FALL_VOLTS = re.compile(r"(\d+(?:[.,]\d+)?)\s*v(?:olts?)?\s*(?:fall|drop|less)")
_USUAL_FALL = 0.10


def read_supply(typed: str, text: str) -> SignalReading:
    """Return a trigger or a supply; ask for volts, load and the fall allowed where not stated.

    A trigger's fall is taken as 10 % where none is stated, which stands beside the answer. Mains
    is not read at all.
    """
    if _MAINS.search(text):
        return asking(
            typed,
            "Not computed: we make nothing for the mains; that belongs to local code and licensed "
            "people. Is there a supply of low voltage (up to 60 volts) that the cable could carry "
            "instead?",
        )
    trigger = re.search(r"\btriggers?\b", text) is not None
    volts, amperes, watts = _VOLTS.search(text), _AMPERES.search(text), _WATTS.search(text)
    source_v = 0.0 if volts is None else decimal(volts[1])
    current_a = None
    if amperes is not None:
        current_a = decimal(amperes[1]) * (1e-3 if amperes[2] else 1.0)
    power_w = decimal(watts[1]) if watts is not None and amperes is None else None
    fall = _fall(text, source_v)
    assumed: tuple[str, ...] = ()
    if fall is None and trigger:
        fall = _USUAL_FALL
        assumed = ("a fall of 10\u202f% allowed to the trigger's volts, as none was stated",)
    if not (source_v and (current_a or power_w) and fall is not None and 0.001 <= fall <= 0.499):
        what = "trigger" if trigger else "supply"
        return asking(
            typed,
            f"For the {what} please tell us the volts, the amperes or watts the far end takes, "
            f"and the fall of volts that is allowed (as in: {what} 12 V, 100 mA, 10 % fall).",
        )
    return reading(
        typed,
        DirectSupply(
            source_v=source_v,
            current_a=current_a or None,
            power_w=power_w or None,
            fall_fraction=fall,
            trigger=trigger,
        ),
        *assumed,
    )


def _fall(text: str, source_v: float) -> float | None:
    """The fall allowed [1] of the volts; None where none is named."""
    percent, volts = _FALL_PERCENT.search(text), _FALL_VOLTS.search(text)
    if percent is not None:
        return decimal(percent[1]) / 100
    if volts is not None and source_v > 0:
        return decimal(volts[1]) / source_v
    return None
