"""A real browser for the pages: Debian's Chromium, watched for every complaint it makes."""

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

PICTURES = Path(__file__).resolve().parents[2] / "build" / "pictures"
DESK = {"width": 1440, "height": 900}
TABLET = {"width": 1180, "height": 820}

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

# A blocked script or style may pass without a word on the console; this event never does.
TELL_VIOLATIONS = """
document.addEventListener('securitypolicyviolation', event =>
    console.error(`policy violated: ${event.violatedDirective} by ${event.blockedURI}`));
"""

# Playwright keeps a loop running in the test's own thread, which Django takes for an async view.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark every test of this folder as one that drives a browser."""
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """The browser, started once; without it the tests are skipped, and fail in CI."""
    program = shutil.which("chromium")
    if program is None:
        told = "Debian's chromium is not installed"
        if os.environ.get("CI") == "true":
            pytest.fail(told)
        pytest.skip(told)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def complaints() -> Iterator[list[str]]:
    """What the browser complained of; a test fails on what is left here at its end."""
    heard: list[str] = []
    yield heard
    assert not heard, "the browser complained:\n" + "\n".join(heard)


@pytest.fixture
def open_page(chromium: Browser, complaints: list[str]) -> Iterator[Callable[..., Page]]:
    """Open a page of a given size in a context of its own: nobody is signed in there yet."""
    contexts: list[BrowserContext] = []

    def opened(size: dict[str, int] = DESK) -> Page:
        context = chromium.new_context(viewport={"width": size["width"], "height": size["height"]})
        contexts.append(context)
        context.set_default_timeout(10_000)
        context.add_init_script(TELL_VIOLATIONS)
        page = context.new_page()
        page.on(
            "console",
            lambda message: complaints.append(message.text) if message.type == "error" else None,
        )
        page.on("pageerror", lambda error: complaints.append(str(error)))
        return page

    yield opened
    for context in contexts:
        context.close()


@pytest.fixture
def page(open_page: Callable[..., Page]) -> Page:
    """A page on the desk."""
    return open_page(DESK)


@pytest.fixture
def tablet(open_page: Callable[..., Page]) -> Page:
    """A page on the tablet at the bench."""
    return open_page(TABLET)


@pytest.fixture
def picture() -> Callable[[Page, str], Path]:
    """Take a picture of a whole page into build/pictures."""

    def take(page: Page, name: str) -> Path:
        PICTURES.mkdir(parents=True, exist_ok=True)
        path = PICTURES / f"{name}.png"
        page.screenshot(path=path, full_page=True)
        return path

    return take
