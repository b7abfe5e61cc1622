"""Power traces on the page of a set-up: read in, judged, refused at their fields, taken back."""

from collections.abc import Callable
from decimal import Decimal

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from reelwright.demo.weld_traces import trace_file
from reelwright.shop.catalogue.services import connector_add
from reelwright.shop.setups import services as setups
from reelwright.shop.setups.welds.selectors import weld_traces
from tests.day_world import DayWorld
from tests.shop.setups.welds.test_traces import PLUG, RAMP, WELDED
from tests.small_world import CABLE, SHEET, TODAY
from tests.web.test_policy import inline

PAGE, SEND = "/set-ups/S-9", "/set-ups/S-9/traces"
Sign = Callable[[str], Client]


@pytest.fixture
def welded(day_world: DayWorld) -> int:
    """A revision of a weld, on trial: its number."""
    ada, ben = day_world.ada, day_world.ben
    connector_add(by=ada, connector=PLUG, price=Decimal(2), loss_db=0.1, loss_source=SHEET)
    setups.set_up_add(by=ben, code="S-9", cable_code=CABLE.code, connector_code=PLUG.code)
    numbers = WELDED
    number: int = setups.revision_draft(
        by=ben, set_up_code="S-9", letter="A", numbers=numbers, on=TODAY
    ).pk
    setups.revision_try(by=ben, revision_id=number, on=TODAY)
    return number


def send(client: Client, content: bytes, name: str = "weld.csv", **fields: str) -> str:
    """Read a trace in, and return the page that comes back."""
    file = SimpleUploadedFile(name, content)
    data = {"rev": "A", "called": "good", "width": "", "reason": ""} | fields
    return client.post(SEND, data | {"trace": file}, follow=True).text


def test_six_welds_are_read_in_and_the_tinned_one_is_found(welded: int, signed_in: Sign) -> None:
    """The bench reads them; the sixth stands over the band, the tinned one says what is wrong."""
    ben = signed_in("ben")
    assert "stands here once a trace was read" in ben.get(PAGE).text
    for number in range(1, 7):
        told = send(ben, trace_file(number, tinned=False), f"weld-{number}.csv", width="2.0")
    assert "weld-6.csv is as the 5 good welds before it are." in told
    assert "<title>Power trace weld-6.csv of S-9 rev A</title>" in told
    assert "nothing changed" in send(ben, trace_file(6, tinned=False))
    tinned = trace_file(7, tinned=True)
    assert "Call it doubtful, or say why it is good." in send(ben, tinned)
    told = send(ben, tinned, "weld-7.csv", called="doubtful", reason="the wire was tinned")
    assert "weld-7.csv is not as good welds are: " in told
    assert "calls it doubtful: the wire was tinned." in told
    assert len(weld_traces(welded)) == 7
    assert not inline(told)


def test_what_is_wrong_stands_at_its_field_and_nothing_is_kept(
    welded: int, signed_in: Sign
) -> None:
    """No file, words for a width, no reason; a bad file is told with row and column."""
    ben = signed_in("ben")
    none = ben.post(SEND, {"rev": "A", "called": "good"})
    assert none.status_code == 422
    assert "Choose the file of one weld first." in none.text
    assert "This is not a number" in send(ben, RAMP.encode(), width="two")
    assert "Accepted: 0.1 to 50 mm" in send(ben, RAMP.encode(), width="200")
    told = send(ben, RAMP.encode(), called="doubtful", width="2")
    assert "Say what is doubtful about it." in told
    assert 'name="width" value="2"' in told
    bad = send(ben, RAMP.replace("400", "-4").encode())
    assert "2 things to mend" in bad
    assert "power_w" in bad
    assert weld_traces(welded) == ()


def test_only_a_lead_takes_a_trace_back(welded: int, signed_in: Sign) -> None:
    """With a reason; it is struck through; who may not write is shown no form and refused."""
    ada, ben, vic = (signed_in(name) for name in ("ada", "ben", "vic"))
    send(ben, RAMP.encode())
    (trace,) = weld_traces(welded)
    back = {"rev": "A", "number": str(trace.number), "reason": ""}
    assert "Take the trace back" not in ben.get(PAGE).text
    assert "Read the trace" not in vic.get(PAGE).text
    assert ben.post(f"{SEND}/back", back).status_code == 403
    assert vic.post(SEND, {"rev": "A"}).status_code == 403
    assert "Say why it no longer counts." in ada.post(f"{SEND}/back", back).text
    told = ada.post(f"{SEND}/back", back | {"reason": "other wire"}, follow=True).text
    assert "<del>weld.csv</del>" in told
    assert "other wire" in told
    assert ada.post(f"{SEND}/back", back | {"number": "x", "reason": "y"}).status_code == 404
