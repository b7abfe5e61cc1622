"""The pages of dies and presses: entered, gauged, laid to rest, put back and changed by forms."""

from collections.abc import Callable

import pytest
from django.test import Client

from reelwright.shop.tools.gauging import cavity_values, gaugings_of
from reelwright.shop.tools.machines import press_changes, press_now, presses_now
from reelwright.shop.tools.models import Press
from reelwright.shop.tools.resting import cavity_moves
from reelwright.shop.tools.selectors import cavities
from tests.day_world import DayWorld
from tests.small_world import TODAY

Sign = Callable[[str], Client]
CAVITY = "/dies/cavities/F-6.48"
GOOD = {"width": "6.500", "spread": "0.003", "instrument": "I-6", "on": f"{TODAY:%Y-%m-%d}"}
CYLINDER = {
    "code": "PR-2",
    "station": "press",
    "known": "computed from its cylinder",
    "force": "",
    "bore": "100",
    "pressure": "6 bar",
    "ratio": "5",
    "efficiency": "80",
}


def test_an_empty_shop_is_told_how_to_begin(day_world: DayWorld, signed_in: Sign) -> None:
    """Who may enter tools finds both forms open, others are told who does."""
    told = signed_in("ada").get("/dies").text
    assert "No cavity is entered yet" in told
    assert "Begin with the cavities on your shelf" in told
    assert told.count('<details class="sheet" id="enter-') == 2
    assert told.count("open><summary>") == 2
    told = signed_in("ben").get("/dies").text
    assert "A lead enters them." in told
    assert "Enter the cavity" not in told


def test_the_list_tells_width_closings_and_force(dies: DayWorld, signed_in: Sign) -> None:
    """As engraved until it is gauged; the press with how its force is known."""
    ben = signed_in("ben")
    told = ben.get("/dies").text
    assert "1 of 1 cavities in service" in told
    assert "not gauged" in told
    assert "19\u202f000" in told
    assert "29.0\u202fkN" in told
    ben.post(f"{CAVITY}/gauge", GOOD)
    assert "6.500\u202fmm ± 0.003\u202fmm" in ben.get("/dies").text


def test_a_bench_gauges_and_the_newest_counts(dies: DayWorld, signed_in: Sign) -> None:
    """What was typed is kept as read, by whom, on what; inches and micrometres are read too."""
    ben = signed_in("ben")
    assert ben.post(f"{CAVITY}/gauge", GOOD).status_code == 302
    inches = GOOD | {"width": "0.256 in", "spread": "4 µm", "on": ""}
    assert ben.post(f"{CAVITY}/gauge", inches).status_code == 302
    new, old = gaugings_of("F-6.48")
    assert (str(new.across_flats_mm), str(new.uncertainty_mm)) == ("6.5024", "0.0040")
    assert (new.by, new.on, new.instrument) == ("Ben", TODAY, "I-6")
    assert old.why_not == "gauged again since"
    told = ben.get(CAVITY).text
    assert "reckoned with as gauged, 6.502\u202fmm ± 0.004\u202fmm" in told
    assert "Take a gauging back" not in told
    assert "Lay it to rest" not in told


@pytest.mark.parametrize(
    ("other", "field", "told"),
    [
        ({"width": ""}, "width", "Nothing stands here"),
        ({"width": "wide"}, "width", "is not a dimension"),
        ({"width": "8.23"}, "width", "a tenth or more off the 6.480"),
        ({"width": "6500"}, "width", "is not a dimension"),
        ({"spread": "0"}, "spread", "is not a dimension"),
        ({"spread": "-0.003"}, "spread", "is not a dimension"),
        ({"spread": "3"}, "spread", "says less of F-6.48 than its engraving"),
        ({"instrument": "I-9"}, "instrument", "does not hold"),
        ({"instrument": "I-0"}, "instrument", "There is no instrument I-0"),
        ({"instrument": ""}, "instrument", "None is chosen"),
        ({"on": "2099-01-01"}, "on", "still to come"),
        ({"on": "2026-02-31"}, "on", "is not a date"),
        ({"on": "3 February"}, "on", "in which year? Accepted"),
    ],
    ids=str,
)
def test_a_bad_gauging_is_told_at_its_field(
    dies: DayWorld, signed_in: Sign, other: dict[str, str], field: str, told: str
) -> None:
    """Nothing is recorded and what was typed stands there."""
    answer = signed_in("ben").post(f"{CAVITY}/gauge", GOOD | other)
    assert answer.status_code == 422
    assert told in answer.text.partition(f'id="gauge-{field}-fault"')[2].partition("<")[0]
    assert f'aria-describedby="gauge-{field}-fault"' in answer.text
    assert gaugings_of("F-6.48") == ()


