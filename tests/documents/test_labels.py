"""Labels: the roll's size, a code that reads, nothing lost that identifies."""

from dataclasses import replace

import pytest

from reelwright.core.errors import BadValue
from reelwright.documents.labels import LabelRoll, render_labels
from reelwright.documents.press import PaperFault
from tests.documents import pdfs, sheets


@pytest.mark.parametrize("dpi", [150, 300])
@pytest.mark.parametrize("size_mm", [(50.0, 25.0), (38.0, 19.0), (75.0, 30.0)])
def test_every_code_reads_its_serial(size_mm: tuple[float, float], dpi: int) -> None:
    """On each label of each roll the code reads the label's serial."""
    content = sheets.labels(width_mm=size_mm[0], height_mm=size_mm[1])
    pdf = render_labels(content)
    for page, label in enumerate(content.labels):
        assert pdfs.codes(pdf, page, dpi=dpi) == [label.serial]


@pytest.mark.parametrize("size_mm", [(50.0, 25.0), (38.0, 19.0), (63.5, 29.6)])
def test_one_label_a_page_at_true_size(size_mm: tuple[float, float]) -> None:
    """As many pages as labels, each the roll's size to a hundredth of a millimetre."""
    content = sheets.labels(width_mm=size_mm[0], height_mm=size_mm[1])
    sizes = pdfs.page_sizes_mm(render_labels(content))
    assert len(sizes) == len(content.labels)
    assert all(size == pytest.approx(size_mm, abs=0.011) for size in sizes)


def test_a_label_says_serial_end_text_and_length() -> None:
    """Serial, end, the order's text and the length stand on the label as text."""
    text = pdfs.texts(render_labels(sheets.labels()))[1]
    for shown in ("O-12-1-01", "B", "Rack 1, input 1", "3.048\u202fm", "10\u202fft"):
        assert shown.replace("\u202f", " ") in text.replace("\u202f", " ")


@pytest.mark.parametrize("size_mm", [(50.0, 25.0), (38.0, 19.0), (75.0, 30.0)])
def test_nothing_runs_off_the_label(size_mm: tuple[float, float]) -> None:
    """The longest length in feet and two lines of text leave a white edge all round."""
    content = sheets.labels(width_mm=size_mm[0], height_mm=size_mm[1])
    label = replace(
        content.labels[0], lines=("A-126/12", "VID-60 GNYE"), feet="1,234\u202fft 10 15/16\u202fin"
    )
    page = pdfs.picture(render_labels(replace(content, labels=(label,))), 0, dpi=300).convert("L")
    width, height = page.size
    edges = [
        *(page.getpixel((x, y)) for x in range(width) for y in (0, 1, height - 2, height - 1)),
        *(page.getpixel((x, y)) for y in range(height) for x in (0, 1, width - 2, width - 1)),
    ]
    assert min(edges) == 255


def test_text_too_long_is_shortened_and_shows_it() -> None:
    """The customer's long text ends in an ellipsis; the serial beside it is whole."""
    text = pdfs.texts(render_labels(sheets.labels()))[2]
    assert "…" in text
    assert "O-12-1-02" in text


def test_text_is_large_enough() -> None:
    """Capitals and figures are 2.5 mm high or more on the ordinary roll."""
    heights = pdfs.digit_heights_mm(render_labels(sheets.labels()), 0, "O-12-1-01")
    assert min(heights) >= 2.5
    assert min(pdfs.digit_heights_mm(render_labels(sheets.labels()), 0, "3.048")) >= 2.4


def test_a_serial_that_does_not_fit_is_refused() -> None:
    """A serial is never shortened: one that no setting fits is an error that names it."""
    content = sheets.labels()
    long = replace(content.labels[0], serial="X" * 60)
    with pytest.raises(PaperFault, match=r"X{60} is too long"):
        render_labels(replace(content, labels=(long,)))


def test_nonsense_is_refused() -> None:
    """A roll too small for a code, and the same end twice, are refused when built."""
    with pytest.raises(BadValue, match="width_mm"):
        LabelRoll(width_mm=12.0, height_mm=25.0)
    content = sheets.labels()
    with pytest.raises(BadValue, match="once"):
        replace(content, labels=content.labels + content.labels[:1])
