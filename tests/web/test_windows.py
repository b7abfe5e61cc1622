"""Process windows as pages: begun from a form, tried at the bench, proven, written down, named."""

import re
from collections.abc import Callable

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from reelwright.core.trials.guess import Peak
from reelwright.shop.trials import selectors, services
from reelwright.shop.trials.models import Search, TrialMade
from reelwright.shop.trials.states import Process
from tests.day_world import DayWorld
from tests.shop.trials.conftest import MADE, text, trial
from tests.small_world import CABLE, CONNECTOR, TODAY
from tests.web.test_policy import inline

PART = {"HX-Request": "true"}
NEW = {
    "process": "weld",
    "cable": CABLE.code,
    "connector": CONNECTOR.code,
    "name": "Weld of SW-60",
    "question": "Which energy?",
    "setting-1-name": "energy",
    "setting-1-unit": "J",
    "setting-1-low": "180",
    "setting-1-high": "420",
    "setting-1-step": "5",
    "setting-1-drift": "4",
    # The second row is left empty: rows may be.
    "setting-3-name": "pressure",
    "setting-3-unit": "bar",
    "setting-3-low": "1,5",
    "setting-3-high": "4",
    "setting-3-step": "0.1",
    "setting-3-drift": "0.05",
    "response-1-name": "pull",
    "response-1-unit": "N",
    "response-1-lower_limit": "223",
    "response-1-guess-kind": "peak",
    "response-1-guess-setting": "energy",
    "response-1-guess-best_at": "301.5",
    "response-1-guess-ratio_factor": "1.5",
    "response-2-guess-kind": "level",
    "demand-coverage": "95",
    "demand-confidence": "90",
    "demand-unsafe_chance": "10",
    "demand-expected_good_fraction": "95",
    "demand-clear_drifts_ratio": "2",
    "most_trials": "",
}
TYPED = {"setting-1": "300", "setting-2": "2.8", "response-1": "266 271 259"}


@pytest.fixture
def begun(day_world: DayWorld) -> str:
    """An open search without trials."""
    return services.search_begin(
        by=day_world.ben,
        text=text(),
        process=Process.WELD,
        cable_code=CABLE.code,
        connector_code=CONNECTOR.code,
        on=TODAY,
    )


@pytest.fixture
def tried(day_world: DayWorld, begun: str) -> str:
    """The search with six trials, which prove a window."""
    for values, pulls in MADE:
        services.trial_record(
            by=day_world.ben, search_code=begun, trial=trial(values, pulls), on=TODAY
        )
    return begun


def heading(told: str) -> str:
    """What the first heading of a page says, without its marks."""
    found = re.search(r"<h1[^>]*>(.*?)</h1>", told, re.DOTALL)
    assert found is not None
    return " ".join(re.sub(r"<[^>]+>", " ", found[1]).split(" ")).strip()


def test_an_empty_list_says_what_will_be_there(lead: Client) -> None:
    """And how to begin, for who may."""
    told = lead.get("/windows").text
    assert "No window is searched yet" in told
    assert "Fill in the form" in told


def test_a_search_is_begun_from_the_form(lead: Client) -> None:
    """Empty rows are passed over, percents become shares, and the first guess is kept."""
    answer = lead.post("/windows/new", NEW)
    assert answer.status_code == 302
    frame, expected = selectors.search_frame("W-01"), text().frame
    assert (frame.settings, frame.demand) == (expected.settings, expected.demand)
    guess = frame.responses[0].guess
    assert guess == Peak(setting="energy", best_at=301.5, ratio_factor=1.5)
    assert "1 search open" in lead.get("/windows").text


def test_the_form_comes_filled_in_from_the_shops_own_gauges(
    lead: Client, day_world: DayWorld
) -> None:
    """Two gauges give the energy of a third; without an area the page says that it cannot."""
    for area_mm2, energy_j in ((1.31, 96.0), (5.26, 378.0)):
        answer = lead.post("/windows/gauges", {"area": f"{area_mm2}", "energy": f"{energy_j}"})
        assert answer.status_code == 302
    assert "Law through them" in lead.get("/windows").text
    address = f"/windows/new?process=weld&cable={CABLE.code}&connector={CONNECTOR.code}"
    told = lead.get(address).text
    assert "The area of the conductor is not stated" in told
    assert 'value="90"' in told  # the least pull of S-1
    for process in ("crimp+height", "strip+depth", "something+else"):
        assert lead.get(address.replace("weld", process)).status_code == 200


