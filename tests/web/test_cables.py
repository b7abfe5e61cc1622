"""Cables as pages: what a sheet states, whether it agrees with itself, what it carries."""

from collections.abc import Callable

from django.test import Client


def test_the_list_shows_every_cable_with_what_the_rack_holds(lead: Client) -> None:
    """The one coax of the small shop stands there with its metres and its released end."""
    told = lead.get("/cables").text
    assert "/cables/SW-60" in told
    assert "in the catalogue" in told


def test_a_cable_shows_how_far_it_carries_each_signal_with_the_limits_source(lead: Client) -> None:
    """Serial video stands with both lengths and the standard its limit is from."""
    told = lead.get("/cables/SW-60").text
    far = told[told.index('id="far"') : told.index('id="itself"')]
    assert "Serial video 1.485" in far
    assert "SMPTE 292M" in far
    assert "Staying within the limit is not the same as working" in far
    assert "Loudspeaker" not in far


def test_a_cable_shows_its_sheet_held_against_itself(lead: Client) -> None:
    """Capacitance, impedance and delay are told to agree or to contradict each other."""
    told = lead.get("/cables/SW-60").text
    assert "Data sheet against itself" in told[told.index('id="itself"') :]


def test_an_unknown_cable_is_told_with_what_is_near(lead: Client) -> None:
    """A code that is not in the catalogue is refused in words, not with an error page."""
    answer = lead.get("/cables/SW-61")
    assert answer.status_code == 404
    assert "SW-60" in answer.text


def test_a_cable_typed_into_the_search_box_jumps_to_its_page(lead: Client) -> None:
    """A scanned or typed code goes straight there."""
    assert lead.get("/search?q=sw-60").headers["Location"] == "/cables/SW-60"


def test_a_measurement_typed_on_the_lots_page_stands_before_the_book(lead: Client) -> None:
    """What was typed is entered, told, and shown beside the data sheet's value."""
    fields = {"what": "capacitance_f_per_m", "value": "54.2 pF/m", "spread": "0.5 %"}
    answer = lead.post("/lots/L-1", {**fields, "readings": "3"}, follow=True)
    assert "stands before the book" in answer.text
    values = answer.text[answer.text.index('id="values"') :]
    row = values[values.index("Capacitance") :].split("</tr>")[0]
    assert "54.20\u202fpF/m" in row
    assert row.endswith('<td class="number">3</td>')
    assert "As it was entered" in answer.text


def test_a_measurement_that_cannot_be_read_is_told_at_its_field(lead: Client) -> None:
    """Nothing is entered, and what was typed stays in the form."""
    fields = {"what": "capacitance_f_per_m", "value": "54.2", "spread": "half"}
    answer = lead.post("/lots/L-1", fields)
    assert answer.status_code == 422
    assert 'value="54.2"' in answer.text
    assert "Accepted" in answer.text
    assert "Nothing was measured" in answer.text


def test_what_the_rules_refuse_is_told_at_its_field(lead: Client) -> None:
    """No reading, a spread of one and a half, a frequency of nothing: each beside its typing."""
    good = {"what": "loss_db_per_m", "value": "22 dB/100 m", "spread": "1 %"}
    for field, typed, told in (
        ("readings", "0", "at least one reading"),
        ("spread", "150 %", "below 100 %"),
        ("frequency", "0 MHz", "above zero"),
    ):
        answer = lead.post("/lots/L-1", {"frequency": "742.5 MHz", **good, field: typed})
        assert answer.status_code == 422
        fault = answer.text[answer.text.index(f'id="{field}-fault"') :]
        assert told in fault[: fault.index("</span>")]


def test_a_measurement_is_withdrawn_with_its_reason(signed_in: Callable[[str], Client]) -> None:
    """It stays in the list with who and why, and the book counts again."""
    lead = signed_in("ada")
    fields = {"what": "capacitance_f_per_m", "value": "54.2 pF/m", "spread": "0.5 %"}
    page = lead.post("/lots/L-1", fields, follow=True).text
    number = page[page.index('name="withdraw"') :].split('option value="')[1].split('"')[0]
    assert lead.post("/lots/L-1", {"withdraw": number, "reason": ""}).status_code == 422
    answer = lead.post("/lots/L-1", {"withdraw": number, "reason": "of L-2"}, follow=True)
    assert "Withdrawn by Ada: of L-2" in answer.text
    assert "<del>54.20\u202fpF/m</del>" in answer.text
    values = answer.text[answer.text.index('id="values"') : answer.text.index('id="entries"')]
    assert "54.20\u202fpF/m" not in values
    assert (
        signed_in("vic").post("/lots/L-1", {"withdraw": number, "reason": "x"}).status_code == 403
    )


def test_a_run_may_be_asked_for_a_class_as_well_as_a_place(lead: Client) -> None:
    """What the building asks for is typed where the place is; what is no class is told there."""
    run = "/ask?length=3+m&signal=serial+video+1.485+Gb%2Fs&cable=SW-60&end_a=SW-PLUG&space="
    asked = lead.get(run + "Cca-s1b,d1,a1").text
    assert "do not map onto each other" in asked
    assert 'value="Cca-s1b,d1,a1"' in asked
    fault = lead.get(run + "Cca-s9")
    assert fault.status_code == 422
    assert "Not a place that is known" in fault.text
