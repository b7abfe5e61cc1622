"""The labels of a recorded day: two a cable, each with its cable's own code and length."""

from reelwright.core.quantities.show import show_metres
from tests.documents import pdfs
from tests.shop.day.pack.conftest import Pack, plain


def test_each_cable_has_a_label_for_each_end(pack: Pack) -> None:
    """Two labels a piece at the roll's size, A before B, in serial, line, cable and length."""
    pages = pack.pages("labels.pdf")
    pieces = [
        (view, piece)
        for view in pack.data.lines
        for piece in pack.data.pieces.get(view.id, [])
        if view.id in pack.data.travellers
    ]
    assert len(pages) == 2 * len(pieces) > 300
    assert set(pdfs.page_sizes_mm(pack.files["labels.pdf"])) == {(50.0, 25.0)}
    for place, (view, piece) in enumerate(pieces):
        for end, page in zip("AB", pages[2 * place : 2 * place + 2], strict=True):
            words = page.split()
            assert end in words
            assert {piece.serial, view.label, piece.cable, piece.colour} <= set(words)
            assert plain(show_metres(piece.finished_mm)) in page
            assert "…" not in page


def test_the_codes_read_the_serials(pack: Pack) -> None:
    """Every eleventh label, printed at 300 dpi, reads the serial that stands on it."""
    pages = pack.pages("labels.pdf")
    for place in range(0, len(pages), 11):
        (code,) = pdfs.codes(pack.files["labels.pdf"], place, dpi=300)
        assert code in pages[place].split()
