"""How a finished end is handled: its bend by sheet and rule, the looks of its braid."""

from dataclasses import replace

import pytest

from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.connector import Method
from reelwright.core.parts.layers import LayerRole
from reelwright.shop.setups.paper import set_up_paper
from reelwright.shop.setups.shown.handling import bend_shown, braid_point, braid_source
from tests.small_world import CABLE, TODAY, SmallWorld

# The small world's coax is 6.0 mm across; its sheet states 60 mm.


def told(cable: Cable) -> tuple[str, str]:
    """Return the mark and the sentence of a cable, with plain spaces."""
    shown = bend_shown(cable)
    assert shown is not None
    return shown.mark, shown.sentence.replace("\u202f", " ")


def test_a_sheet_that_asks_for_more_than_the_rule_stands() -> None:
    """60 mm of the sheet before 6 × 6 = 36 mm, and no less than 10 × 6; 36 mm stay straight."""
    assert told(CABLE) == (
        "good",
        "Bend it no tighter than 60.0 mm. Its sheet states 60.0 mm, the rule 36.0 mm, "
        "6 times its diameter. Leave 36.0 mm straight behind the end.",
    )


def test_a_sheet_that_allows_a_tighter_bend_than_the_rule_is_minded() -> None:
    """30 mm on the sheet: the rule's 36 mm are told instead, with a caution."""
    mark, sentence = told(replace(CABLE, bend_radius_fixed_m=0.030))
    assert mark == "caution"
    assert sentence.startswith("Bend it no tighter than 36.0 mm, better 60.0 mm.")
    assert "Its sheet states 30.0 mm" in sentence


def test_without_a_radius_on_the_sheet_the_rule_alone_is_told() -> None:
    """A coax keeps its rule; a kind without a rule is not told of at all."""
    assert (
        "Its sheet states no radius, the rule 36.0 mm"
        in told(replace(CABLE, bend_radius_fixed_m=0.0))[1]
    )
    speaker = replace(CABLE, family=Family.LOUDSPEAKER, bend_radius_fixed_m=0.0)
    assert bend_shown(speaker) is None


def test_what_only_a_sheet_says_is_told_as_its_own() -> None:
    """A loudspeaker pair has no rule here: 60 mm, by its sheet."""
    shown = bend_shown(replace(CABLE, family=Family.LOUDSPEAKER))
    assert shown is not None
    assert "60.0\u202fmm when it is laid" in shown.sentence
    assert shown.source == str(CABLE.sheet.source)


@pytest.mark.parametrize(("screened", "rule"), [(False, True), (True, False)])
def test_data_pairs_have_a_rule_where_they_are_not_screened(screened: bool, rule: bool) -> None:
    """Four times the diameter holds for unscreened data pairs only; no straight bit is asked."""
    cable = replace(CABLE, family=Family.DATA, screened=screened, bend_radius_fixed_m=0.02)
    sentence = told(cable)[1]
    assert ("the rule 24.0 mm, 4 times its diameter" in sentence) is rule
    assert "straight" not in sentence


def test_a_braid_is_looked_at_where_it_is_bared() -> None:
    """One in ten may be nicked and none cut; not where no braid is bared, or none is there."""
    point = braid_point(CABLE, Method.CRIMP_CRIMP)
    assert point is not None
    assert point.good.replace("\u202f", " ") == "none cut through, at most 10 % nicked"
    assert "NASA-STD-8739.4" in braid_source()
    assert braid_point(CABLE, Method.DISPLACEMENT) is None
    bare = [layer for layer in CABLE.layers if layer.role is not LayerRole.BRAID]
    assert braid_point(replace(CABLE, layers=tuple(bare)), Method.CRIMP_CRIMP) is None


def test_the_sheet_holds_both(world: SmallWorld, drafted: int) -> None:
    """The bend under the section with its source, the braid among the looks, whose rule below."""
    content = set_up_paper("S-1", on=TODAY, gauges=())
    (bend,) = content.bend_told
    assert bend.sentence.startswith("Bend it no tighter than 60.0\u202fmm.")
    assert "NASA-STD-8739.4, 7.3" in bend.sentence
    assert content.points[-1].name == "strands of the braid"
    assert "strands of the braid: NASA-STD-8739.4" in content.points_source
