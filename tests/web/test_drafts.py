"""Drafting on a page: the next revision of a set-up, the first one of a pair, every fault told."""

import dataclasses
import html
import re
from collections.abc import Callable
from decimal import Decimal

import pytest
from django.test import Client

from reelwright.core.verdicts import Basis
from reelwright.shop.catalogue import services as catalogue
from reelwright.shop.setups import services
from reelwright.shop.setups.models import Revision, SetUp
from reelwright.shop.setups.overrides import fit_override_record
from reelwright.shop.setups.selectors import chosen_sheet
from reelwright.shop.setups.states import State
from tests.day_world import LIGHT_PLUG, DayWorld
from tests.shop.setups.conftest import COMPLETE, CRIMPED
from tests.small_world import CABLE, CONNECTOR, SHEET, TODAY
from tests.web.test_policy import inline

Sign = Callable[[str], Client]
DRAFT = "/set-ups/S-1/draft"
JACK = dataclasses.replace(CONNECTOR, code="SW-JACK", mating="jack of the small world")
OPEN = f"/grid/{CABLE.code}/{JACK.code}/open"

TYPED = {
    "letter": "B",
    "levels": "2",
    "jacket_back_mm": "22,5",
    "cores_bared_mm": "5.25 mm",
    "cores_bared_tolerance_mm": "0.5",
    "test_adapter": "video",
    "pull_rules": "",
    "minimum_pull_n": "95",
    "minimum_pull_source": "pulled last week",
    "minimum_pull_basis": "own measurement",
    "press_min_per_end": "2,75",
    "remark": "Longer tails.",
    "steps": "Boot on.\r\n\r\n  Solder by the map. \r\n",
    "cautions": "",
}


@pytest.fixture
def jack(day_world: DayWorld) -> str:
    """A connector that goes on the small world's cable and has no set-up yet."""
    catalogue.connector_add(
        by=day_world.ada, connector=JACK, price=Decimal("2.50"), loss_db=0.1, loss_source=SHEET
    )
    return JACK.code


def stands(told: str, key: str) -> str:
    """What stands in a field of the page."""
    found = re.search(rf'id="{key}" name="{key}" value="([^"]*)"', told)
    assert found is not None
    return found[1]


def invalid(told: str) -> set[str]:
    """The fields that are marked as wrong."""
    return {
        key
        for tag in re.findall(r"<(?:input|select|textarea)[^>]*aria-invalid[^>]*>", told)
        for key in re.findall(r' name="([^"]+)"', tag)
    }


def test_the_form_begins_with_the_revision_that_is_shown(lead: Client) -> None:
    """The next letter is shown; every number of rev A stands in its field; nothing is inline."""
    told = lead.get(f"{DRAFT}?rev=A").text
    assert "Draft S-1 rev B" in told
    assert stands(told, "jacket_back_mm") == "20.00"
    assert stands(told, "minimum_pull_n") == "90"
    assert stands(told, "press_min_per_end") == "3.00"
    assert "Slide the boot on.\nSolder by the map." in told
    assert 'id="pin_die_mm"' not in told
    assert not invalid(told)
    assert inline(told) == []
    assert f'href="{DRAFT}?rev=A"' in lead.get("/set-ups/S-1").text


def test_what_is_typed_becomes_the_next_revision(lead: Client) -> None:
    """Decimals after a comma or a point, lines as steps; the new page shows what is missing."""
    answer = lead.post(DRAFT, TYPED | {"test_adapter": ""}, follow=True)
    assert answer.redirect_chain == [("/set-ups/S-1?rev=B", 302)]
    assert "Missing: the test adapter." in answer.text
    _, sheet = chosen_sheet("S-1", "B")
    numbers = sheet.numbers
    assert sheet.state is State.DRAFTED
    assert numbers.jacket_back_mm == Decimal("22.5")
    assert numbers.cores_bared_mm == Decimal("5.25")
    assert numbers.press_min_per_end == Decimal("2.75")
    assert numbers.steps == ("Boot on.", "Solder by the map.")
    assert numbers.minimum_pull_source is not None
    assert numbers.minimum_pull_source.basis is Basis.OWN_SHOP
    assert chosen_sheet("S-1", "A")[1].state is State.RELEASED


