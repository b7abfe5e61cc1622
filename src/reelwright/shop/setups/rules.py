"""What a revision still lacks for its next state: pure rules, tested without a database."""

from collections.abc import Sequence
from decimal import Decimal

from reelwright.core.ends.strength.failure import FailureMode
from reelwright.core.ends.strength.proof import PullProof, PullReading, prove_by_pulls
from reelwright.core.ends.strength.pulls import PullMinimum
from reelwright.core.parts.connector import Method
from reelwright.core.quantities.show import show_length_mm, with_unit
from reelwright.core.quantities.words import sentence
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source
from reelwright.shop.setups.sheet import Numbers, told_mm
from reelwright.shop.setups.states import NEXT, State

PULLS_TO_PROVE = 10
"""Finished ends to pull before a set-up counts as proven: 10 to 30, common practice."""

COVERAGE, CONFIDENCE = 0.99, 0.95
"""What the pulls must claim: 99 % of all ends hold the minimum, with 95 % confidence."""

HEIGHTS_TO_PROVE = 5
"""Heights of pin crimps to measure where one is laid down with its tolerance: common practice."""

_SET_UP = Source(text="the least pull of the set-up", basis=Basis.COMPUTED)
_WORDS = {
    "strip_conductor_mm": "the length of bare conductor (a)",
    "strip_conductor_tolerance_mm": "the tolerance of a",
    "strip_dielectric_mm": "the length of dielectric (b)",
    "strip_dielectric_tolerance_mm": "the tolerance of b",
    "strip_braid_mm": "the length of braid (c)",
    "strip_braid_tolerance_mm": "the tolerance of c",
    "cores_bared_mm": "how much of each core is bared",
    "cores_bared_tolerance_mm": "the tolerance of the bared cores",
    "pin_die_mm": "the pin die",
    "ferrule_die_mm": "the ferrule die",
    "crimp_height_mm": "the crimp height to expect",
    "program": "the program of the stripper",
    "blade_set": "the blade set",
    "weld_horn": "the horn of the welder",
    "weld_energy_j": "the energy of the weld",
    "weld_pressure_kpa": "the pressure of the weld",
    "weld_amplitude_um": "the amplitude of the weld",
    "test_adapter": "the test adapter",
    "minimum_pull_n": "the least pull an end must hold, with its source",
    "steps": "the steps of the assembly",
}

_COAX_STRIP = (
    "strip_conductor_mm",
    "strip_conductor_tolerance_mm",
    "strip_dielectric_mm",
    "strip_dielectric_tolerance_mm",
    "strip_braid_mm",
    "strip_braid_tolerance_mm",
)
_WIRE_STRIP = ("cores_bared_mm", "cores_bared_tolerance_mm")
_ALWAYS = ("test_adapter", "minimum_pull_n", "steps")

_NEEDED: dict[Method, tuple[str, ...]] = {
    Method.CRIMP_CRIMP: (
        *_COAX_STRIP,
        "pin_die_mm",
        "ferrule_die_mm",
        "crimp_height_mm",
        "program",
        "blade_set",
        *_ALWAYS,
    ),
    Method.COMPRESSION: (*_COAX_STRIP, "program", "blade_set", *_ALWAYS),
    Method.SOLDER: (*_WIRE_STRIP, *_ALWAYS),
    Method.WELD: (
        *_WIRE_STRIP,
        "weld_horn",
        "weld_energy_j",
        "weld_pressure_kpa",
        "weld_amplitude_um",
        *_ALWAYS,
    ),
    Method.SCREW: (*_WIRE_STRIP, *_ALWAYS),
    Method.DISPLACEMENT: (*_WIRE_STRIP, *_ALWAYS),
    Method.POLISH: (*_WIRE_STRIP, *_ALWAYS),
}


def needed_fields(method: Method) -> tuple[str, ...]:
    """Return the fields of ``Numbers`` that an end of this method needs before its trial."""
    return _NEEDED[method]


def missing_for_trial(method: Method, numbers: Numbers) -> tuple[Reason, ...]:
    """Return every number that an end of this method needs and the revision does not give."""
    return tuple(
        Reason(code=f"missing_{field}", sentence=f"Missing: {_WORDS[field]}.")
        for field in needed_fields(method)
        if getattr(numbers, field) in (None, "", ())
        # An order laid down tells its operations itself.
        and not (field == "steps" and numbers.order)
    )