def test_a_lead_takes_a_gauging_back(dies: DayWorld, signed_in: Sign) -> None:
    """With a reason, once; another cavity's number is not in the records."""
    ada = signed_in("ada")
    ada.post(f"{CAVITY}/gauge", GOOD)
    number = str(gaugings_of("F-6.48")[0].number)
    answer = ada.post(f"{CAVITY}/take-back", {"gauging": number, "reason": " "})
    assert answer.status_code == 422
    assert "Say why" in answer.text
    assert ada.post(f"{CAVITY}/take-back", {"gauging": "x", "reason": "y"}).status_code == 404
    good = {"gauging": number, "reason": "die was open"}
    assert ada.post(f"{CAVITY}/take-back", good).status_code == 302
    assert ada.post(f"{CAVITY}/take-back", good).status_code == 409
    told = ada.get(CAVITY).text
    assert "taken back by Ada: die was open" in told
    assert "as engraved, 6.48\u202fmm across flats: not gauged" in told


def test_a_cavity_rests_and_comes_back(dies: DayWorld, signed_in: Sign) -> None:
    """With its reason each time; serviced, it counts from nought."""
    ada = signed_in("ada")
    answer = ada.post(f"{CAVITY}/move", {"to": "rest", "reason": ""})
    assert answer.status_code == 422
    assert "Say why, in 1 to 200 characters." in answer.text
    assert ada.post(f"{CAVITY}/move", {"to": "away", "reason": "x"}).status_code == 404
    assert ada.post(f"{CAVITY}/move", {"to": "rest", "reason": "pulls drift"}).status_code == 302
    assert ada.post(f"{CAVITY}/move", {"to": "rest", "reason": "again"}).status_code == 409
    assert "F-6.48 rests" in ada.get(CAVITY).text
    assert "0 of 1 cavities in service" in ada.get("/dies").text
    back = {"to": "service", "reason": "reground"}
    answer = ada.post(f"{CAVITY}/move", back)
    assert answer.status_code == 422
    assert "Say whether it was serviced." in answer.text
    assert ada.post(f"{CAVITY}/move", back | {"how": "serviced"}).status_code == 302
    assert cavities()[0].closings == 0
    assert [m.reason for m in cavity_moves("F-6.48")] == ["reground", "pulls drift"]
    told = ada.get(CAVITY).text
    assert "back in service, serviced after 41\u202f000 closings, by Ada" in told


def test_a_cavity_is_entered(dies: DayWorld, signed_in: Sign) -> None:
    """Every fault at its field at once; then it is there and in service."""
    ada = signed_in("ada")
    wrong = {"code": "", "use": "boot", "width": "1.60 m", "closings": "many", "service": "0"}
    answer = ada.post("/dies/cavities", wrong)
    assert answer.status_code == 422
    assert "5 fields want another look" in answer.text
    good = {"code": "P-1.60", "use": "pin", "width": "1.60", "closings": "0", "service": "60000"}
    taken = ada.post("/dies/cavities", good | {"code": "F-6.48"})
    assert "There is a cavity F-6.48 already." in taken.text
    assert ada.post("/dies/cavities", good | {"code": "P/1"}).status_code == 422
    assert ada.post("/dies/cavities", good).headers["Location"] == "/dies/cavities/P-1.60"
    found = {each.code: each for each in cavity_values()}["P-1.60"]
    assert (found.engraved_m, found.due_count) == (1.6e-3, 60_000)


