"""The set-up sheet from the records: what it holds, and what a new revision leaves."""

from dataclasses import replace
from decimal import Decimal

import pytest

from reelwright.core.errors import UnknownCode
from reelwright.documents.set_up_sheet import NOT_FOR_ORDERS, render_set_up_sheet
from reelwright.shop.day.pack.gather import gather
from reelwright.shop.day.pack.travellers import travellers_paper
from reelwright.shop.day.services import day_run
from reelwright.shop.setups import services
from reelwright.shop.setups.paper import set_up_paper, sheet_file_name
from reelwright.shop.setups.photographs import photograph_attach, photograph_take_back
from reelwright.shop.setups.selectors import revision_sheet, set_up_sheets
from reelwright.shop.setups.sheet import Numbers
from reelwright.shop.setups.states import FailureMode, State
from tests.day_world import DayWorld, good_row, order_file
from tests.documents import pdfs
from tests.photographs import SECRETS, jpeg, png
from tests.shop.setups.conftest import COMPLETE, GOOD_PULLS_N
from tests.small_world import TODAY, SmallWorld


def proven_and_released(world: SmallWorld, numbers: Numbers, letter: str) -> int:
    """Draft a revision of S-1 and take it all the way."""
    number = services.revision_draft(
        by=world.ben, set_up_code="S-1", letter=letter, numbers=numbers, on=TODAY
    ).pk
    services.revision_try(by=world.ben, revision_id=number, on=TODAY)
    services.pulls_record(
        by=world.ben,
        revision_id=number,
        pulls_n=[(force, FailureMode.JACKET_SLIPPED) for force in GOOD_PULLS_N],
        on=TODAY,
    )
    services.revision_prove(by=world.ada, revision_id=number, on=TODAY)
    services.revision_release(by=world.ada, revision_id=number, on=TODAY)
    return number


def test_a_draft_prints_what_it_holds_and_what_it_lacks(world: SmallWorld, drafted: int) -> None:
    """Steps, strip, who drafted it; that it is not for orders; and what is missing for a trial."""
    services.revision_draft(
        by=world.ben,
        set_up_code="S-1",
        letter="B",
        numbers=replace(COMPLETE, test_adapter="", cores_bared_tolerance_mm=None),
        on=TODAY,
    )
    content = set_up_paper("S-1", letter="B", on=TODAY, gauges=())
    assert content.strip_svg == ""
    assert content.missing == (
        "Missing: the tolerance of the bared cores.",
        "Missing: the test adapter.",
    )
    told = " ".join(pdfs.texts(render_set_up_sheet(content)))
    assert f"Drafted. {NOT_FOR_ORDERS}" in told
    assert "2 Mar 2027, Ben" in told
    assert "not approved" in told
    assert "Missing: the test adapter." in told


def test_a_released_sheet_tells_who_approved_it_and_what_its_pulls_prove(
    world: SmallWorld, drafted: int
) -> None:
    """Approval, strip with its cuts, the tolerance bound beside the least pull, the rules named."""
    proven_and_released(world, COMPLETE, "B")
    content = set_up_paper("S-1", on=TODAY, gauges=())
    assert (content.released, content.code, content.missing) == (True, "S-1 rev B", ())
    told = " ".join(pdfs.texts(render_set_up_sheet(content)))
    for part in (
        "2 Mar 2027, Ada",
        "5.0 ±0.5",
        "1 : 1, to lay an end on",
        "10 pulls show 103.9 N",
        "jacket slipped 10",
        "the small world's own (own measurement)",
        "Before anything else: Slide the boot on.",
        "Fume extraction on.",
        "1910.1025",
        "The machine's own instructions and local rules come first.",
        "Rules are named from memory",
        "as of Tue 2 Mar 2027",
    ):
        assert part in told, part
    assert NOT_FOR_ORDERS not in told


def test_the_same_records_give_the_same_bytes(world: SmallWorld, drafted: int) -> None:
    """Printed twice on one day it is one file; the next day only its date differs."""
    photograph_attach(
        by=world.ben, revision_id=drafted, content=png(), shows="bad", caption="Bare.", on=TODAY
    )
    one, other = (render_set_up_sheet(set_up_paper("S-1", on=TODAY, gauges=())) for _ in range(2))
    assert one == other


