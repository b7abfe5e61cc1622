"""What the rack would give of one length, without planning the whole day."""

from reelwright.core.cutting.capacity import capacity
from reelwright.core.ends.strip.cut_length import CutLength, plan_cut
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.tolerance_text import default_tolerance
from reelwright.core.verdicts import Reason
from reelwright.shop.day.cuts_planned import CHANCE_OF_ENOUGH
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.columns import ReadLine
from reelwright.shop.orders.set_wish import SetKind
from reelwright.shop.reels.selectors import item_of

# Legs of a matched set are cut this much longer, measured with one end made, and trimmed (common
# practice, no published source).
TRIMMED_LATER_MM = 100


def rack_gives(shelf: Shelf, *, cable: str, colour: str, cut_length_mm: int) -> int:
    """Return how many pieces the rack gives, each stretch filled with 98 % certainty at most."""
    return sum(
        stretch.pieces
        for stretch in capacity(
            shelf.stock,
            item=item_of(cable, colour),
            cut_length_mm=cut_length_mm,
            chance_of_enough=CHANCE_OF_ENOUGH,
        )
    )


def is_trimmed(line: ReadLine) -> bool:
    """Return whether each cable is measured and trimmed: a matched set from several lots.

    One colour comes off one lot, whose delay is one, so that equal lengths match as they are cut.
    """
    return line.wish.kind is SetKind.MATCHED and len(set(line.colours)) > 1


def cut_of(line: ReadLine, ends: tuple[Connector, Connector], shelf: Shelf) -> CutLength | Reason:
    """Return what to cut for one cable of the line, or why its tolerance cannot be kept by cutting.

    A set of several lots is trimmed to its delay afterwards: its cut only has to be long enough.
    """
    finished_mm = round(line.length_m * 1000)
    if is_trimmed(line):
        return plan_cut(
            finished_mm=finished_mm + TRIMMED_LATER_MM,
            tolerance_minus_mm=0,
            tolerance_plus_mm=finished_mm,
            ends=ends,
            wheel=shelf.wheel,
        )
    tolerance = line.tolerance or default_tolerance(nominal_mm=finished_mm)
    return plan_cut(
        finished_mm=finished_mm,
        tolerance_minus_mm=int(tolerance.minus_mm),
        tolerance_plus_mm=int(tolerance.plus_mm),
        ends=ends,
        wheel=shelf.wheel,
    )