def test_sent_as_it_came_the_form_repeats_its_revision(lead: Client) -> None:
    """Nothing is lost or rounded between a sheet, its form and the sheet drafted from it."""
    told = lead.get(DRAFT).text
    cells = dict(re.findall(r'name="([a-z_]+)" value="([^"]*)"', told))
    cells |= {
        name: re.sub(r"^\n", "", text)
        for name, text in re.findall(
            r'<textarea id="[a-z_]+" name="([a-z_]+)"[^>]*>(.*?)</textarea>', told, re.DOTALL
        )
    }
    for name, options in re.findall(r'<select id="\w+" name="(\w+)"[^>]*>(.*?)</select>', told):
        chosen = re.search(r'value="([^"]*)" selected', options)
        assert chosen is not None
        cells[name] = chosen[1]
    sent = {name: html.unescape(text) for name, text in cells.items()}
    assert lead.post(DRAFT, sent).status_code == 302
    assert chosen_sheet("S-1", "B")[1].numbers == chosen_sheet("S-1", "A")[1].numbers


def test_every_fault_is_told_at_once_at_its_field(lead: Client) -> None:
    """422; each field is marked; what was typed stands there again; nothing is drafted."""
    wrong = {
        "levels": "5",
        "jacket_back_mm": "long",
        "cores_bared_mm": "-1",
        "cores_bared_tolerance_mm": "0.0005",
        "press_min_per_end": "",
        "pull_rules": "IEC 60352-2",
        "minimum_pull_n": "59",
        "minimum_pull_basis": "hearsay",
        "remark": "x" * 301,
        "steps": "y" * 301,
    }
    answer = lead.post(DRAFT, TYPED | wrong)
    assert answer.status_code == 422
    told = answer.text
    # The least pull wants its source before it can be held against a rule set.
    assert invalid(told) == set(wrong) - {"pull_rules", "minimum_pull_n"}
    assert "“long” is not a number." in told
    assert stands(told, "jacket_back_mm") == "long"
    assert stands(told, "remark") == "x" * 301
    assert "y" * 301 in told
    assert Revision.objects.count() == 1


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        ({"pull_rules": "IEC 60352-2", "minimum_pull_n": "59"}, "minimum_pull_n", "60\u202fN"),
        ({"pull_rules": "commercial"}, "pull_rules", "no row for"),
        ({"pull_rules": "NASA-STD-8739.4"}, "pull_rules", "solid"),
        ({"pull_rules": "of old"}, "pull_rules", "not in the list"),
        ({"solid_wire_waiver": "Ada"}, "solid_wire_waiver", "bars nothing"),
        ({"minimum_pull_source": ""}, "minimum_pull_source", "where it comes from"),
        ({"minimum_pull_basis": ""}, "minimum_pull_basis", "Nothing is chosen"),
        ({"minimum_pull_n": ""}, "minimum_pull_source", "not given"),
        ({"jacket_back_mm": "1,250"}, "jacket_back_mm", "one way only"),
        ({"test_adapter": "a\tb"}, "test_adapter", "cannot be printed"),
        ({"cautions": "Mind.\n" * 41}, "cautions", "41 lines"),
    ],
)
def test_each_fault_alone_is_told_at_its_field(
    lead: Client, typed: dict[str, str], field: str, words: str
) -> None:
    """One thing wrong marks one field, in words that say what."""
    answer = lead.post(DRAFT, TYPED | typed)
    assert answer.status_code == 422
    assert invalid(answer.text) == {field}
    (fault,) = re.findall(rf'id="{field}-fault">([^<]*)<', answer.text)
    assert words in fault
    assert Revision.objects.count() == 1