def missing_for_proof(
    minimum_pull_n: float | None,
    pulls_n: Sequence[float],
    modes: Sequence[FailureMode] | None = None,
    tester_uncertainty_n: float | None = None,
) -> tuple[Reason, ...]:
    """Return what the pulls (in N) do not yet prove.

    At least ``PULLS_TO_PROVE`` of them, and their lower tolerance limit (normal, one-sided,
    99 % of ends with 95 % confidence) at or above the minimum, for all of them and for each way of
    giving way that has enough. ``modes`` are those ways in the order of the pulls; without them all
    count as one. Pulls that were stopped count by their number alone. Twice the tester's standard
    uncertainty (in N) is kept clear of the minimum where it is known.
    """
    if minimum_pull_n is None:
        return (Reason(code="missing_minimum_pull_n", sentence="Missing: the least pull to hold."),)
    lacking = PULLS_TO_PROVE - len(pulls_n)
    if lacking > 0:
        return (
            Reason(
                code="too_few_pulls",
                sentence=f"{len(pulls_n)} pulls of {PULLS_TO_PROVE}: {lacking} more are needed.",
            ),
        )
    proof = prove_pulls(
        pulls_n,
        modes,
        PullMinimum(minimum_n=minimum_pull_n, source=_SET_UP),
        tester_uncertainty_n=tester_uncertainty_n,
    )
    return tuple(
        Reason(code="pull_not_proven", sentence=_told(check, proof))
        for check in proof.verdict.checks
        if check.outcome in (Outcome.BAD, Outcome.NOT_COMPUTED)
    )


def prove_pulls(
    pulls_n: Sequence[float],
    modes: Sequence[FailureMode] | None,
    minimum: PullMinimum,
    *,
    tester_uncertainty_n: float | None,
) -> PullProof:
    """Return what pulls (in N) prove of 99 % of ends with 95 % confidence; see above."""
    ways = modes if modes is not None else [FailureMode.CONDUCTOR_BROKE] * len(pulls_n)
    return prove_by_pulls(
        [
            PullReading(force_n=force_n, mode=mode)
            for force_n, mode in zip(pulls_n, ways, strict=True)
        ],
        minimum,
        coverage=COVERAGE,
        confidence=CONFIDENCE,
        least_count=PULLS_TO_PROVE,
        gauge_uncertainty_n=tester_uncertainty_n,
    )


def _told(check: Check, proof: PullProof) -> str:
    """The refusal in words, with how many more pulls would do where it is the one over all."""
    told = sentence(check.sentence)
    if check is not proof.overall:
        return f"{sentence(check.name)[:-1]}: {check.sentence}."
    return f"{told} {proof.more.sentence}"


def missing_heights(numbers: Numbers, heights_mm: Sequence[float]) -> tuple[Reason, ...]:
    """Return what the heights of pin crimps (in mm) do not yet show of the height laid down.

    At least ``HEIGHTS_TO_PROVE`` of them and none outside its tolerance; nothing is asked where no
    height or no tolerance is laid down.
    """
    target, tolerance = numbers.crimp_height_mm, numbers.crimp_height_tolerance_mm
    if target is None or tolerance is None:
        return ()
    laid_down = with_unit(f"{told_mm(target)} ± {told_mm(tolerance)}", "mm")
    outside = [
        height_mm for height_mm in heights_mm if not _is_inside(height_mm, target, tolerance)
    ]
    if outside:
        worst_mm = max(outside, key=lambda height_mm: abs(height_mm - float(target)))
        told = f"1 of {len(heights_mm)} crimp heights lies"
        if len(outside) > 1:
            told = f"{len(outside)} of {len(heights_mm)} crimp heights lie"
        return (
            Reason(
                code="height_outside",
                sentence=f"{told} outside {laid_down}, the farthest at "
                f"{show_length_mm(worst_mm, decimals=3)}.",
            ),
        )
    lacking = HEIGHTS_TO_PROVE - len(heights_mm)
    if lacking > 0:
        return (
            Reason(
                code="too_few_heights",
                sentence=f"{len(heights_mm)} crimp heights of {HEIGHTS_TO_PROVE} within "
                f"{laid_down}: {lacking} more {'is' if lacking == 1 else 'are'} needed.",
            ),
        )
    return ()


def _is_inside(height_mm: float, target: Decimal, tolerance: Decimal) -> bool:
    # To the micrometre, as heights are kept: 1.59 lies within 1.62 ± 0.03.
    return abs(Decimal(repr(height_mm)).quantize(Decimal("0.001")) - target) <= tolerance


def missing_for_next(
    *,
    state: State,
    method: Method,
    numbers: Numbers,
    pulls_n: Sequence[float],
    modes: Sequence[FailureMode] | None = None,
    heights_mm: Sequence[float] = (),
    tester_uncertainty_n: float | None = None,
) -> tuple[Reason, ...]:
    """Return what stands between a revision and its next state; empty: nothing, or no next one.

    Release asks for nothing more than a proven revision and a person who may approve it.
    """
    match NEXT[state]:
        case State.ON_TRIAL:
            return missing_for_trial(method, numbers)
        case State.PROVEN:
            pulls = missing_for_proof(numbers.minimum_pull_n, pulls_n, modes, tester_uncertainty_n)
            return (*pulls, *missing_heights(numbers, heights_mm))
        case _:
            return ()
