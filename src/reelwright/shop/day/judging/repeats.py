"""A cable as delivered before: whether its lot is still there, and what another lot changes."""

from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.quantities.marks import MINUS
from reelwright.core.quantities.show import show_length_m, show_metres, with_unit
from reelwright.core.quantities.words import listed
from reelwright.shop.day.judging.findings import Findings, Weight
from reelwright.shop.day.judging.matched import lot_in_rack
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.columns import ReadLine


def judge_repeat(line: ReadLine, cable: Cable, shelf: Shelf, findings: Findings) -> None:
    """Add what a repeat brings: the old lot, or the question which of its values governs."""
    name = f"certificate {line.wish.certificate}"
    findings.notes.append(
        "Its ends are made by the set-ups of today, which may be newer revisions than those of "
        f"{name}; measured values are compared with care."
    )
    old = shelf.lots.get(line.wish.lot_code or "")
    if old is None:
        findings.ask(f"what {name} was measured at is not on record here: can you send its values?")
        return
    if old.cable_code != cable.code:
        findings.ask(
            f"lot {old.code} of {name} is {old.cable_code}, the order form says {cable.code}: "
            "which one is right?",
            Weight.MEANT,
        )
        return
    if _still_there(line, old, shelf, findings):
        return
    _other_lot(line, cable, old, shelf, findings)


def _still_there(line: ReadLine, old: Lot, shelf: Shelf, findings: Findings) -> bool:
    """Plans choose among all reels of a colour, so that only a lone lot is sure to be used."""
    reels = shelf.reels_of(old.cable_code, old.colour)
    of_lot = [reel for reel in reels if reel.lot_code == old.code]
    if not of_lot or (line.colours and set(line.colours) != {old.colour}):
        return False
    if len(of_lot) == len(reels):
        findings.notes.append(f"It is cut from the same lot as before ({old.code}).")
    else:
        held = listed(
            f"{reel.code} with {show_metres(reel.length_mm, decimals=1)}" for reel in of_lot
        )
        findings.ask(
            f"the lot of before ({old.code}) is still there ({held}), but so are others of that "
            "colour: must it be that lot?"
        )
    return True


def _other_lot(line: ReadLine, cable: Cable, old: Lot, shelf: Shelf, findings: Findings) -> None:
    name = f"certificate {line.wish.certificate}"
    colour = line.colours[0] if line.colours else old.colour
    lot = lot_in_rack(shelf, cable.code, colour)
    if lot is None:
        findings.ask(
            f"there is no {cable.code} in {COLOUR_NAMES[colour]} in the rack: which other colour "
            "or date would do?"
        )
        return
    before, new = old.delay_s_per_m, lot.delay_s_per_m
    if before is None or new is None:
        unknown = old if before is None else lot
        findings.ask(
            f"the lot of {name} ({old.code}) is used up, and the delay of {unknown.code} was not "
            "measured, so that we cannot tell how far they differ: will the same length do?"
        )
        return
    difference_ps = line.length_m * (new.value - before.value) * 1e12
    same_delay_m = line.length_m * before.value / new.value
    shorter_mm = round((same_delay_m - line.length_m) * 1000)
    findings.ask(
        f"the lot of {name} ({old.code}) is used up; cut to the same length from today's lot the "
        f"delay differs by {with_unit(_signed(difference_ps), 'ps')}, cut to the same delay the "
        f"cable is {show_length_m(same_delay_m)}, {with_unit(_signed(shorter_mm), 'mm')}: does the "
        "length or the delay govern?"
    )


def _signed(value: float) -> str:
    return f"{value:+.0f}".replace("-", MINUS)