def test_a_pull_under_its_rules_is_told_with_what_else_is_wrong(lead: Client) -> None:
    """The rule set is asked together with the rest, not after it."""
    rules = {"pull_rules": "IEC 60352-2", "minimum_pull_n": "59", "levels": "many"}
    assert invalid(lead.post(DRAFT, TYPED | rules).text) == {"levels", "minimum_pull_n"}


def test_a_rule_set_brings_its_own_source(lead: Client) -> None:
    """Where no source is typed, the least pull keeps that of the rule set chosen."""
    typed = {
        "pull_rules": "IEC 60352-2",
        "minimum_pull_source": "",
        "minimum_pull_basis": "",
    }
    assert lead.post(DRAFT, TYPED | typed).status_code == 302
    source = chosen_sheet("S-1", "B")[1].numbers.minimum_pull_source
    assert source is not None
    assert "60352-2" in source.text


def test_who_was_slower_is_told_and_loses_nothing(day_world: DayWorld, lead: Client) -> None:
    """Rev B came meanwhile: the form stays as typed and is for rev C now."""
    services.revision_draft(
        by=day_world.ben, set_up_code="S-1", letter="B", numbers=COMPLETE, on=TODAY
    )
    answer = lead.post(DRAFT, TYPED)
    assert answer.status_code == 422
    assert "Somebody was quicker" in answer.text
    assert 'name="letter" value="C"' in answer.text
    assert stands(answer.text, "jacket_back_mm") == "22,5"
    assert lead.post(DRAFT, TYPED | {"letter": "C"}).status_code == 302


def test_what_another_kind_of_end_has_is_kept_where_it_is_filled_in(
    day_world: DayWorld, lead: Client
) -> None:
    """A soldered set-up that names a die shows it, so that drafting on does not lose it."""
    services.revision_draft(
        by=day_world.ben, set_up_code="S-1", letter="B", numbers=CRIMPED, on=TODAY
    )
    assert stands(lead.get(DRAFT).text, "pin_die_mm") == "1.60"


def test_differences_from_what_is_proposed_are_marked(lead: Client) -> None:
    """Conductor, dielectric and braid must show: two levels are marked, three are not."""
    told = lead.get(DRAFT).text
    assert "3 layers must show: conductor, dielectric, braid." in told
    assert told.count("Differs.") == 1
    assert "1 number differs from what is proposed" in told
    told = lead.post(DRAFT, TYPED | {"levels": "3", "jacket_back_mm": "long"}).text
    assert "3 layers must show" in told
    assert "Differs." not in told


def test_a_revision_or_a_set_up_that_is_not_there_is_told(lead: Client) -> None:
    """404, and nothing to fill in."""
    for address in (f"{DRAFT}?rev=Q", "/set-ups/S-9/draft", f"/grid/{CABLE.code}/NONE/open"):
        assert lead.get(address).status_code == 404


def test_after_z_no_letter_is_left(day_world: DayWorld, lead: Client) -> None:
    """It is said, with 409, instead of a form that cannot be sent."""
    services.revision_draft(
        by=day_world.ben, set_up_code="S-1", letter="Z", numbers=COMPLETE, on=TODAY
    )
    answer = lead.get(DRAFT)
    assert (answer.status_code, "no letter is left" in answer.text) == (409, True)


def test_a_pair_is_opened_from_its_page(lead: Client, jack: str) -> None:
    """The button leads to a form with the next free code; sent, set-up and rev A are there."""
    assert f'href="{OPEN}"' in lead.get(f"/grid/{CABLE.code}/{jack}").text
    told = lead.get(OPEN).text
    assert stands(told, "code") == "S-2"
    assert stands(told, "jacket_back_mm") == ""
    assert "Needed before its trial." in told
    assert inline(told) == []
    answer = lead.post(OPEN, TYPED | {"code": "S-2"}, follow=True)
    assert answer.redirect_chain == [("/set-ups/S-2", 302)]
    assert chosen_sheet("S-2")[1].name == "S-2 rev A"
    assert f'href="{OPEN}"' not in lead.get(f"/grid/{CABLE.code}/{jack}").text
    assert lead.get(OPEN).headers["Location"] == "/set-ups/S-2/draft"
    assert invalid(lead.post(OPEN, TYPED | {"code": "S-3"}).text) == {"code"}


