"""Safety cautions of the ways an end is made.

They remind, and name the public rules they remind of; they never replace the machine's own
instructions or the local rules, and say so.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from reelwright.core.ends.care import exposure
from reelwright.core.parts.connector import Method
from reelwright.core.quantities.guard import require_given
from reelwright.core.verdicts import Basis

DEFER = "The machine's own instructions and local rules come first."

_SENTENCES = {
    "press": "Both hands or the guard on the press; never a foot pedal near fingers.",
    "die_change": "Lock the press out and dump its air before a die is changed.",
    "blades": "Blades cut and leave burrs: eyes protected, glove at the jacket, off-cuts swept up.",
    "ultrasonic": "Fingers away from the horn while it swings; wear hearing protection.",
    "weld_fume": "Draw the fume of the weld off: hot copper and its coating get into the air.",
    "solder": "Draw the fume off, keep leaded and lead-free apart, wash hands after.",
    "hand_tool": "Rotate with someone: pressing home by hand loads the wrist.",
    "fibre": "Never look into a fibre that may be lit; off-cuts of fibre go into the closed bin.",
    "fluoropolymer": "Fluoropolymer: no flame and no hot blade near it, its fumes are harmful.",
    "hazardous_live": "This loudspeaker line is hazardous live: no bare part within reach.",
    "test_voltage": "Test voltage: closed box, discharge before it opens, no end in the hand.",
}

_NOISE = f"{exposure.NOISE_CRITERION_DB:g}\u202fdBA over {exposure.NOISE_DAY_H:g}\u202fh"
_COPPER = f"copper fume {exposure.COPPER_FUME_KG_PER_M3 * 1e6:g}\u202fmg/m³"
_LEAD = f"lead {exposure.LEAD_KG_PER_M3 * 1e6:g}\u202fmg/m³"

_RULES = {
    "press": (
        "guards, power presses, two-hand controls: ISO 12100, ISO 13851, 29 CFR 1910.212 and "
        "1910.217"
    ),
    "die_change": "no unexpected start: ISO 14118, 29 CFR 1910.147",
    "blades": "guards, eyes and gloves: ISO 16321-1, EN 388, 29 CFR 1910.212, 1910.133, 1910.138",
    "ultrasonic": (
        f"noise at work: Directive 2003/10/EC, 29 CFR 1910.95 ({_NOISE}); airborne ultrasound: "
        f"ACGIH ({exposure.ULTRASOUND_CEILING_DB:g}\u202fdB at 20\u202fkHz)"
    ),
    "weld_fume": f"fume: Directive 98/24/EC, 29 CFR 1910.1000 table Z-1 ({_COPPER})",
    "solder": f"fume and lead: Directive 98/24/EC, 29 CFR 1910.1000 and 1910.1025 ({_LEAD})",
    "hand_tool": "small loads often repeated: ISO 11228-3, ACGIH value for hand activity",
    "fibre": "optical fibre systems: IEC 60825-2",
    "fluoropolymer": "fume: Directive 98/24/EC, 29 CFR 1910.1000 table Z-1 (hydrogen fluoride)",
    "hazardous_live": "live parts: IEC 62368-1, IEC 60364-4-41",
    "test_voltage": "electrical test equipment: EN 50191, IEC 61010-1",
}
"""Public rules that each caution reminds of, by number and from memory: look them up as they stand
where the work is done. No caution is left out because of a figure in them."""

RULES_BASIS = Basis.FROM_MEMORY

_OF_METHOD: dict[Method, tuple[str, ...]] = {
    Method.CRIMP_CRIMP: ("blades", "press", "die_change"),
    Method.COMPRESSION: ("blades", "hand_tool"),
    Method.SOLDER: ("blades", "solder"),
    Method.WELD: ("blades", "ultrasonic", "weld_fume"),
    Method.SCREW: ("blades", "hand_tool"),
    Method.DISPLACEMENT: ("blades", "hand_tool"),
    Method.POLISH: ("blades", "fibre"),
}

HAZARDOUS_LIVE_V = 60.0
"""Volts above which a line counts as hazardous here: the 60 V DC of IEC 62368-1 (from memory); it
lies under both usual loudspeaker line voltages. Local rules decide."""


@dataclass(frozen=True, kw_only=True)
class Job:
    """What a batch brings together: its methods, and what else is dangerous about it.

    ``line_v`` is the working voltage of the finished cable, ``test_v`` the voltage it is tested at;
    ``None``: none worth naming.
    """

    methods: tuple[Method, ...]
    fluoropolymer: bool
    line_v: float | None
    test_v: float | None

    def __post_init__(self) -> None:
        require_given(self, "line_v", "test_v")


@dataclass(frozen=True, kw_only=True)
class Caution:
    """One caution: a code for programs, a sentence for people, the public rules it reminds of.

    ``rules`` is empty where no public rule is named.
    """

    code: str
    sentence: str
    rules: str


def cautions(job: Job) -> tuple[Caution, ...]:
    """Return the cautions of a batch, each once, ending with whose rules come first."""
    codes = list(_codes(job.methods))
    if job.fluoropolymer:
        codes.append("fluoropolymer")
    if job.line_v is not None and job.line_v > HAZARDOUS_LIVE_V:
        codes.append("hazardous_live")
    if job.test_v is not None:
        codes.append("test_voltage")
    told = [
        Caution(code=code, sentence=_SENTENCES[code], rules=_RULES[code])
        for code in dict.fromkeys(codes)
    ]
    return (*told, Caution(code="local_rules", sentence=DEFER, rules=""))


def _codes(methods: Iterable[Method]) -> Iterable[str]:
    for method in methods:
        yield from _OF_METHOD[method]
