"""In which order pieces that differ in name only come off a reel."""

from reelwright.core.cutting.problem import CutProblem, ItemRules, Piece, ReelStock, Stretch
from reelwright.core.cutting.search import plan


def test_pieces_alike_are_cut_in_the_order_in_which_people_count():
    """Of pieces that differ in name only, the second comes off the reel before the tenth."""
    made = plan(
        CutProblem(
            pieces=tuple(
                Piece(
                    id=f"O-07-{number}",
                    item="AUD BK",
                    cut_length_mm=2_000,
                    due_day=None,
                    priority=0,
                    lot_group=None,
                )
                for number in (10, 2, 1, 11)
            ),
            reels=(
                ReelStock(
                    id="R-1",
                    item="AUD BK",
                    lot="L1",
                    location=None,
                    stretches=(Stretch(start_mm=0, length_mm=20_000, standard_uncertainty_mm=0.0),),
                    age_rank=0,
                ),
            ),
            rules=(ItemRules(item="AUD BK", smallest_remnant_mm=1_000, swarf_mm=50),),
            groups=(),
            chance_of_enough=0.98,
        )
    )
    assert [cut.piece_id for cut in made.reels[0].cuts] == [
        "O-07-1",
        "O-07-2",
        "O-07-10",
        "O-07-11",
    ]
