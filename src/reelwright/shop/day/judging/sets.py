"""What changes when the cables of a line belong together: lots, delays, a loom, a repeat."""

from decimal import Decimal

from reelwright.core.parts.bundle import bundle_diameter_m
from reelwright.core.parts.cable import Cable
from reelwright.core.quantities.marks import DIAMETER, NARROW_SPACE
from reelwright.core.quantities.show import show_dimension, show_metres, show_percent
from reelwright.core.quantities.words import counted
from reelwright.core.signals.signal import Signal
from reelwright.core.statistics.yields import starts_needed
from reelwright.shop.day.judging.findings import Findings
from reelwright.shop.day.judging.matched import judge_legs, judge_matched
from reelwright.shop.day.judging.rack import is_trimmed
from reelwright.shop.day.judging.repeats import judge_repeat
from reelwright.shop.day.shelf import Shelf
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


def length_factor(line: ReadLine) -> float:
    """Return how much longer a leg is cut than its trunk."""
    return LOOM_TWIST if line.wish.kind is SetKind.LOOM else 1.0


def one_lot_only(line: ReadLine) -> bool:
    """Return whether the cables must come from one lot, or rather not be made."""
    matched = line.wish.kind is SetKind.MATCHED and not is_trimmed(line)
    return matched or line.wish.kind is SetKind.SAME_LOT


def lot_group_size(line: ReadLine) -> int | None:
    """Return how many cables want one lot together, or None where lots do not matter."""
    match line.wish.kind:
        case _ if one_lot_only(line):
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
            judge_matched(line, cable, signal, shelf, findings)
        case SetKind.REPEAT:
            judge_repeat(line, cable, shelf, findings)
        case SetKind.LOOM:
            _note_loom(line, cable, findings)
        case SetKind.GROUPS:
            _note_groups(line, findings)
        case _:
            judge_legs(line, cable, signal, shelf, findings)


def _note_groups(line: ReadLine, findings: Findings) -> None:
    size = line.wish.group_size or line.quantity
    left = line.quantity % size
    if left and line.quantity > size:
        findings.notes.append(
            f"{line.quantity} make {counted(line.quantity // size, 'group')} of {size} and one of "
            f"{left}."
        )


def _note_loom(line: ReadLine, cable: Cable, findings: Findings) -> None:
    outside_m = bundle_diameter_m(
        cable_diameter_m=cable.jacket.outside_diameter_m,
        count=line.quantity,
        sleeve_thickness_m=_SLEEVE_M,
    )
    cut_mm = round(line.length_m * 1000 * length_factor(line)) * line.quantity
    contacts = line.quantity * (cable.conductors + (1 if cable.screened else 0))
    findings.notes.append(
        f"Loom of {counted(line.quantity, 'leg')}: {show_metres(cut_mm, decimals=1)} of "
        f"{cable.code} with {show_percent(LOOM_TWIST - 1, decimals=0)} for the twist, bundle "
        f"{DIAMETER}{NARROW_SPACE}{show_dimension(outside_m, decimals=1)} in a "
        f"{show_dimension(_SLEEVE_M, decimals=1)} sleeve, bend it no tighter than "
        f"{show_dimension(10 * outside_m, decimals=0)}. {contacts} contacts, "
        f"{contacts * (contacts - 1) // 2} pairs to be tested for shorts. "
        "Sleeve, breakouts and their labels are not in the price yet."
    )
