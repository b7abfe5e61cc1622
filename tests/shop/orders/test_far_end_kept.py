"""What the far end needs and what physics would allow stay with an answer in the records."""

import json

from reelwright.core.signals.serial_video import SerialVideo
from reelwright.shop.day.judging.run_judged import possible_row
from reelwright.shop.orders.answer import HELD, LineAnswer
from tests import signal_world as world


def test_far_end_and_reach_come_back_from_the_records() -> None:
    """Written as JSON and read again, both are what they were, the length in metres."""
    judged = SerialVideo(rate_bit_per_s=2_970_000_000).judge(world.run(world.VID_70, 50.0))
    answer = LineAnswer(
        state=HELD,
        headline="Held: which?",
        reading="a run",
        questions=("Which?",),
        far_end=judged.far_end,
        possible=possible_row(judged.possible),
    )
    kept = LineAnswer.from_json(json.loads(json.dumps(answer.to_json())))
    assert kept == answer
    assert kept.possible is not None
    assert judged.possible is not None
    assert kept.possible.length_m == judged.possible.length_m
    assert "equaliser" in kept.far_end


def test_an_older_answer_has_neither() -> None:
    """Records from before hold no such fields and are read all the same."""
    content = LineAnswer(
        state=HELD, headline="Held: which?", reading="a run", questions=("Which?",)
    ).to_json()
    del content["far_end"], content["possible"]
    kept = LineAnswer.from_json(content)
    assert kept.far_end == ""
    assert kept.possible is None
    assert possible_row(None) is None