def test_every_fault_of_the_form_stands_at_its_field(lead: Client) -> None:
    """What cannot be read, what is missing, what makes no sense: all at once, nothing written."""
    bad = NEW | {
        "setting-1-low": "low",
        "setting-3-drift": "-1",
        "response-1-lower_limit": "",
        "demand-coverage": "200",
    }
    answer = lead.post("/windows/new", bad)
    assert answer.status_code == 422
    assert answer.text.count('class="fault"') == 4
    assert 'value="low"' in answer.text
    assert not Search.objects.exists()


def test_a_gauge_that_cannot_be_is_told_at_its_field(lead: Client) -> None:
    """Words for a number, and no area at all."""
    answer = lead.post("/windows/gauges", {"area": "two", "energy": "96"})
    assert answer.status_code == 422
    assert "This is not a number" in answer.text
    assert lead.post("/windows/gauges", {"area": "0", "energy": "96"}).status_code == 422
    assert selectors.weld_gauges() == ()


def test_the_page_stands_before_the_answer_is_computed(lead: Client, begun: str) -> None:
    """It asks for the answer by itself; the answer then says where to begin, and is kept."""
    services_page = lead.get(f"/windows/{begun}").text
    if "Working out where it stands" in services_page:
        assert f'hx-get="/windows/{begun}/stands"' in services_page
    part = lead.get(f"/windows/{begun}/stands", headers=PART).text
    assert heading(part) == "Next: energy 300\u202fJ, pressure 2.7\u202fbar"
    assert "<html" not in part
    again = lead.get(f"/windows/{begun}").text
    assert heading(again) == "Next: energy 300\u202fJ, pressure 2.7\u202fbar"
    whole = lead.get(f"/windows/{begun}/stands").text
    assert "<html" in whole


def test_a_proven_window_is_drawn_told_and_written_down(lead: Client, tried: str) -> None:
    """The large sentence, the claims, the drawing with its table, and the page that keeps it."""
    told = lead.get(f"/windows/{tried}/stands").text
    assert heading(told) == "The window is proven: energy 300\u202fJ, pressure 2.6\u202fbar"
    assert "Energy alone may go from" in told
    plot = lead.get(f"/windows/{tried}/plot", headers=PART).text
    assert "<svg" in plot
    assert "Trial 6" in plot
    answer = lead.post(f"/windows/{tried}/write", follow=True)
    assert "Written down" in answer.text
    assert "1 window proven" in lead.get("/windows").text
    (window,) = selectors.search(tried).windows
    (revision,) = re.findall(r'<option value="(\d+)">S-1 rev', answer.text)
    cited = lead.post(
        f"/windows/{tried}/cite", {"window": window.id, "revision": revision}, follow=True
    )
    assert "named by S-1 rev A" in cited.text
    sheet = lead.get("/set-ups/S-1").text
    assert "this revision names the window of" in sheet
    assert "energy 300\u202fJ" in sheet
    again = lead.post(f"/windows/{tried}/move", {"reason": "More plugs came."}, follow=True)
    assert "More plugs came." in again.text
    assert selectors.search(tried).is_open


def test_a_typed_trial_is_written_down(lead: Client, begun: str) -> None:
    """Readings with spaces between; what contradicts the search stands at its field."""
    address = f"/windows/{begun}/trials"
    bad = lead.post(address, TYPED | {"setting-1": "500", "response-1": "26x"})
    assert bad.status_code == 422
    assert "This is not a number" in bad.text
    far = lead.post(address, TYPED | {"setting-1": "500"})
    assert far.status_code == 422
    assert "Outside what may be tried" in far.text
    assert 'value="500"' in far.text
    one = lead.post(address, TYPED | {"response-1": "266"})
    assert "No reading was ever repeated" in one.text
    assert not TrialMade.objects.exists()
    assert lead.post(address, TYPED).status_code == 302
    ((only,)) = selectors.trials_of(begun)
    assert only.trial.values_of("pull") == (266, 271, 259)