def test_photographs_that_stand_are_printed_and_tell_no_place(
    world: SmallWorld, drafted: int
) -> None:
    """One is taken back and gone; of the other the picture is in the file, and not its secrets."""
    for content, caption in ((jpeg(), "Kept."), (png(), "Taken back.")):
        made = photograph_attach(
            by=world.ben,
            revision_id=drafted,
            content=content,
            shows="good",
            caption=caption,
            on=TODAY,
        )
    photograph_take_back(by=world.ada, number=made.number, reason="Blurred.", on=TODAY)
    pdf = render_set_up_sheet(set_up_paper("S-1", on=TODAY, gauges=()))
    told = " ".join(pdfs.texts(pdf))
    assert "Kept." in told
    assert "Taken back." not in told
    assert b"/DCTDecode" in pdf
    assert not any(secret in pdf for secret in SECRETS)


def test_a_boot_that_the_steps_forget_is_told_before_them() -> None:
    """A crimped end always threads boot and ferrule, whatever its own steps say."""
    from reelwright.core.parts.connector import Method
    from reelwright.shop.setups.making import threaded_first
    from tests.ends_world import BNC_60, F_70, VID_60, VID_70
    from tests.shop.setups.test_rules import CRIMPED, sheet

    forgets = sheet("T-1", 1, Method.CRIMP_CRIMP, replace(CRIMPED, steps=("Strip.", "Press.")))
    assert threaded_first(forgets, VID_60, BNC_60) == "Ferrule onto the cable: right way round."
    names = sheet("T-1", 1, Method.CRIMP_CRIMP, replace(CRIMPED, steps=("Boot on.", "Strip.")))
    assert threaded_first(names, VID_60, BNC_60) == "Boot on."
    bare = sheet("T-1", 1, Method.COMPRESSION, replace(CRIMPED, steps=()))
    assert threaded_first(bare, VID_70, F_70) == ""


def test_what_was_made_under_the_old_revision_keeps_its_numbers(day_world: DayWorld) -> None:
    """A traveller issued under rev A keeps A's lengths when B is released; a new one names B."""
    day_run(by=day_world.olga, name="o.csv", content=order_file(good_row()), on=TODAY)
    before = revision_sheet(set_up_sheets("S-1")[0].revision_id).numbers
    changed = replace(before, cores_bared_mm=Decimal("6.50"))
    proven_and_released(day_world, changed, "B")
    assert [str(each.state) for each in set_up_sheets("S-1")] == ["released", "withdrawn"]
    second = day_run(
        by=day_world.olga,
        name="p.csv",
        content=order_file(good_row(order="W-2", customer="Orla Finch")),
        on=TODAY,
    )
    from reelwright.shop.day.models import DayRun

    told = {}
    for run_id in DayRun.objects.values_list("pk", flat=True):
        paper = travellers_paper(gather(run_id))
        assert paper is not None
        for traveller in paper.travellers:
            (end,) = traveller.ends
            told[traveller.order] = (end.revision, end.strip_rows[0].length)
    assert second.run_id
    assert told == {"W-1": ("A", "5.0 ±0.5"), "W-2": ("B", "6.5 ±0.5")}
    assert set_up_sheets("S-1")[1].numbers == before
    assert set_up_sheets("S-1")[1].state is State.WITHDRAWN


def test_an_unknown_set_up_or_revision_is_told_with_what_is_near(
    world: SmallWorld, drafted: int
) -> None:
    """Codes alike, or the letters there are."""
    with pytest.raises(UnknownCode) as caught:
        set_up_paper("s-2", on=TODAY, gauges=())
    assert caught.value.near == ("S-1",)
    with pytest.raises(UnknownCode) as caught:
        set_up_paper("S-1", letter="Q", on=TODAY, gauges=())
    assert caught.value.near == ("A",)


def test_the_files_name_is_one_that_every_disk_takes(world: SmallWorld, drafted: int) -> None:
    """Set-up and revision, without blanks or strokes."""
    sheet = revision_sheet(drafted)
    assert sheet_file_name(sheet) == "S-1-rev-A.pdf"
    assert sheet_file_name(replace(sheet, code="S/1 ü")) == "S-1-rev-A.pdf"