@pytest.mark.parametrize("code", ["S-1", "s 2", ""])
def test_a_bad_code_is_told_with_the_other_faults(lead: Client, jack: str, code: str) -> None:
    """Code and numbers are marked together, and neither set-up nor revision is made."""
    answer = lead.post(OPEN, TYPED | {"code": code, "levels": "0"})
    assert answer.status_code == 422
    assert invalid(answer.text) == {"code", "levels"}
    assert SetUp.objects.count() == 1


def test_an_impossible_pair_offers_no_form_before_a_lead_says_so(
    day_world: DayWorld, lead: Client
) -> None:
    """Neither button nor form; with a lead's word both, and the reason stands on the form."""
    pair = f"/grid/{CABLE.code}/{LIGHT_PLUG.code}"
    assert f"{pair}/open" not in lead.get(pair).text
    answer = lead.get(f"{pair}/open")
    assert (answer.status_code, "Impossible" in answer.text) == (409, True)
    assert lead.post(f"{pair}/open", TYPED | {"code": "S-2"}).status_code == 409
    fit_override_record(
        by=day_world.ada,
        cable_code=CABLE.code,
        connector_code=LIGHT_PLUG.code,
        answer="possible",
        reason="three tried by hand",
        on=TODAY,
    )
    assert f"{pair}/open" in lead.get(pair).text
    told = lead.get(f"{pair}/open").text
    assert "Ada says that it is possible: Three tried by hand." in told
    assert lead.post(f"{pair}/open", TYPED | {"code": "S-2"}).status_code == 302


@pytest.mark.parametrize("name", ["olga", "vic"])
def test_who_may_not_draft_sees_no_button_and_is_refused(
    signed_in: Sign, jack: str, name: str
) -> None:
    """Office and viewer: no button on either page, 403 for form and sending, nothing made."""
    client = signed_in(name)
    assert "/draft" not in client.get("/set-ups/S-1").text
    assert "/open" not in client.get(f"/grid/{CABLE.code}/{jack}").text
    for address in (DRAFT, OPEN):
        assert client.get(address).status_code == 403
        assert client.post(address, TYPED | {"code": "S-2"}).status_code == 403
    assert (SetUp.objects.count(), Revision.objects.count()) == (1, 1)


def test_the_bench_may_draft_as_it_may_take_to_trial(signed_in: Sign) -> None:
    """Drafting is the bench's too, by the one table of who may do what; releasing is not."""
    assert signed_in("ben").post(DRAFT, TYPED).status_code == 302


def test_a_withdrawn_set_up_is_drafted_on_from_its_pair(day_world: DayWorld, lead: Client) -> None:
    """Its only revision is withdrawn: the pair leads to its next revision, and opens no second."""
    services.revision_withdraw(
        by=day_world.ada,
        revision_id=chosen_sheet("S-1")[1].revision_id,
        on=TODAY,
        reason="The connector changed.",
    )
    told = lead.get(f"/grid/{CABLE.code}/{CONNECTOR.code}").text
    assert "Draft the next revision of S-1" in told
    assert "Open a set-up" not in told


USUAL = (
    "order_thread_boot",
    "order_thread_shell_and_clamp",
    "order_strip",
    "order_tin",
    "order_solder",
    "order_clamp",
    "order_boot_home",
)
NUMBERED = {key: str(number) for number, key in enumerate(USUAL, start=1)}


