"""The press: one template and its content become PDF bytes.

Only our font is offered to Typst (neither the machine's nor the ones it carries), warnings are
errors, and no date is written, so that the same content gives the same bytes on any machine.
"""

import dataclasses
import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from reelwright import style
from reelwright.core.errors import ReelwrightError
from reelwright.documents.glyphs import printable
from reelwright.documents.pictures import read_picture

_FOLDER = Path(__file__).parent


class PaperFault(ReelwrightError):
    """A sheet could not be set: what Typst said about it."""


def print_pdf(template: str, content: Any) -> bytes:
    """Set ``template`` (a path below this folder) with ``content`` and return the PDF.

    ``content`` is a dataclass or a mapping of plain values. A field whose name ends in ``_svg``
    reaches the template as ``{svg, width_mm, height_mm, title}``; every other text is made
    printable. Raises PaperFault when Typst fails or warns.
    """
    import typst

    compiler = _compiler(template)
    inputs = {
        "content": json.dumps(_plain(content), ensure_ascii=False),
        "style": json.dumps(_style(), ensure_ascii=False),
    }
    try:
        pdf, warnings = compiler.compile_with_warnings(format="pdf", sys_inputs=inputs)
    except typst.TypstError as error:
        fault = PaperFault(f"{template}: {error.message}")
        fault.add_note(error.diagnostic)
        raise fault from error
    if warnings:
        raise PaperFault(f"{template}: {'; '.join(warning.message for warning in warnings)}")
    if not isinstance(pdf, bytes):
        raise PaperFault(f"{template}: no single document came out")
    return pdf


@cache
def _fonts() -> Any:
    import typst

    return typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=False,
        font_paths=[str(style.font_folder())],
    )


def _compiler(template: str) -> Any:
    import typst

    return typst.Compiler(
        input=str(_FOLDER / template),
        root=str(_FOLDER),
        font_paths=_fonts(),
        ignore_system_fonts=True,
    )


def _style() -> dict[str, str]:
    return {
        "font": style.FONT_FAMILY,
        "ink": style.INK,
        "graphite": style.GRAPHITE,
        "hairline": style.HAIRLINE,
        "copper": style.COPPER,
        "good": style.GOOD,
        "caution": style.CAUTION,
        "bad": style.BAD,
    }


def _plain(value: Any, name: str = "") -> Any:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {
            field.name: _plain(getattr(value, field.name), field.name)
            for field in dataclasses.fields(value)
        }
    if isinstance(value, Mapping):
        return {key: _plain(item, str(key)) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(item, name) for item in value]
    if isinstance(value, str):
        if name.endswith("_svg"):
            return None if value == "" else dataclasses.asdict(read_picture(value))
        return printable(value)
    if value is None or isinstance(value, bool | int | float):
        return value
    raise TypeError(f"{name} is {value!r}: paper takes text, numbers and drawings")
