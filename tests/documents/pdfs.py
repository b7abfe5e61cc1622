"""What a finished PDF says of itself: sizes, fonts, text, pictures, codes."""

import re
from collections.abc import Iterator
from contextlib import contextmanager

import pypdfium2
import zxingcpp
from PIL import Image

MM_PER_POINT = 25.4 / 72


@contextmanager
def opened(pdf: bytes) -> Iterator[pypdfium2.PdfDocument]:
    """The document, closed again afterwards."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        yield document
    finally:
        document.close()


def page_sizes_mm(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of every page in mm, to a hundredth."""
    with opened(pdf) as document:
        sizes = [document.get_page_size(n) for n in range(len(document))]
    return [(round(w * MM_PER_POINT, 2), round(h * MM_PER_POINT, 2)) for w, h in sizes]


def texts(pdf: bytes) -> list[str]:
    """The text of every page, its lines joined by blanks."""
    found = []
    with opened(pdf) as document:
        for page in document:
            words = page.get_textpage()
            found.append(re.sub(r"\s+", " ", words.get_text_range()))
            words.close()
            page.close()
    return found


def broken(pdf: bytes, words: tuple[str, ...]) -> list[str]:
    """Those of the words that stand whole on no line of the document."""
    with opened(pdf) as document:
        lines = []
        for page in document:
            found = page.get_textpage()
            lines += found.get_text_range().splitlines()
            found.close()
            page.close()
    return [word for word in words if not any(word in line for line in lines)]


def embedded_fonts(pdf: bytes) -> set[str]:
    """Names of the fonts in the file, without their subset tags."""
    names = re.findall(rb"/BaseFont\s*/(?:[A-Z]{6}\+)?([^\s/<>\[\]()]+)", pdf)
    return {name.decode() for name in names}


def picture(pdf: bytes, page: int, *, dpi: int) -> Image.Image:
    """One page as it looks at ``dpi``."""
    with opened(pdf) as document:
        sheet = document[page]
        image = sheet.render(scale=dpi / 72).to_pil().convert("RGB")
        sheet.close()
    return image


def codes(pdf: bytes, page: int, *, dpi: int) -> list[str]:
    """What a reader finds on the printed page."""
    return [found.text for found in zxingcpp.read_barcodes(picture(pdf, page, dpi=dpi))]


def coloured_width_mm(pdf: bytes, page: int, colour: tuple[int, int, int]) -> float:
    """How wide the part of this exact colour is, measured at 600 dpi; it is 3 mm high or more."""
    dpi = 600
    image = picture(pdf, page, dpi=dpi)
    pixels = image.load()
    columns = [
        x
        for x in range(image.width)
        if any(pixels[x, y] == colour for y in range(0, image.height, 60))
    ]
    return (max(columns) - min(columns) + 1) * 25.4 / dpi


def digit_heights_mm(pdf: bytes, page: int, written: str) -> list[float]:
    """Printed heights in mm of the figures of the first place that says ``written``."""
    with opened(pdf) as document:
        sheet = document[page]
        words = sheet.get_textpage()
        whole = words.get_text_range()
        start = whole.index(written)
        heights = []
        for place, letter in enumerate(written):
            if letter.isdigit():
                _, bottom, _, top = words.get_charbox(start + place)
                heights.append((top - bottom) * MM_PER_POINT)
        words.close()
        sheet.close()
    return heights
