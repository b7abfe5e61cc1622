"""What holds for every paper: size, font, characters, foot, same bytes."""

import hashlib
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace

import pytest

from reelwright.documents.answers import render_answers
from reelwright.documents.bench_plan import render_bench_plan
from reelwright.documents.cut_list import render_cut_list
from reelwright.documents.expected_values import render_expected_values
from reelwright.documents.glyphs import paper_characters
from reelwright.documents.labels import render_labels
from reelwright.documents.set_up_sheet import render_set_up_sheet
from reelwright.documents.shortages import render_shortages
from reelwright.documents.summary import render_summary
from reelwright.documents.traveller import render_traveller
from tests.documents import pdfs, sheets

A4_MM, A5_MM, LABEL_MM = (210.0, 297.0), (148.0, 210.0), (50.0, 25.0)

PAPERS: dict[str, tuple[Callable[[], bytes], tuple[float, float]]] = {
    "traveller": (lambda: render_traveller(sheets.travellers()), A5_MM),
    "labels": (lambda: render_labels(sheets.labels()), LABEL_MM),
    "cut_list": (lambda: render_cut_list(sheets.cut_list()), A4_MM),
    "bench_plan": (lambda: render_bench_plan(sheets.bench_plan()), A4_MM),
    "expected_values": (lambda: render_expected_values(sheets.expected_values()), A4_MM),
    "answers": (lambda: render_answers(sheets.answers()), A4_MM),
    "set_up_sheet": (lambda: render_set_up_sheet(sheets.set_up_sheet()), A4_MM),
    "shortages": (lambda: render_shortages(sheets.shortages()), A4_MM),
    "summary": (lambda: render_summary(sheets.summary()), A4_MM),
}
ON_SHEETS = sorted(PAPERS.keys() - {"labels"})


@pytest.fixture(params=sorted(PAPERS))
def paper(request: pytest.FixtureRequest) -> tuple[bytes, tuple[float, float]]:
    """Each paper in turn with the size it must have."""
    render, size_mm = PAPERS[request.param]
    return render(), size_mm


def test_each_page_has_the_papers_size(paper: tuple[bytes, tuple[float, float]]) -> None:
    """Travellers are A5, labels exactly the roll's size, all else A4 (ISO 216)."""
    pdf, size_mm = paper
    for page_mm in pdfs.page_sizes_mm(pdf):
        assert page_mm == pytest.approx(size_mm, abs=0.01)


def test_only_our_font_is_embedded(paper: tuple[bytes, tuple[float, float]]) -> None:
    """Text and the text inside drawings use our three weights and nothing else."""
    fonts = pdfs.embedded_fonts(paper[0])
    assert fonts
    assert fonts <= {"SourceSansPro-Regular", "SourceSansPro-Semibold", "SourceSansPro-Bold"}


def test_every_printed_character_is_in_our_font(paper: tuple[bytes, tuple[float, float]]) -> None:
    """No character on any page is missing from the font's table."""
    printed = {ord(c) for text in pdfs.texts(paper[0]) for c in text}
    assert printed
    assert printed <= paper_characters()


def test_the_same_content_gives_the_same_bytes(paper: tuple[bytes, tuple[float, float]]) -> None:
    """No date, no chance: no PDF carries a date of its making."""
    assert b"/CreationDate" not in paper[0]
    assert b"/ModDate" not in paper[0]


@pytest.mark.parametrize("name", sorted(PAPERS))
def test_a_second_run_is_identical(name: str) -> None:
    """Two runs in one process give the same file."""
    render, _ = PAPERS[name]
    assert render() == render()


def test_another_process_prints_the_same() -> None:
    """A fresh interpreter with another hash seed gives byte-identical files of every paper."""
    told = (
        "import hashlib\n"
        "from tests.documents.test_every_paper import PAPERS\n"
        "for name in sorted(PAPERS):\n"
        "    print(hashlib.sha256(PAPERS[name][0]()).hexdigest())\n"
    )
    import os

    done = subprocess.run(
        [sys.executable, "-c", told],
        check=True,
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONHASHSEED": "4711", "TZ": "Pacific/Auckland"},
    )
    here = [hashlib.sha256(PAPERS[name][0]()).hexdigest() for name in sorted(PAPERS)]
    assert done.stdout.split() == here


@pytest.mark.parametrize("name", ON_SHEETS)
def test_every_sheet_has_code_date_revision_and_page(name: str) -> None:
    """The foot of each page names the sheet, its date, its revision and its page of how many."""
    pages = pdfs.texts(PAPERS[name][0]())
    for number, text in enumerate(pages, start=1):
        assert "-1125" in text
        assert "Tue 25 Nov 2025" in text
        assert "revision 1" in text
        assert f"page {'1 of 1' if name == 'traveller' else f'{number} of {len(pages)}'}" in text


def test_odd_characters_are_printed_or_named() -> None:
    """What the font has is printed, twins stand in, and the rest is named by its code point."""
    odd = "Ø × − ≤ ± Ω µ \u2300 \u2715 a\u2009b 日 \U0001f50c naïve e\u0301 #set *x* $y$ \\n"
    content = replace(sheets.summary(), sentence=odd)
    text = pdfs.texts(render_summary(content))[0]
    for shown in ("Ø × − ≤ ± Ω µ Ø ×", "[U+65E5] [U+1F50C]", "naïve é #set *x* $y$ \\n"):
        assert shown in text


def test_odd_characters_inside_a_drawing_are_treated_alike() -> None:
    """A drawing's text gets the same care, references by number included."""
    svg = sheets.bar_svg(width_mm=160).replace("Ø 6.05", "&#x2300; 6.05 日 &#60;")
    content = replace(sheets.cut_list().reels[0], reel_svg=svg)
    text = pdfs.texts(render_cut_list(sheets.cut_list(content)))[0]
    assert "Ø 6.05 [U+65E5] <" in text


@pytest.mark.parametrize("family", ["Helvetica", "serif", "Nowhere Sans, monospace"])
def test_a_drawing_cannot_bring_another_font(family: str) -> None:
    """A drawing that asks for another font is still set in ours, and its text is not lost."""
    svg = sheets.bar_svg(width_mm=160).replace("Source Sans Pro", family)
    pdf = render_cut_list(sheets.cut_list(replace(sheets.reel("R-1", 1), reel_svg=svg)))
    assert all(name.startswith("SourceSansPro") for name in pdfs.embedded_fonts(pdf))
    assert "Ø 6.05 ± 0.10" in pdfs.texts(pdf)[0]
