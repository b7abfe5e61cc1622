"""A whole plan as one drawing: each reel, nothing on each other, readable with any font."""

import re

from reelwright.core.cutting import CutPlan, ItemRules, plan
from reelwright.drawings.by_itself import by_itself
from reelwright.drawings.cut_plan import draw_cut_plan, reel_cuts_view, remnant_use
from reelwright.drawings.reel import ReelGap
from reelwright.drawings.text_size import text_width
from tests.core.cutting.days import pieces, problem, racks, reel, stretch, use
from tests.drawings.look import assert_plain, parsed

DAY = racks(3)
RULES = ItemRules(
    item="VID-60 red",
    smallest_remnant_mm=3000,
    swarf_mm=50,
    remnant_uses=(use(3_500, 0.4), use(7_000, 0.9)),
)


def made() -> CutPlan:
    """The plan of the racks."""
    return plan(DAY)


def test_every_reel_and_every_piece_is_drawn() -> None:
    """Both reels with their titles one below the other, the loose remnant and what stays."""
    svg = draw_cut_plan(DAY, made())
    assert_plain(svg)
    text = svg.replace("\u202f", " ")
    assert "30 of 30 pieces from 2 reels; 1.26 m scrap" in text
    assert "R-113 · VID-60 red · lot L2391: 12 pieces, enough with 99 %; 3.02 m kept loose" in text
    assert all(
        text.count(f">O-12 {rack}-0{n} 3.06<") == 1 for rack in (1, 2, 3) for n in range(1, 10)
    )
    tops = [float(y) for y in re.findall(r'<svg x="24" y="([\d.]+)"', svg)]
    assert len(tops) == 2
    assert tops == sorted(tops)


def test_the_reels_stand_clear_of_each_other() -> None:
    """Each bar ends above the next one's title, and the sheet holds the last."""
    svg = draw_cut_plan(DAY, made())
    found = re.findall(r'<svg x="24" y="([\d.]+)"[^>]* height="([\d.]+)"', svg)
    (one, height), (other, last) = [(float(y), float(h)) for y, h in found]
    assert one + height < other - 14
    assert other + last < float(parsed(svg).attrib["height"])


def test_all_bars_are_on_one_scale() -> None:
    """A piece of 3.06 m is as wide on the reel of 41 m as on that of 60 m."""
    svg = draw_cut_plan(DAY, made())
    bars = svg.split('<svg x="24"')[1:]
    widths = [re.search(r'<rect x="20" y="30" width="([\d.]+)"', bar) for bar in bars]
    one, other = (float(found[1]) for found in widths if found)
    # The spread behind each bar is written ±0.25 m and ±0.40 m, which are alike in width.
    assert abs(one - other) < 0.1


def test_a_label_keeps_its_width_with_any_font() -> None:
    """By itself, each text states the width it was laid out for; nothing else changes."""
    svg = draw_cut_plan(DAY, made())
    alone = by_itself(svg)
    assert alone.count("textLength=") == svg.count("<text ") > 30
    assert re.sub(r' textLength="[\d.]+" lengthAdjust="\w+"', "", alone) == svg
    told = re.search(r'font-size="14"[^>]*textLength="([\d.]+)"[^>]*>free end<', alone)
    assert told is not None
    assert abs(float(told[1]) - text_width("free end", size=14)) < 0.001


def test_a_jacket_without_a_colour_in_its_name_is_said_to_be_grey() -> None:
    """The sheet says why it is grey, and leaves that out where the name tells the colour."""
    day = problem(pieces(1, 3000, item="LAB-1"), (reel("R", "LAB-1", stretch(0, 9000, 0)),))
    assert "Drawn in grey, for want of a colour in the name: LAB-1." in draw_cut_plan(
        day, plan(day)
    )
    assert "Drawn in grey" not in draw_cut_plan(DAY, made())


def test_what_a_remnant_is_good_for() -> None:
    """The share of the longest use that it reaches; none below the first, none where none is."""
    told = [remnant_use(length, RULES).replace("\u202f", " ") for length in (7_000, 4_920, 3_100)]
    assert told == ["used again with 90 %", "used again with 40 %", "hardly of use"]
    assert remnant_use(2_999, RULES) == ""
    assert remnant_use(9_000, DAY.rules[0]) == ""


def test_flaws_behind_the_last_cut_stay_on_the_reel() -> None:
    """Nothing is skipped there: the clean length in front of such a flaw is kept on the reel."""
    day = problem(
        pieces(1, 3000), (reel("R", "VID-60 red", stretch(0, 9000, 0), stretch(9100, 8000, 0)),)
    )
    (cuts,) = plan(day).reels
    view = reel_cuts_view(cuts, rules=day.rules[0], uncertainty_mm=0)
    (gap,) = [item for item in view.items if isinstance(item, ReelGap)]
    assert (gap.length_mm, gap.note, gap.keep) == (6000, "on the reel", True)
    assert view.length_mm == 17_100
    assert view.remnant_mm == 8000


def test_a_plan_that_cuts_nothing_is_a_sheet_that_says_so() -> None:
    """No reel, no bar: the head alone."""
    day = problem(pieces(2, 3000), ())
    assert "0 of 2 pieces from 0 reels" in draw_cut_plan(day, plan(day))
