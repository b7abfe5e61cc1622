"""The cut list of a recorded day, as paper and as table, against the planned cuts themselves."""

import re
from collections import defaultdict
from itertools import pairwise

from reelwright.core.quantities.show import show_metres
from reelwright.shop.day.pack.cut_list import cut_list_paper
from reelwright.shop.work.models import PlannedCut
from tests.shop.day.pack.conftest import Pack, plain


def test_every_row_is_a_planned_cut_and_every_cut_a_row(pack: Pack) -> None:
    """Reel, lot, place in the order, start, lengths and wheel of each row are those recorded."""
    rows = pack.rows("cut-list.csv")
    recorded = {
        cut.piece.code: cut
        for cut in PlannedCut.objects.filter(plan=pack.data.cut_plan.id).select_related(  # type: ignore[union-attr]
            "piece__cable", "reel__lot"
        )
    }
    assert len(rows) == len(recorded) > 100
    for row in rows:
        cut = recorded[row["piece"]]
        assert row["reel"] == cut.reel.code
        assert row["lot"] == cut.reel.lot.code
        assert (row["cable"], row["colour"]) == (cut.piece.cable.code, cut.piece.colour)
        assert int(row["sequence"]) == cut.sequence
        assert int(row["start_mm"]) == cut.start_mm
        assert int(row["cut_length_mm"]) == cut.piece.cut_length_mm
        assert int(row["wheel_setting_mm"]) == cut.piece.wheel_setting_mm
        assert int(row["finished_mm"]) == cut.piece.finished_mm
        assert row["serial"] == cut.piece.serial


def test_cuts_of_a_reel_follow_each_other_and_never_overlap(pack: Pack) -> None:
    """Down the table of a reel the order counts up and each cut begins where room is left."""
    by_reel = defaultdict(list)
    for row in pack.rows("cut-list.csv"):
        by_reel[row["reel"]].append(row)
    for rows in by_reel.values():
        assert [int(row["sequence"]) for row in rows] == list(range(1, len(rows) + 1))
        for one, next_one in pairwise(rows):
            assert int(next_one["start_mm"]) >= int(one["start_mm"]) + int(one["cut_length_mm"])


def test_the_paper_has_a_tick_for_every_cut(pack: Pack) -> None:
    """The paper's rows, read in order, name the pieces of the table in the same order."""
    paper = cut_list_paper(pack.data)
    assert paper is not None
    named = []
    for reel in paper.reels:
        place = 1
        for row in reel.cuts:
            assert row.first == place
            place = row.last + 1
            order = row.pieces.rpartition("-")[0]
            named += [row.pieces if tick == "" else f"{order}-{tick}" for tick in row.ticks]
    assert named == [row["piece"] for row in pack.rows("cut-list.csv")]


def test_every_reel_stands_on_the_paper_with_its_lengths(pack: Pack) -> None:
    """Each reel's name, lot and what stays; each length and wheel setting beside its ticks."""
    text = " ".join(pack.pages("cut-list.pdf"))
    for reel in pack.data.cut_reels:
        assert f"{reel['reel']} {reel['cable']}" in text
        assert f"lot {reel['lot']}" in text
    for row in pack.rows("cut-list.csv"):
        assert plain(show_metres(int(row["cut_length_mm"]))) in text
        assert plain(show_metres(int(row["wheel_setting_mm"]))) in text


def test_few_pages_hold_it(pack: Pack) -> None:
    """Cuts alike share a row: a hundred and fifty cuts off twenty reels fit seven pages."""
    assert len(pack.data.cut_reels) == 20
    assert len(pack.pages("cut-list.pdf")) <= 7


def test_a_flaw_between_alike_cuts_parts_them(pack: Pack) -> None:
    """Where a flaw lies between cuts of one length, the paper stops there and says what to do."""
    paper = cut_list_paper(pack.data)
    assert paper is not None
    parted = [row for reel in paper.reels for row in reel.cuts if row.before]
    (reel,) = [
        reel
        for reel in pack.data.cut_reels
        if any(part["kind"] == "flaw" for part in reel["segments"][:-2])
    ]
    (row,) = parted
    flaw = next(part for part in reel["segments"] if part["kind"] == "flaw")
    ahead = [
        part for part in reel["segments"] if part["piece"] and part["end_mm"] <= flaw["start_mm"]
    ]
    assert row.first == len(ahead) + 1
    assert re.search(r"cut out 0\.20\s?m with the flaw", row.before)


def test_reels_stand_in_the_order_of_need(pack: Pack) -> None:
    """The first reel of the list is one that the first batch is cut from."""
    assert pack.data.bench_plan is not None
    content = pack.data.bench_plan.content
    cuts = [row for row in content["rows"] if row["station"] == "cut"]
    first = min(cuts, key=lambda row: row["start_s"])["batch_id"]
    pieces = next(batch["pieces"] for batch in content["batches"] if batch["id"] == first)
    assert any(
        row["piece"] in pieces
        for row in pack.rows("cut-list.csv")
        if row["reel"] == pack.data.cut_reels[0]["reel"]
    )


def test_every_planned_piece_is_counted_to_its_line(pack: Pack) -> None:
    """The lines of the plan and their pieces are those of the table, row for row."""
    counted = {view.label: count for view, count in pack.data.planned}
    orders = [row["piece"].rpartition("-")[0] for row in pack.rows("cut-list.csv")]
    assert counted == {order: orders.count(order) for order in orders}