def test_a_file_is_taken_in_once(lead: Client, begun: str) -> None:
    """The second time nothing changes; a bad one is told with every fault and the way back."""

    def send(content: str) -> str:
        file = SimpleUploadedFile("t.csv", content.encode())
        return lead.post(f"/windows/{begun}/file", {"trials": file}, follow=True).text

    good = "number,energy,pressure,pull,pull\n1,300,2.8,266,271\n2,310,2.8,262,268\n"
    assert "2 trials came in from t.csv" in send(good)
    assert "nothing changed" in send(good)
    bad = send("number,energy,pressure,pull\nx,300,2.8,266\n3,900,2.8,1\n")
    assert "2 things to mend" in bad
    assert f'href="/windows/{begun}">Back to {begun}</a>' in bad
    assert TrialMade.objects.count() == 2
    assert lead.post(f"/windows/{begun}/file").status_code == 302


def test_a_trial_is_taken_back_with_a_reason(lead: Client, tried: str) -> None:
    """Without one nothing happens; with one it is struck through and counts no more."""
    address = f"/windows/{tried}/take-back"
    told = lead.post(address, {"number": "3", "reason": ""}, follow=True).text
    assert "Say why" in told
    told = lead.post(address, {"number": "3", "reason": "Wrong horn."}, follow=True).text
    assert "Wrong horn." in told
    assert selectors.search(tried).trial_count == 5
    assert lead.post(address, {"number": "x", "reason": "y"}).status_code == 404


def test_trials_that_contradict_each_other_are_told_and_can_be_taken_back(
    lead: Client, day_world: DayWorld, begun: str
) -> None:
    """After the repeated trial is taken back, the page says what is wrong instead of failing."""
    for values, pulls in (((300.0, 2.8), (266.0, 271.0)), ((310.0, 2.8), (262.0,))):
        services.trial_record(
            by=day_world.ben, search_code=begun, trial=trial(values, pulls), on=TODAY
        )
    services.trial_take_back(
        by=day_world.ben, search_code=begun, number=1, reason="Burr.", on=TODAY
    )
    for address in (f"/windows/{begun}", f"/bench/trials/{begun}"):
        told = lead.get(address).text
        assert heading(told) == "The trials contradict each other"
        assert "o reading was ever repeated" in told
    assert lead.get(f"/windows/{begun}/plot").status_code == 200


def test_classical_designs_are_there_for_who_prefers_them(lead: Client, tried: str) -> None:
    """The runs of each kind, the reason where there is none, and the surface of the trials."""
    told = lead.get(f"/windows/{tried}/designs").text
    assert "4 runs." in told
    assert "A surface straight in every setting explains" in told
    assert "13 runs." in lead.get(f"/windows/{tried}/designs?design=central").text
    fraction = lead.get(f"/windows/{tried}/designs?design=fraction").text
    assert "take the full design" in fraction


def test_trials_that_are_a_design_are_read_as_one(
    lead: Client, day_world: DayWorld, begun: str
) -> None:
    """Four corners with two readings each: effects drawn and in a table, and no surface."""
    for values, pulls in (
        ((240.0, 2.0), (198.0, 202.0)),
        ((360.0, 2.0), (238.0, 242.0)),
        ((240.0, 3.0), (208.0, 212.0)),
        ((360.0, 3.0), (288.0, 292.0)),
    ):
        services.trial_record(
            by=day_world.ben, search_code=begun, trial=trial(values, pulls), on=TODAY
        )
    told = lead.get(f"/windows/{begun}/designs").text
    assert "a full two-level design of 4 settings" in told
    assert "<title>Effects on pull</title>" in told
    assert '<th scope="row">energy × pressure</th><td class="number">20' in told
    assert "A surface" not in told
    assert not inline(told)


