"""What changes when the cables of a line belong together: lots, delays, a loom, a repeat."""

import math
from decimal import Decimal

from reelwright.core.parts.bundle import bundle_diameter_m
from reelwright.core.parts.cable import Cable, Family, Lot
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.signals.matched_set import Leg, match_set
from reelwright.core.signals.rgbhv import RgbhvVideo
from reelwright.core.signals.signal import Signal
from reelwright.core.statistics.yields import starts_needed
from reelwright.core.verdicts import Reason
from reelwright.shop.day.judging.findings import Findings
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.day.words import MINUS, SPACE, both_units, counted, metres
from reelwright.shop.orders.columns import ReadLine
from reelwright.shop.orders.set_wish import SetKind

# Common practice, no published source: pieces started above the quantity from ten cables on, so
# that the quantity is reached with this confidence; below that a failed one is made again.
SPARES_FROM_QUANTITY = 10
SPARES_CONFIDENCE = 0.95
# Legs of a loom lie in a twist: 1 to 2 % longer than the trunk (common practice).
LOOM_TWIST = 1.02
# One more reel to mount for each colour of a set, in minutes (common practice).
MINUTES_PER_COLOUR = Decimal(1)
# What a wheel-measured cut keeps (common practice).
_CUT_SPREAD_M = 0.003
_STEP_MM = 5
_SLEEVE_M = 0.8e-3


def spares_wanted(quantity: int, first_pass_yield: Decimal) -> int:
    """Return how many pieces to start beyond the quantity."""
    if quantity < SPARES_FROM_QUANTITY:
        return 0
    started = starts_needed(
        good=quantity, yield_fraction=float(first_pass_yield), confidence=SPARES_CONFIDENCE
    )
    return started - quantity


def extra_setup_minutes(line: ReadLine) -> Decimal:
    """Return the minutes that a set of several colours adds: one reel more to mount for each."""
    if line.wish.kind is not SetKind.MATCHED:
        return Decimal(0)
    return MINUTES_PER_COLOUR * len(set(line.colours))


def length_factor(line: ReadLine, cable: Cable) -> float:
    """Return how much longer a leg is cut than its trunk."""
    loom = line.wish.kind is SetKind.LOOM and cable.family is Family.PAIR
    return LOOM_TWIST if loom else 1.0


def lot_group_size(line: ReadLine) -> int | None:
    """Return how many cables want one lot together, or None where lots do not matter."""
    match line.wish.kind:
        case SetKind.SAME_LOT:
            return line.quantity
        case SetKind.GROUPS:
            return line.wish.group_size
        case _:
            return None


def judge_set(
    line: ReadLine, cable: Cable, signal: Signal | None, shelf: Shelf, findings: Findings
) -> None:
    """Add what the wish for a set brings: questions, checks, notes."""
    match line.wish.kind:
        case SetKind.MATCHED:
            _judge_matched(line, cable, signal, shelf, findings)
        case SetKind.REPEAT:
            _judge_repeat(line, cable, shelf, findings)
        case SetKind.LOOM:
            _note_loom(line, cable, findings)
        case _:
            pass


