"""An end clamped by a screw: which cables take it, in which order, with what care."""

from dataclasses import replace

from reelwright.core.ends.care.cautions import Job, cautions
from reelwright.core.ends.fit.compatibility import judge_fit
from reelwright.core.ends.order.inspection import inspection_points
from reelwright.core.ends.order.steps import EndSetUp, order_of_work
from reelwright.core.ends.strip.levels import needed_levels
from reelwright.core.parts.connector import Method
from reelwright.core.verdicts import Reason
from tests.ends_world import BANANA, DAT_6, SPK_14, VID_70, wire_strip

SCREWED = replace(BANANA, code="BANANA-S", method=Method.SCREW)


def test_a_screw_clamps_a_loudspeaker_pair_and_no_coax_or_data_cable() -> None:
    """A pair passes; a coax and a cable of data pairs are refused by their kind."""
    assert judge_fit(SPK_14, SCREWED).possible
    for other in (VID_70, DAT_6):
        found = judge_fit(other, SCREWED)
        assert [reason.code for reason in found.reasons] == ["kind_of_cable"]


def test_bare_strands_are_clamped_and_tightened_once_more_after_they_settled() -> None:
    """Strip, insert, tighten, tug: and nobody is told to tin what a screw clamps."""
    steps = order_of_work(
        EndSetUp(
            method=Method.SCREW,
            strip=wire_strip(35.0, 12.0),
            boot=False,
            program=None,
            pin_die=None,
            ferrule_die=None,
        ),
        cable=SPK_14,
        connector=SCREWED,
    )
    told = [step.text for step in steps]
    screwing = [text for text in told if "screw" in text or "torque" in text or "tug" in text]
    assert [text.split()[0] for text in screwing] == ["bare", "tighten", "tug"]
    assert told.index(screwing[0]) > next(i for i, text in enumerate(told) if "jacket back" in text)
    assert not any(text.startswith("tin ") for text in told)
    assert any("solder creeps" in point.bad for point in inspection_points(Method.SCREW))


def test_a_screwed_pair_is_stripped_in_two_levels() -> None:
    """Bare metal in the contact, and the cores parted."""
    levels = needed_levels(SPK_14, SCREWED)
    assert not isinstance(levels, Reason)
    assert [level.shows for level in levels] == ["conductor", "cores"]
    assert levels[0].because == "bare metal is clamped in the contact"


def test_a_screwed_end_warns_of_blades_and_of_the_wrist() -> None:
    """Neither press nor ultrasonics, and the machine's own rules come first as everywhere."""
    job = Job(methods=(Method.SCREW,), fluoropolymer=False, line_v=None, test_v=None)
    assert [each.code for each in cautions(job)] == ["blades", "hand_tool", "local_rules"]
