"""The font files, straight from their package: page, chart and paper show the same type."""

from functools import cache
from pathlib import Path

from django.http import Http404, HttpRequest, HttpResponse

from reelwright.style import FONT_FILES, font_folder


@cache
def _folder() -> Path:
    return font_folder()


def font(request: HttpRequest, name: str) -> HttpResponse:
    """Serve one of our three font files; they never change under their name."""
    del request
    if name not in FONT_FILES:
        raise Http404
    return HttpResponse(
        (_folder() / name).read_bytes(),
        content_type="font/ttf",
        headers={"Cache-Control": "public, max-age=31536000, immutable"},
    )
