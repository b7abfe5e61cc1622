"""The walk of a day through the pages in a real browser, and what axe says of each page."""

from collections.abc import Callable

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from reelwright.shop.day.services import day_run
from reelwright.shop.people.services import person_set_password
from reelwright.shop.reels.selectors import reel_now
from reelwright.shop.trials.services import search_begin
from reelwright.shop.trials.states import Process
from reelwright.shop.work.selectors import newest_cut_plan, pieces_of_plan
from tests.day_world import DayWorld, build_day_world, good_row, order_file
from tests.shop.trials.conftest import text
from tests.small_world import CABLE, CONNECTOR, TODAY
from tests.web.addresses import is_file, pages
from tests.web.conftest import Taken

PASSWORD = "a long enough secret"
PHONE = {"width": 400, "height": 800}
LAPTOP = {"width": 1280, "height": 900}
SMALL_TABLET = {"width": 1024, "height": 768}
# WCAG 2.2 A and AA, and what axe counts as good practice.
RULES = {
    "resultTypes": ["violations"],
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
}


@pytest.fixture
def workshop(live_server: LiveServer) -> DayWorld:
    """The day world behind a real server, with passwords."""
    del live_server
    world = build_day_world()
    for person in (world.ada, world.ben):
        person_set_password(by=world.ada, person=person, password=PASSWORD)
    return world


def sign_in(page: Page, server: LiveServer, name: str) -> None:
    """Sign in as a person does."""
    page.goto(f"{server.url}/sign-in")
    page.get_by_label("Name to sign in").fill(name)
    page.get_by_label("Password").fill(PASSWORD)
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Sign out")).to_be_visible()


def bar_width(page: Page) -> float:
    """How far the cable reaches on the bar of the page, in the drawing's own pixels."""
    return float(
        page.locator(".drawing.bar svg").first.evaluate(
            """svg => Math.max(...[...svg.querySelectorAll('rect[height="34"]')].map(
                r => +r.getAttribute('x') + +r.getAttribute('width')))"""
        )
    )


def test_from_signing_in_to_a_shorter_reel(
    live_server: LiveServer,
    workshop: DayWorld,
    page: Page,
    picture: Callable[[Page, str], object],
) -> None:
    """Sign in, ask, take the order, plan, confirm a cut by scanning, and see the reel shrink."""
    # The first chart of a process loads the plotting library: seconds, on a busy machine.
    page.set_default_timeout(40_000)
    sign_in(page, live_server, "ada")
    expect(page.get_by_role("heading", level=1)).to_have_text("No orders are in yet")

    page.get_by_role("navigation", name="Pages").get_by_role("link", name="Ask").click()
    page.get_by_label("Length").press_sequentially("10 ft")
    expect(page.locator("#length-reads")).to_contain_text("3.048")
    page.get_by_label("Signal").fill("serial video 1.485 Gb/s")
    page.get_by_label("Cable", exact=True).fill("SW-60")
    page.get_by_label("End A").fill("SW-PLUG")
    page.get_by_label("End B").fill("SW-PLUG")
    page.get_by_role("button", name="Judge the run").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("works, with")
    expect(page.locator(".drawing.margin svg")).to_be_visible()
    picture(page, "ask")

    page.get_by_label("Order number").fill("W-1")
    page.get_by_label("Customer", exact=True).fill("Nell Farrow")
    page.get_by_label("How many").fill("2")
    page.get_by_role("button", name="Take the order").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Accepted: works")
    picture(page, "order-line")

    page.get_by_role("navigation", name="Pages").get_by_role("link", name="Cut list").click()
    page.get_by_role("button", name="Plan the cuts again").click()
    expect(page.locator("main")).to_contain_text("plan 2 of the day")
    expect(page.get_by_role("heading", level=1)).to_contain_text("2 pieces")

    page.get_by_role("link", name="Cut 2 pieces off").click()
    before = bar_width(page)
    plan = newest_cut_plan(on=TODAY)
    assert plan is not None
    first = min(pieces_of_plan(plan.id), key=lambda piece: piece.sequence or 0)
    assert first.reel is not None
    length_mm = reel_now(first.reel).length_mm
    picture(page, "bench")
    # The scanner types into the field that already has the focus, and ends with Enter.
    page.keyboard.type(first.serial)
    page.keyboard.press("Enter")
    expect(page.get_by_role("status")).to_contain_text(f"{first.code} is booked as cut.")
    assert bar_width(page) < before
    assert reel_now(first.reel).length_mm == length_mm - first.cut_length_mm
    # Nothing was loaded anew, and the field waits for the next scan.
    expect(page.locator("#scan")).to_be_focused()

    page.get_by_role("button", name=f"Take back {first.code}").click()
    expect(page.get_by_role("status")).to_contain_text("is taken back")
    assert bar_width(page) == before
    assert reel_now(first.reel).length_mm == length_mm


