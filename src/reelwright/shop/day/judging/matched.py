"""Cables that should have one delay: what their lots make of it, and what to cut instead."""

import math
from collections.abc import Mapping
from decimal import Decimal

from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.quantities.show import show_in, show_length_m, show_length_mm
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.component_video import ComponentVideo
from reelwright.core.signals.matched_set import Leg, match_set
from reelwright.core.signals.rgbhv import RgbhvVideo
from reelwright.core.signals.signal import Signal
from reelwright.core.verdicts import Reason
from reelwright.shop.day.judging.findings import Findings, Weight
from reelwright.shop.day.judging.rack import is_trimmed
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.columns import ReadLine

# What a wheel-measured cut keeps (common practice).
CUT_SPREAD_M = 0.003
# Sorting, measuring and trimming the legs of one set (common practice, no published source).
MATCHING_MIN = Decimal(12)
_STEP_MM = 5


def lot_in_rack(shelf: Shelf, cable_code: str, colour: str) -> Lot | None:
    """Return the lot of the reel that holds most of a colour, or None where none is left."""
    reels = sorted(
        shelf.reels_of(cable_code, colour), key=lambda reel: (-reel.length_mm, reel.code)
    )
    return shelf.lots.get(reels[0].lot_code) if reels else None


def judge_matched(
    line: ReadLine, cable: Cable, signal: Signal | None, shelf: Shelf, findings: Findings
) -> None:
    """Add what a matched set brings: the skew of its lots, the lengths that undo it, the fee."""
    if not is_trimmed(line):
        findings.notes.append(
            "All legs are cut from one lot and to one length, so that they match as nearly as "
            "they are cut."
        )
        return
    lots = {
        colour: lot_in_rack(shelf, cable.code, colour) for colour in dict.fromkeys(line.colours)
    }
    findings.notes.append(_fee(shelf))
    unmeasured = [c for c, lot in lots.items() if lot is None or lot.delay_s_per_m is None]
    if unmeasured:
        names = ", ".join(COLOUR_NAMES[colour] for colour in unmeasured)
        findings.notes.append(
            f"Not computed: how far the legs differ, since the delay of the lot was not measured "
            f"({names}). They are measured with one end made and trimmed to one delay."
        )
        return
    _match(line, cable, lots, signal, findings)


def _fee(shelf: Shelf) -> str:
    rates = shelf.pricing
    fee = MATCHING_MIN * rates.labour_per_hour / 60 / (1 - rates.gross_margin)
    return (
        f"Matching is charged besides: {MATCHING_MIN} minutes for the set, {fee:.2f} "
        f"{rates.currency}."
    )


def _match(
    line: ReadLine,
    cable: Cable,
    lots: Mapping[str, Lot | None],
    signal: Signal | None,
    findings: Findings,
) -> None:
    tolerance = line.tolerance
    matched = match_set(
        [Leg(name=COLOUR_NAMES[colour], cable=cable, lot=lot) for colour, lot in lots.items()],
        nominal_m=line.length_m,
        tolerance_minus_m=0.0 if tolerance is None else tolerance.minus_mm / 1000,
        tolerance_plus_m=0.0 if tolerance is None else tolerance.plus_mm / 1000,
        cut_tolerance_m=CUT_SPREAD_M,
    )
    if isinstance(matched, Reason):
        findings.ask(f"{matched.sentence}: may the set be matched by measuring and trimming?")
        return
    if isinstance(signal, RgbhvVideo | ComponentVideo):
        check = signal.judge_skew({leg.name: leg.equal_length_delay_s for leg in matched.legs})
        findings.checks.append(check)
        findings.notes.append(f"Cut to one length: {check.sentence}")
    else:
        skew_s = matched.equal_length_skew_s
        findings.notes.append(f"Cut to one length the legs differ by {show_quantity(skew_s, 's')}.")
    told = ", ".join(f"{leg.name} {show_length_m(leg.length_m)}" for leg in matched.legs)
    delay = show_in(matched.target_s * 1e9, "ns", decimals=3)
    known_to = show_in(matched.delay_uncertainty_s * 1e12, "ps", decimals=0)
    findings.notes.append(
        f"Cut for one delay of {delay}: {told}. The delay of a lot is known to {known_to} over "
        "this length; closer than that is reached by measuring and trimming only."
    )
    most_m = max(abs(leg.change_m) for leg in matched.legs)
    if any(leg.spare_m < CUT_SPREAD_M for leg in matched.legs):
        wanted_mm = math.ceil(matched.tolerance_needed_m * 1000 / _STEP_MM) * _STEP_MM
        findings.ask(
            f"matched in delay, a leg lies up to {show_length_mm(most_m * 1000)} off its "
            f"length, and a cut keeps ±{show_length_mm(CUT_SPREAD_M * 1000)}: may the "
            f"tolerance be ±{show_length_mm(wanted_mm)}?"
        )


def judge_legs(
    line: ReadLine, cable: Cable, signal: Signal | None, shelf: Shelf, findings: Findings
) -> None:
    """Add how far colours of one picture differ where no matched set was asked for."""
    colours = tuple(dict.fromkeys(line.colours))
    if not isinstance(signal, RgbhvVideo | ComponentVideo) or len(colours) < 2:
        return
    delays = {}
    for colour in colours:
        lot = lot_in_rack(shelf, cable.code, colour)
        if lot is None or lot.delay_s_per_m is None:
            findings.notes.append(
                "Not computed: how far the colours differ in delay, since that of "
                f"{COLOUR_NAMES[colour]} was not measured."
            )
            return
        delays[COLOUR_NAMES[colour]] = lot.delay_s_per_m.value * line.length_m
    check = signal.judge_skew(delays)
    findings.checks.append(check)
    findings.notes.append(f"Cut to one length: {check.sentence}")
    if check.margin is not None and check.margin < 0:
        findings.ask("shall the legs be matched in delay (a matched set)?", Weight.RUN)
