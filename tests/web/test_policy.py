"""No page carries a script or a style of its own: the strict policy would block it."""

import re
from pathlib import Path

from django.test import Client

import reelwright.web
from tests.web.addresses import pages
from tests.web.conftest import Taken

WEB = Path(reelwright.web.__path__[0])
SCRIPT = re.compile(r"<script(?![^>]*\ssrc=)", re.IGNORECASE)
STYLE = re.compile(r"<style|\sstyle\s*=|\son[a-z]+\s*=\s*[\"']|javascript:", re.IGNORECASE)
PAST_THE_SERVICES = re.compile(r"\.objects\b|\.save\(|\.delete\(|\.bulk_")


def inline(html: str) -> list[str]:
    """What a page carries inline that the policy forbids."""
    return SCRIPT.findall(html) + STYLE.findall(html)


def test_no_page_carries_script_or_style(lead: Client, taken: Taken) -> None:
    """Every page, drawings and charts included, is clean and sends the policy."""
    for address in (*pages(taken), "/nowhere", "/reels/R-99"):
        answer = lead.get(address)
        if answer.headers["Content-Type"].startswith("text/html"):
            assert not inline(answer.text), address
        policy = answer.headers["Content-Security-Policy"]
        assert "script-src 'self'" in policy
        assert "style-src 'self'" in policy
        assert "unsafe" not in policy


def test_what_is_inline_is_found() -> None:
    """A script, a style, a style attribute, a handler and a script address are all found."""
    for bad in (
        "<script>x</script>",
        "<style>p{}</style>",
        '<p style="color:red">',
        "<p onclick='x'>",
        "<a href='javascript:x'>",
    ):
        assert inline(bad), bad
    assert not inline('<script src="/static/a.js" defer></script><p class="style">on it</p>')


def test_the_pages_read_and_write_through_the_shop_only() -> None:
    """No module of the pages touches a table."""
    for path in WEB.rglob("*.py"):
        assert not PAST_THE_SERVICES.search(path.read_text(encoding="utf-8")), path


def test_every_form_that_writes_carries_its_token() -> None:
    """Each form sent by POST holds the token against forms from elsewhere."""
    forms = 0
    for path in WEB.rglob("*.html"):
        for form in re.findall(r"<form[^>]*method=\"post\".*?</form>", path.read_text(), re.DOTALL):
            forms += 1
            assert "{% csrf_token %}" in form, path
    assert forms >= 10


def test_titles_tell_pages_apart(lead: Client, taken: Taken) -> None:
    """Two different things never share the title of their page."""
    titles = {}
    for address in pages(taken):
        answer = lead.get(address)
        if not answer.headers["Content-Type"].startswith("text/html"):
            continue
        found = re.search(r"<title>(.*?)</title>", answer.text)
        assert found, address
        # Where a search stands, asked for without script, is its own page, waited for.
        place = address.partition("?")[0].removesuffix("/stands")
        titles.setdefault(found[1], []).append(place)
    for title, places in titles.items():
        assert len(set(places)) == 1, (title, places)