def test_a_wrong_scan_is_told_large_and_books_nothing(
    live_server: LiveServer, workshop: DayWorld, tablet: Page
) -> None:
    """On the tablet the second piece scanned first is refused in words of 30 pixels."""
    day_run(by=workshop.olga, name="o.csv", content=order_file(good_row()), on=TODAY)
    sign_in(tablet, live_server, "ben")
    tablet.goto(f"{live_server.url}/bench/cut/R-1")
    tablet.keyboard.type("W-1-2")
    tablet.keyboard.press("Enter")
    alert = tablet.get_by_role("alert")
    expect(alert).to_contain_text("W-1-1 comes off reel R-1 first, then W-1-2.")
    assert alert.evaluate("node => getComputedStyle(node).fontSize") == "30px"
    wheel = tablet.locator(".wheel")
    assert wheel.evaluate("node => getComputedStyle(node).fontSize") == "92px"
    assert reel_now("R-1").length_mm == 100_000


def test_a_cut_is_booked_without_any_script(
    live_server: LiveServer, workshop: DayWorld, chromium: object
) -> None:
    """With scripts switched off the forms still sign in, book, refuse and take back."""
    day_run(by=workshop.olga, name="o.csv", content=order_file(good_row()), on=TODAY)
    context = chromium.new_context(java_script_enabled=False)  # type: ignore[attr-defined]
    page = context.new_page()
    sign_in(page, live_server, "ben")
    page.goto(f"{live_server.url}/bench/cut/R-1")
    page.get_by_role("button", name="Book the cut of W-1-1").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Next piece W-1-2")
    assert reel_now("R-1").length_mm < 100_000
    page.get_by_role("button", name="Take back W-1-1").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Next piece W-1-1")
    assert reel_now("R-1").length_mm == 100_000
    context.close()


def test_the_keyboard_reaches_the_page_first_and_the_focus_is_seen(
    live_server: LiveServer, workshop: DayWorld, page: Page
) -> None:
    """The first Tab offers the way past the strip, Enter takes it, and the focus has an outline."""
    sign_in(page, live_server, "ada")
    page.goto(f"{live_server.url}/reels")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="To the page")).to_be_focused()
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineWidth")
    assert outline == "3px"
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    expect(page.get_by_label("Cable", exact=True)).to_be_focused()
    page.get_by_role("searchbox").fill("R-1")
    page.keyboard.press("Enter")
    expect(page).to_have_url(f"{live_server.url}/reels/R-1")


@pytest.mark.parametrize("size", [LAPTOP, SMALL_TABLET, PHONE], ids=["laptop", "tablet", "phone"])
def test_every_page_is_open_to_everybody_at_every_size(
    live_server: LiveServer,
    workshop: DayWorld,
    open_page: Callable[..., Page],
    complaints: list[str],
    size: dict[str, int],
) -> None:
    """Axe finds nothing against WCAG 2.2 AA, and no page is wider than its window."""
    rows = order_file(
        good_row(),
        good_row(order="W-2", colour="red", typed="two leads, red"),
        good_row(order="W-3", length="900 m", typed="900 m"),
    )
    run = day_run(by=workshop.olga, name="o.csv", content=rows, on=TODAY)
    plan = newest_cut_plan(on=TODAY)
    assert plan is not None
    piece = pieces_of_plan(plan.id)[0]
    assert piece.reel is not None
    taken = Taken(
        line_id=piece.line_id,
        run_id=run.run_id,
        reel=piece.reel,
        pieces=(piece.code,),
        window=search_begin(
            by=workshop.ben,
            text=text(),
            process=Process.WELD,
            cable_code=CABLE.code,
            connector_code=CONNECTOR.code,
            on=TODAY,
        ),
    )
    page, axe = open_page(size), Axe()
    page.goto(f"{live_server.url}/sign-in")
    found = {"/sign-in": axe.run(page, options=RULES)}
    sign_in(page, live_server, "ada")
    others = [f"/orders/{view + taken.line_id}" for view in (1, 2)]
    shown = [address for address in pages(taken) if not is_file(address)]
    for address in (*shown, *others, "/nowhere"):
        page.goto(f"{live_server.url}{address}")
        found[address] = axe.run(page, options=RULES)
        over = page.evaluate(
            "document.documentElement.scrollWidth - document.documentElement.clientWidth"
        )
        assert over == 0, f"{address} is {over} px too wide at {size['width']}"
    told = [
        f"{size['width']} px, {address}: {violation['id']}: {violation['nodes'][0]['html'][:160]}"
        for address, result in found.items()
        for violation in result.response["violations"]
    ]
    assert not told, "\n".join(told)
    # The page that is not there is told as an error by the browser too, rightly.
    complaints[:] = [words for words in complaints if "404" not in words]


def test_what_axe_would_find_is_found(page: Page) -> None:
    """A field without a label and grey words too faint are both told."""
    page.set_content(
        "<!doctype html><html lang='en'><title>t</title><main><h1>t</h1><input>"
        "<p><font color='#bbbbbb'>faint</font></p></main></html>"
    )
    found = {each["id"] for each in Axe().run(page, options=RULES).response["violations"]}
    assert {"label", "color-contrast"} <= found