def test_a_press_is_entered_by_its_cylinder(dies: DayWorld, signed_in: Sign) -> None:
    """100 mm at 6 bar is 4712.4 N (p·π/4·d²), times 5 and 0.8: 18.8 kN."""
    ada = signed_in("ada")
    assert ada.post("/dies/presses", CYLINDER).headers["Location"] == "/dies/presses/PR-2"
    assert press_now("PR-2").facts.computed_n == pytest.approx(18_849.56, abs=0.01)
    told = ada.get("/dies/presses/PR-2").text
    assert "PR-2 has 18.8\u202fkN at the die" in told
    assert "600\u202fkPa" in told
    assert "Lock the press out" in told
    assert "Hands stay out of the press" in told


@pytest.mark.parametrize(
    ("other", "field", "told"),
    [
        ({"code": "PR-1"}, "code", "There is a press PR-1 already"),
        ({"code": ""}, "code", "Nothing stands here"),
        ({"station": "cut"}, "station", "is for cut"),
        ({"station": "nowhere"}, "station", "There is no station nowhere"),
        ({"known": "guessed"}, "known", "None is chosen"),
        ({"force": "29 kN"}, "force", "This is given"),
        ({"bore": "100 m"}, "bore", "is not a dimension"),
        ({"pressure": "6"}, "pressure", "has no unit"),
        ({"pressure": "hot bar"}, "pressure", "is not a pressure"),
        ({"pressure": "9000 bar"}, "pressure", "cannot be"),
        ({"ratio": "0"}, "ratio", "cannot be"),
        ({"efficiency": "120"}, "efficiency", "cannot be"),
        ({"known": "measured", "force": "29"}, "force", "in which unit"),
        ({"known": "measured", "force": "29000 kN"}, "force", "No bench press has that"),
        ({"known": "measured"}, "bore", "This is given, and the force is measured"),
    ],
    ids=str,
)
def test_a_bad_press_is_told_at_its_field(
    dies: DayWorld, signed_in: Sign, other: dict[str, str], field: str, told: str
) -> None:
    """Nothing is entered."""
    answer = signed_in("ada").post("/dies/presses", CYLINDER | other)
    assert answer.status_code == 422
    assert told in answer.text.partition(f'id="press-{field}-fault"')[2].partition("<")[0]
    assert [each.code for each in presses_now()] == ["PR-1"]


def test_a_press_is_changed_and_its_past_is_shown(dies: DayWorld, signed_in: Sign) -> None:
    """A load cell's figure replaces the maker's, which stays in the history with the reason."""
    ada = signed_in("ada")
    sent = {"known": "measured", "force": "26.4 kN", "in_use": "yes", "reason": "load cell"}
    for other, told in (
        ({"reason": ""}, "It is not said why"),
        ({"known": "stated by its maker", "force": "29 kN"}, "with just that already"),
        ({"force": ""}, "Nothing stands here"),
    ):
        answer = ada.post("/dies/presses/PR-1", sent | other)
        assert answer.status_code == 422
        assert told in answer.text
    assert press_changes("PR-1") == ()
    assert ada.post("/dies/presses/PR-1", sent).status_code == 302
    told = ada.get("/dies/presses/PR-1").text
    assert "PR-1 has 26.4\u202fkN at the die" in told
    assert "29.0\u202fkN, stated by its maker. Changed by Ada" in told
    assert Press.objects.get().force_n == 26_400.0
    assert "Change the press" not in signed_in("ben").get("/dies/presses/PR-1").text


def test_what_is_not_there_is_said(dies: DayWorld, signed_in: Sign) -> None:
    """An unknown cavity or press is a page of words, for whatever is sent to it."""
    ada = signed_in("ada")
    for address in ("/dies/cavities/F-0", "/dies/presses/PR-0"):
        assert ada.get(address).status_code == 404
    assert ada.post("/dies/cavities/F-0/gauge", GOOD).status_code == 404
    gone = {"to": "rest", "reason": "x"}
    assert ada.post("/dies/cavities/F-0/move", gone).status_code == 404


def test_a_code_typed_into_the_search_box_leads_there(dies: DayWorld, signed_in: Sign) -> None:
    """In whatever case it is typed or scanned."""
    ada = signed_in("ada")
    for typed, address in (("f-6.48", CAVITY), ("PR-1", "/dies/presses/PR-1")):
        assert ada.get("/search", {"q": typed}).headers["Location"] == address