def test_the_bench_says_what_to_set_and_takes_the_result(
    signed_in: Callable[[str], Client], begun: str
) -> None:
    """One instruction with its numbers, the readings typed, the next instruction after it."""
    ben = signed_in("ben")
    address = f"/bench/trials/{begun}"
    told = ben.get(address, headers=PART).text
    assert heading(told).startswith("Set the machine to")
    assert '<span class="wheel">energy 300\u202fJ</span>' in told
    assert "Fingers" in told or "fume" in told  # the cautions of the method
    values = dict(re.findall(r'name="(setting-\d)" value="([^"]*)"', told))
    assert values == {"setting-1": "300", "setting-2": "2.7"}
    bad = ben.post(address, values | {"response-1": "no"})
    assert bad.status_code == 422
    assert ben.post(address, values | {"response-1": "266 271 259"}).status_code == 302
    assert "Take back trial 1" in ben.get(f"{address}?now=yes").text
    assert ben.post(address, values | {"failed": "yes", "failure": ""}).status_code == 302
    assert selectors.trials_of(begun)[1].trial.failure == "failed outright"
    assert ben.post(f"{address}/take-back", {"number": "2"}).status_code == 302
    assert selectors.search(begun).trial_count == 1


def test_the_bench_says_when_nothing_more_has_to_be_tried(
    signed_in: Callable[[str], Client], tried: str
) -> None:
    """The middle of the window in large numbers, and no form to make more trials."""
    told = signed_in("ben").get(f"/bench/trials/{tried}?now=yes").text
    assert heading(told).startswith("The window is proven")
    assert '<span class="wheel">energy 300\u202fJ</span>' in told
    assert "Write the trial down" not in told


def test_who_may_not_is_refused_and_shown_nothing_to_press(
    signed_in: Callable[[str], Client], tried: str
) -> None:
    """A viewer and the office read; the bench tries and takes back; windows are the lead's."""
    forced = {
        "/windows/new": NEW,
        "/windows/gauges": {"area": "1", "energy": "96"},
        f"/windows/{tried}/trials": TYPED,
        f"/windows/{tried}/file": {},
        f"/windows/{tried}/take-back": {"number": "1", "reason": "x"},
        f"/windows/{tried}/write": {},
        f"/windows/{tried}/move": {"reason": "x"},
        f"/windows/{tried}/cite": {"window": "1", "revision": "1"},
        f"/bench/trials/{tried}": TYPED,
        f"/bench/trials/{tried}/take-back": {"number": "1"},
    }
    for name in ("vic", "olga"):
        client = signed_in(name)
        told = client.get(f"/windows/{tried}/stands").text
        assert "Type a trial" not in told
        assert "Write the window down" not in told
        for address, data in forced.items():
            assert client.post(address, data).status_code == 403, (name, address)
    ben = signed_in("ben")
    assert ben.post(f"/windows/{tried}/write").status_code == 403
    assert ben.post(f"/windows/{tried}/move", {"reason": "x"}).status_code == 403
    assert selectors.search(tried).is_open


def test_a_search_that_is_not_there_is_told_so(lead: Client, begun: str) -> None:
    """By number, with what is there."""
    answer = lead.get("/windows/W-99")
    assert answer.status_code == 404
    assert begun in answer.text


def test_the_pages_of_a_search_carry_no_script_and_no_style(lead: Client, tried: str) -> None:
    """The strict policy would block either, in the drawing too."""
    for address in ("", "/stands", "/plot", "/designs"):
        assert not inline(lead.get(f"/windows/{tried}{address}").text), address
    assert not inline(lead.get(f"/bench/trials/{tried}?now=yes").text)


def test_a_window_is_found_by_its_code_and_by_what_it_is_called(lead: Client, begun: str) -> None:
    """Its code, in any case, leads to its page; part of its name lists it."""
    assert lead.get("/search", {"q": begun.lower()}).headers["Location"] == f"/windows/{begun}"
    assert f'href="/windows/{begun}"' in lead.get("/search", {"q": text().name[:5]}).text
