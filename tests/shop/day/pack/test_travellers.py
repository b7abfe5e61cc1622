"""The travellers of a recorded day: one page a line, its numbers those of the records."""

import re

from reelwright.core.quantities.show import show_metres
from tests.documents import pdfs
from tests.shop.day.pack.conftest import Pack, plain


def test_every_line_has_its_one_page(pack: Pack) -> None:
    """As many pages as accepted lines, each numbered 1 of 1 and named by its traveller."""
    pages = pack.pages("travellers.pdf")
    numbers = {traveller.number for traveller in pack.data.travellers.values()}
    assert len(pages) == len(pack.data.with_state("accepted")) == len(numbers) > 30
    assert {page.split()[0] for page in pages} == numbers
    assert all("page 1 of 1" in page for page in pages)


def test_every_code_reads_its_traveller(pack: Pack) -> None:
    """The code on each page, as printed at 150 dpi, names the traveller that the page names."""
    for place, page in enumerate(pack.pages("travellers.pdf")):
        number = page.split()[0]
        assert pdfs.codes(pack.files["travellers.pdf"], place, dpi=150) == [f"RW:T:{number}"]


def test_the_page_says_what_the_records_say(pack: Pack) -> None:
    """Lengths, wheel, pieces, reels with lots, set-ups and serials are those recorded."""
    pages = {page.split()[0]: page for page in pack.pages("travellers.pdf")}
    for view in pack.data.with_state("accepted"):
        sheet = pack.data.travellers[view.id]
        page, pieces = pages[sheet.number], pack.data.pieces[view.id]
        make = view.answer.make
        assert make is not None
        for length_mm in (make.wheel_setting_mm, make.cut_length_mm, make.finished_mm):
            assert plain(show_metres(length_mm)) in page
        assert f"{len(pieces)} piece" in page
        for piece in pieces:
            assert f"{piece.reel} · lot {piece.lot}" in page
            assert piece.serial in page or piece.serial.rpartition("-")[2] in page.split()
        for revision in {sheet.revision_a, sheet.revision_b}:
            set_up = pack.data.sheets[revision]
            assert f"set-up {set_up.code} rev {set_up.letter}" in page


def test_strips_are_drawn_to_a_true_scale(pack: Pack) -> None:
    """Every end is drawn 2 : 1 or 1 : 1 and none had to shrink, so a cable can be laid on it."""
    for page in pack.pages("travellers.pdf"):
        assert re.findall(r"(\d+(?:\.\d+)?) : 1 · mm", page) in (["1"], ["2"], ["1", "1"])
        assert "Shrunk" not in page


def test_the_first_article_asks_only_for_what_there_is(pack: Pack) -> None:
    """The height is looked at on crimped ends only: a soldered plug has none."""
    for page in pack.pages("travellers.pdf"):
        first = page.partition("First piece, before the rest")[2]
        assert (" height " in first) is ("Height ±" in page)


def test_they_stand_in_the_order_of_work(pack: Pack) -> None:
    """The stack begins with the line of the batch that is begun first."""
    assert pack.data.bench_plan is not None
    content = pack.data.bench_plan.content
    first = min(content["times"], key=lambda times: (times["start_s"], times["batch_id"]))
    lines = next(batch["lines"] for batch in content["batches"] if batch["id"] == first["batch_id"])
    order = re.search(r"Order (\S+) · line", pack.pages("travellers.pdf")[0])
    assert order is not None
    assert order[1] in lines
