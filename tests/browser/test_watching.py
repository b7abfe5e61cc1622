"""The browser of the tests hears what it should, or no other browser test proves anything."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page, Route

POLICY = "default-src 'none'; script-src 'self'"


@pytest.mark.parametrize(
    ("body", "heard"),
    [
        ("<p style='color: red'>cut</p>", "style-src"),
        ("<script>document.title = 'cut'</script>", "script-src"),
        ("<img src='http://elsewhere.invalid/reel.png'>", "img-src"),
        ("<script src='/broken.js'></script>", "no such reel"),
    ],
)
def test_what_a_page_does_wrong_is_heard(
    page: Page, complaints: list[str], body: str, heard: str
) -> None:
    """A style, a script or a picture against the policy and an error of a script are all heard."""

    def answer(route: Route) -> None:
        script = route.request.url.endswith(".js")
        route.fulfill(
            content_type="text/javascript" if script else "text/html",
            headers={"Content-Security-Policy": POLICY},
            body="throw Error('no such reel')" if script else f"<!doctype html>{body}",
        )

    page.route("http://workshop.invalid/**", answer)
    page.goto("http://workshop.invalid/")
    page.wait_for_load_state("networkidle")
    assert heard in "\n".join(complaints)
    complaints.clear()


def test_a_clean_page_is_quiet_and_can_be_pictured(
    page: Page, complaints: list[str], picture: Callable[[Page, str], Path]
) -> None:
    """A page that keeps to the policy causes no complaint, and its picture has the desk's width."""
    page.route(
        "http://workshop.invalid/**",
        lambda route: route.fulfill(
            content_type="text/html",
            headers={"Content-Security-Policy": POLICY},
            body="<!doctype html><title>Reels</title><h1>Reels</h1>",
        ),
    )
    page.goto("http://workshop.invalid/")
    assert page.title() == "Reels"
    assert not complaints
    with Image.open(picture(page, "watching")) as image:
        assert image.width == 1440
