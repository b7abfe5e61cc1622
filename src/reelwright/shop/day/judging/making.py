"""How an accepted line is made, what it costs, and what it should measure."""

from reelwright.core.ends.strip.cut_length import CutLength
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.colour import COLOUR_NAMES, colour_words
from reelwright.core.quantities.show import show_length_mm
from reelwright.core.quantities.show_office import show_minus_plus
from reelwright.core.quantities.words import sentence
from reelwright.shop.day.judging import sets
from reelwright.shop.day.judging.ends_chosen import EndChoice
from reelwright.shop.day.judging.findings import Findings, Weight
from reelwright.shop.day.judging.offers import cells_of, mass_words
from reelwright.shop.day.judging.price import price_of
from reelwright.shop.day.judging.rack import TRIMMED_LATER_MM, cut_of, is_trimmed, rack_gives
from reelwright.shop.day.judging.run_judged import expect
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import Make, Offer
from reelwright.shop.orders.columns import ReadLine

# A stripper must grip jacket between the two ends (common practice, no published source).
SHORTEST_MM = 150
_MOST_COLOURS = 2


def make_and_price(
    line: ReadLine,
    cable: Cable,
    ends: tuple[EndChoice, EndChoice],
    shelf: Shelf,
    findings: Findings,
) -> None:
    """Add price, expected values and how it is made, as far as nothing speaks against them."""
    end_a, end_b = ends[0].set_up, ends[1].set_up
    if end_a is None or end_b is None or findings.refusals or findings.not_as_asked:
        return
    finished_mm = round(line.length_m * 1000)
    if finished_mm < SHORTEST_MM:
        findings.ask(
            f"{show_length_mm(finished_mm)} is shorter than the {show_length_mm(SHORTEST_MM)} that "
            "our machines can hold between two ends: is the unit right, or is an adapter meant?",
            Weight.MEANT,
        )
        return
    findings.price = price_of(
        shelf=shelf,
        cable_code=cable.code,
        end_a=end_a,
        end_b=end_b,
        quantity=line.quantity,
        finished_mm=finished_mm,
        extra_setup_minutes=sets.extra_setup_minutes(line),
    )
    if findings.price is None:
        findings.ask(
            f"no minutes are quoted for {cable.family} cables, so there is no price yet: "
            "which price was agreed?"
        )
    findings.expected += expect(cable=cable, lot=None, length_m=line.length_m)
    mass = mass_words(cable, line)
    if mass:
        findings.notes.append(f"The cable weighs {mass}")
    if line.tolerance is None:
        return
    cut = cut_of(line, (ends[0].connector, ends[1].connector), shelf)
    if not isinstance(cut, CutLength):
        findings.ask(f"{sentence(cut.sentence)} Which wider tolerance may it be?")
        return
    if is_trimmed(line):
        findings.notes.append(
            f"Each leg is cut {show_length_mm(TRIMMED_LATER_MM)} long, measured with one end made, "
            "and trimmed to its delay."
        )
    if line.tolerance.assumed:
        findings.notes.append(
            f"No tolerance was named; taken as {show_minus_plus(0, round(line.tolerance.plus_mm))}."
        )
    colours = _colours(line, cable, cut, shelf, findings)
    slack = sets.length_factor(line)
    findings.make = Make(
        cable=cable.code,
        colours=colours,
        connector_a=end_a.connector_code,
        connector_b=end_b.connector_code,
        set_up_a=end_a.code,
        set_up_b=end_b.code,
        revision_a=end_a.letter,
        revision_b=end_b.letter,
        quantity=line.quantity,
        spare_wanted=sets.spares_wanted(line.quantity, shelf.pricing.first_pass_yield),
        finished_mm=finished_mm,
        tolerance_minus_mm=int(line.tolerance.minus_mm),
        tolerance_plus_mm=int(line.tolerance.plus_mm),
        tolerance_assumed=line.tolerance.assumed,
        cut_length_mm=round(cut.cut_mm * slack),
        wheel_setting_mm=round(cut.wheel_setting_mm * slack),
        cut_uncertainty_mm=cut.standard_uncertainty_mm,
        lot_group_size=sets.lot_group_size(line),
        lot_group_hard=sets.one_lot_only(line),
    )


def _colours(
    line: ReadLine, cable: Cable, cut: CutLength, shelf: Shelf, findings: Findings
) -> tuple[str, ...]:
    in_stock = shelf.colours_in_stock(cable.code)
    comes_in = tuple(dict.fromkeys([*shelf.cable_terms[cable.code].colours, *in_stock]))
    enough = [
        colour
        for colour in in_stock
        if rack_gives(shelf, cable=cable.code, colour=colour, cut_length_mm=cut.cut_mm)
        >= line.quantity
    ]
    if not line.colours:
        chosen = (enough or in_stock or comes_in)[0]
        findings.notes.append(f"No colour was named; taken as {COLOUR_NAMES[chosen]}.")
        return (chosen,)
    strange = [colour for colour in dict.fromkeys(line.colours) if colour not in comes_in]
    if strange:
        findings.ask(
            f"{cable.code} does not come in {colour_words(strange)}, but in "
            f"{colour_words(comes_in)}: which of these may it be?",
            Weight.ENDS,
        )
        if len(set(line.colours)) == 1:
            price = None if findings.price is None else findings.price.unit_price
            findings.offers += [
                Offer(
                    sentence=f"All in {COLOUR_NAMES[colour]}, which is in the rack.",
                    price=price,
                    cells=cells_of(line, cable=cable.code, colour=COLOUR_NAMES[colour]),
                )
                for colour in enough[:_MOST_COLOURS]
            ]
    return line.colours
