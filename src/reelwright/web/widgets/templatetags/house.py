"""How the house writes lengths, days, outcomes and drawings on a page."""

import datetime as dt
import re
from collections.abc import Iterable

from django import template
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString, mark_safe

from reelwright.core.errors import UnknownCode
from reelwright.core.quantities.show import (
    show_chance,
    show_digits,
    show_feet_inches,
    show_length_m,
)
from reelwright.core.quantities.show_office import show_date, show_date_short
from reelwright.shop.work.selectors import PieceView
from reelwright.style import jacket_colour

register = template.Library()

# Shapes, since the font has neither tick nor cross; their colour is the text's.
_SHAPES = {
    "good": "M3 8.5 6.5 12 13 4.5",
    "bad": "M4 4 12 12 M12 4 4 12",
    "caution": "M8 2 15 14 1 14 Z M8 6 8 10 M8 11.6 8 12.4",
    "not computed": "M5.5 6a2.5 2.5 0 1 1 3.4 2.3c-.6.3-.9.7-.9 1.5 M8 11.6 8 12.4",
}
_MEANS = {
    "accepted": "good",
    "held": "caution",
    "refused": "bad",
    "released": "good",
    "proven": "good",
    "on trial": "caution",
    "drafted": "caution",
    "withdrawn": "bad",
}
_SENTENCES = re.compile(r"(?<=[.?!]) (?=[A-Z])")
_CODE = re.compile(r"\b([A-Z][A-Z0-9]*(?:-[A-Z0-9]+)+)\b")
_ARIA = re.compile(r"<title>(.*?)</title>", re.DOTALL)


@register.filter
def outcome(state: str) -> str:
    """Return the outcome that a state or an outcome is shown as: good, caution, bad, unknown."""
    found = _MEANS.get(state, state)
    return "unknown" if found == "not computed" else found


@register.simple_tag
def mark(state: str, hidden: bool = False) -> SafeString:
    """Return the tick, triangle, cross or question of a state; ``hidden`` beside words that say it.

    Nothing is said by colour alone, and a reader of the page hears the word.
    """
    shape = _SHAPES.get(_MEANS.get(state, state), _SHAPES["not computed"])
    label = (
        mark_safe('aria-hidden="true"')
        if hidden
        else format_html('role="img" aria-label="{}"', state)
    )
    return format_html(
        '<svg class="mark {}" viewBox="0 0 16 16" {}><path d="{}" fill="none" '
        'stroke="currentColor" stroke-width="2"/></svg>',
        outcome(state),
        label,
        shape,
    )


@register.simple_tag
def drawing(svg: str, kind: str = "") -> SafeString:
    """Return a drawing of ours in a frame that scrolls by itself where the page is narrow.

    The text comes from our own drawing modules, which escape what they are given.
    """
    found = _ARIA.search(svg)
    title = found[1] if found else "drawing"
    return format_html(
        '<div class="drawing {}" role="group" aria-label="{}" tabindex="0">{}</div>',
        kind,
        mark_safe(title),
        mark_safe(svg),
    )


@register.simple_tag
def jacket(letters: str) -> SafeString:
    """Return a jacket colour: its swatch, its IEC 60757 letters, its name."""
    try:
        colour = jacket_colour(letters)
    except UnknownCode:
        return format_html("{}", letters)
    return format_html(
        '<span class="jacket"><svg class="swatch" viewBox="0 0 16 16" aria-hidden="true">'
        '<rect x="1" y="1" width="14" height="14" fill="{}" stroke="{}"/></svg>'
        "<b>{}</b> {}</span>",
        colour.fill,
        colour.edge,
        colour.letters,
        colour.name,
    )


@register.filter
def metres(length_mm: float) -> str:
    """Return millimetres as metres to the millimetre."""
    return show_length_m(length_mm / 1000)


@register.filter
def metres_short(length_mm: float) -> str:
    """Return millimetres as metres to the centimetre."""
    return show_length_m(length_mm / 1000, decimals=2)


@register.filter
def feet(length_mm: float) -> str:
    """Return millimetres as feet and inches."""
    return show_feet_inches(length_mm / 1000)


@register.filter
def long_day(day: dt.date) -> str:
    """Return a day that cannot be misread."""
    return show_date(day)


@register.filter
def short_day(day: dt.date) -> str:
    """Return a day for tables."""
    return show_date_short(day)


@register.filter
def strip_day(day: dt.date) -> str:
    """Return a day as the strip shows it: Tue 24 Nov."""
    return f"{day:%a} {day.day} {day:%b}"


@register.filter
def capital(text: str) -> str:
    """Return text with a capital in front and the rest as it is."""
    return text[:1].upper() + text[1:]


@register.filter
def signed_metres(change_mm: int) -> str:
    """Return a change in metres with its sign."""
    shown = show_length_m(change_mm / 1000)
    return shown if change_mm < 0 else f"+{shown}"


@register.filter
def millimetres(length_m: float) -> str:
    """Return metres as millimetres with one decimal, without the unit."""
    return f"{length_m * 1000:.1f}"


@register.filter
def three_digits(value: float) -> str:
    """Return a number of any unit to three digits, with a real minus."""
    return show_digits(value)


@register.filter
def in_percent(chance: float) -> str:
    """Return a chance in whole percent, never sure where it is not."""
    return show_chance(chance)


@register.filter
def first_sentence(text: str) -> str:
    """Return the first sentence of a text: what is read from afar."""
    return _SENTENCES.split(text, maxsplit=1)[0]


@register.filter
def other_sentences(text: str) -> str:
    """Return what follows the first sentence, or nothing."""
    parts = _SENTENCES.split(text, maxsplit=1)
    return parts[1] if len(parts) > 1 else ""


@register.filter
def still_to_cut(pieces: Iterable[PieceView]) -> list[PieceView]:
    """Return the pieces that are not cut yet, in their order."""
    return [piece for piece in pieces if not piece.is_cut]


@register.filter
def already_cut(pieces: Iterable[PieceView]) -> list[PieceView]:
    """Return the pieces that are cut."""
    return [piece for piece in pieces if piece.is_cut]


@register.filter
def whole_codes(text: str) -> SafeString:
    """Return text in which no code (VID-60, O-12-3) is broken at the end of a row."""
    parts = _CODE.split(text)
    return format_html_join(
        "",
        "{}",
        (
            (format_html('<span class="whole">{}</span>', part) if place % 2 else part,)
            for place, part in enumerate(parts)
        ),
    )