def test_the_order_begins_as_it_is_worked_out_and_unchanged_lays_nothing_down(lead: Client) -> None:
    """Every operation has its number and its reason; sent as it came, no order is kept."""
    told = lead.get(DRAFT).text
    assert {key: stands(told, key) for key in USUAL} == NUMBERED
    assert "Solder wets bare metal only." in told
    assert lead.post(DRAFT, TYPED | NUMBERED).status_code == 302
    assert chosen_sheet("S-1", "B")[1].numbers.order == ()


def test_a_step_is_moved_by_its_number_and_the_order_is_shown(lead: Client) -> None:
    """3.5 for the boot: strip, then boot; kept with rev B, told with what to mind, begun from."""
    moved = {"order_thread_boot": "3,5"}
    answer = lead.post(DRAFT, TYPED | NUMBERED | moved, follow=True)
    assert answer.redirect_chain == [("/set-ups/S-1?rev=B", 302)]
    kept = chosen_sheet("S-1", "B")[1].numbers.order
    assert kept[:3] == ("thread shell and clamp", "strip", "thread boot")
    assert "in the order that rev B lays down" in answer.text
    assert "a bared braid frays" in answer.text
    assert "lays down" not in lead.get("/set-ups/S-1?rev=A").text
    told = lead.get(DRAFT).text
    assert "Laid down by S-1 rev B." in told
    assert stands(told, "order_thread_boot") == "3"
    again = NUMBERED | {"letter": "C"}
    assert lead.post(DRAFT, TYPED | again | {"steps": "As ever."}).status_code == 302
    assert chosen_sheet("S-1", "C")[1].numbers.order == ()


def test_an_order_that_cannot_be_is_refused_at_its_step_with_the_other_faults(lead: Client) -> None:
    """The boot after the solder: told where it bars the way, beside a bad number elsewhere."""
    answer = lead.post(
        DRAFT, TYPED | NUMBERED | {"order_thread_boot": "5.5", "jacket_back_mm": "long"}
    )
    assert answer.status_code == 422
    assert invalid(answer.text) == {"order_solder", "jacket_back_mm"}
    fault = answer.text.split('id="order_solder-fault">')[1].split("</td>")[0]
    assert "Boot onto the cable comes first" in html.unescape(fault)
    assert stands(answer.text, "order_thread_boot") == "5.5"
    assert answer.text.index('id="order_solder"') < answer.text.index('id="order_thread_boot"')
    assert Revision.objects.count() == 1


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        ({"order_strip": "first"}, "order_strip", "“first” is no place in an order"),
        ({"order_strip": ""}, "order_strip", "Nothing stands here"),
        ({"order_strip": "0"}, "order_strip", "no place in an order"),
        ({"order_tin": "3"}, "order_tin", "3 stands already at: "),
        ({"order_tin": "100"}, "order_tin", "at most 99"),
    ],
)
def test_a_number_that_is_no_place_is_told_at_its_step(
    lead: Client, typed: dict[str, str], field: str, words: str
) -> None:
    """Words, nothing, nought, a number twice: one field is marked, and nothing is drafted."""
    answer = lead.post(DRAFT, TYPED | NUMBERED | typed)
    assert answer.status_code == 422
    assert invalid(answer.text) == {field}
    assert words in html.unescape(answer.text)
    assert Revision.objects.count() == 1


def test_own_words_left_in_the_order_before_are_told(lead: Client) -> None:
    """The order is changed and the shop's words are not: a fault at them; empty, they may stay."""
    stale = {"order_thread_boot": "3.5", "steps": "Slide the boot on.\nSolder by the map."}
    answer = lead.post(DRAFT, TYPED | NUMBERED | stale)
    assert (answer.status_code, invalid(answer.text)) == (422, {"steps"})
    assert lead.post(DRAFT, TYPED | NUMBERED | stale | {"steps": ""}).status_code == 302
    told = lead.get("/set-ups/S-1?rev=B").text
    assert "An order that rev B lays down" in told
    assert "Missing: the steps of the assembly." not in told