def _judge_matched(
    line: ReadLine, cable: Cable, signal: Signal | None, shelf: Shelf, findings: Findings
) -> None:
    colours = tuple(dict.fromkeys(line.colours))
    if len(colours) < 2:
        findings.notes.append("One colour is one lot here: its legs match as they are cut.")
        return
    tolerance = line.tolerance
    matched = match_set(
        [
            Leg(name=COLOUR_NAMES[colour], cable=cable, lot=_lot_of(shelf, cable.code, colour))
            for colour in colours
        ],
        nominal_m=line.length_m,
        tolerance_minus_m=0.0 if tolerance is None else tolerance.minus_mm / 1000,
        tolerance_plus_m=0.0 if tolerance is None else tolerance.plus_mm / 1000,
        cut_tolerance_m=_CUT_SPREAD_M,
    )
    if isinstance(matched, Reason):
        findings.questions.append(
            f"{matched.sentence}: may the set be matched by measuring and trimming?"
        )
        return
    if isinstance(signal, RgbhvVideo):
        check = signal.judge_skew({leg.name: leg.equal_length_delay_s for leg in matched.legs})
        findings.checks.append(check)
        findings.notes.append(f"Cut to one length: {check.sentence}")
    else:
        skew_ps = matched.equal_length_skew_s * 1e12
        findings.notes.append(f"Cut to one length the legs differ by {skew_ps:.0f}{SPACE}ps.")
    told = ", ".join(f"{leg.name} {leg.length_m:.3f}{SPACE}m" for leg in matched.legs)
    findings.notes.append(
        f"Cut for one delay of {matched.target_s * 1e9:.3f}{SPACE}ns: {told}. The delay of a lot "
        f"is known to {matched.delay_uncertainty_s * 1e12:.0f}{SPACE}ps over this length; closer "
        "than that is reached by measuring and trimming only."
    )
    most_m = max(abs(leg.change_m) for leg in matched.legs)
    if any(leg.spare_m < _CUT_SPREAD_M for leg in matched.legs):
        wanted_mm = math.ceil(matched.tolerance_needed_m * 1000 / _STEP_MM) * _STEP_MM
        findings.questions.append(
            f"matched in delay, a leg lies up to {most_m * 1000:.0f}{SPACE}mm off its length, and "
            f"a cut keeps ±{_CUT_SPREAD_M * 1000:.0f}{SPACE}mm: may the tolerance be "
            f"±{wanted_mm}{SPACE}mm?"
        )


def _lot_of(shelf: Shelf, cable_code: str, colour: str) -> Lot | None:
    reels = sorted(
        shelf.reels_of(cable_code, colour), key=lambda reel: (-reel.length_mm, reel.code)
    )
    return shelf.lots.get(reels[0].lot_code) if reels else None


def _judge_repeat(line: ReadLine, cable: Cable, shelf: Shelf, findings: Findings) -> None:
    name = f"certificate {line.wish.certificate}"
    old = shelf.lots.get(line.wish.lot_code or "")
    if old is None or old.delay_s_per_m is None:
        findings.questions.append(
            f"what {name} was measured at is not on record here: can you send its values?"
        )
        return
    colour = line.colours[0] if line.colours else old.colour
    lot = _lot_of(shelf, cable.code, colour)
    new = None if lot is None else lot.delay_s_per_m
    if new is None:
        findings.questions.append(
            f"there is no {cable.code} {colour} in the rack whose delay is known: which other "
            "colour or date would do?"
        )
        return
    difference_ps = line.length_m * (new - old.delay_s_per_m) * 1e12
    same_delay_m = line.length_m * old.delay_s_per_m / new
    shorter_mm = round((same_delay_m - line.length_m) * 1000)
    findings.questions.append(
        f"the lot of {name} ({old.code}) is used up; cut to the same length from today's lot the "
        f"delay differs by {_signed(difference_ps)}{SPACE}ps, cut to the same delay the cable is "
        f"{both_units(round(same_delay_m, 3))}, {_signed(shorter_mm)}{SPACE}mm: does the length or "
        "the delay govern?"
    )


def _signed(value: float) -> str:
    return f"{value:+.0f}".replace("-", MINUS)


def _note_loom(line: ReadLine, cable: Cable, findings: Findings) -> None:
    outside_m = bundle_diameter_m(
        cable_diameter_m=cable.jacket.outside_diameter_m,
        count=line.quantity,
        sleeve_thickness_m=_SLEEVE_M,
    )
    cut_mm = round(line.length_m * 1000 * length_factor(line, cable)) * line.quantity
    contacts = line.quantity * (cable.conductors + (1 if cable.screened else 0))
    findings.notes.append(
        f"Loom of {counted(line.quantity, 'leg')}: {metres(cut_mm, digits=1)} of {cable.code} with "
        f"{(LOOM_TWIST - 1) * 100:.0f}{SPACE}% for the twist, bundle Ø{SPACE}"
        f"{outside_m * 1000:.1f}{SPACE}mm in a 0.8{SPACE}mm sleeve, bend it no tighter than "
        f"{outside_m * 10_000:.0f}{SPACE}mm. {contacts} contacts, "
        f"{contacts * (contacts - 1) // 2} pairs to be tested for shorts."
    )
