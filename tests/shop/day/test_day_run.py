"""A file of orders taken in: once, whole or not at all, by whom it may be."""

import datetime as dt

import pytest

from reelwright.core.errors import InputFaults
from reelwright.core.parts.serial import serial_is_sound
from reelwright.shop.day import services
from reelwright.shop.day.models import DayRun
from reelwright.shop.day.services import day_run, line_accept, plan_again
from reelwright.shop.orders.columns import read_orders
from reelwright.shop.orders.models import Answer, Customer, CustomerDetails, Order, OrderLine
from reelwright.shop.orders.selectors import lines_received
from reelwright.shop.orders.services import customer_erase
from reelwright.shop.reels.selectors import reel_now
from reelwright.shop.work.cutting import cut_confirm
from reelwright.shop.work.models import CutPlan, Piece, PlannedCut, Traveller
from reelwright.shop.work.selectors import pieces_of_lines
from tests.day_world import DayWorld, good_row, order_file, row_counts
from tests.shop.orders.test_files import DEFECTS, FILES, WORDS
from tests.shop.refusals import refused
from tests.small_world import FULL, TODAY

TWO = order_file(good_row(), good_row(order="W-2", customer="Orla Finch", quantity="1"))


def take(world: DayWorld, content: bytes = TWO, name: str = "orders.csv") -> services.RunResult:
    """Take in a file as the office does."""
    return day_run(by=world.olga, name=name, content=content, on=TODAY)


def test_a_file_becomes_answers_pieces_and_a_plan(day_world: DayWorld) -> None:
    """Two lines of two and one cables: two answers, three pieces planned off the longest reel."""
    result = take(day_world)
    assert result.recorded_now
    lines = lines_received(on=TODAY)
    assert [(line.label, line.state) for line in lines] == [
        ("W-1", "accepted"),
        ("W-2", "accepted"),
    ]
    pieces = [
        piece for each in pieces_of_lines(line.id for line in lines).values() for piece in each
    ]
    assert {piece.code for piece in pieces} == {"W-1-1", "W-1-2", "W-2-1"}
    assert all(piece.state == Piece.State.PLANNED for piece in pieces)
    run = DayRun.objects.get(pk=result.run_id)
    assert run.cut_plan is not None
    assert run.bench_plan is not None
    assert (run.number, run.file_name, run.lines.count()) == (1, "orders.csv", 2)


def test_serials_are_sound_and_their_own(day_world: DayWorld) -> None:
    """Every piece has a serial of the day with a right check digit, and no two have the same."""
    take(day_world, order_file(good_row(quantity="9"), good_row(order="W-2", quantity="4")))
    serials = list(Piece.objects.values_list("serial", flat=True))
    assert len(serials) == len(set(serials)) >= 13
    assert all(serial_is_sound(serial) for serial in serials)
    assert all(serial.startswith(f"{TODAY:%y%m%d}-") for serial in serials)


def test_serials_count_on_within_the_day(day_world: DayWorld) -> None:
    """The second file of a day goes on where the first stopped."""
    take(day_world)
    take(day_world, order_file(good_row(order="W-9", quantity="1")))
    numbers = sorted(int(serial[7:11]) for serial in Piece.objects.values_list("serial", flat=True))
    assert numbers == [1, 2, 3, 4]


def test_each_accepted_line_has_one_traveller(day_world: DayWorld) -> None:
    """With the set-up as it was released that day; a second plan issues no second sheet."""
    take(day_world)
    take(day_world, order_file(good_row(order="W-9")))
    sheets = Traveller.objects.order_by("number")
    assert [(sheet.number, sheet.line.order.number) for sheet in sheets] == [
        ("T270302-01", "W-1"),
        ("T270302-02", "W-2"),
        ("T270302-03", "W-9"),
    ]
    assert {sheet.end_a.set_up.code for sheet in sheets} == {"S-1"}


@pytest.mark.parametrize("who", ["ada", "olga"])
def test_lead_and_office_take_orders(day_world: DayWorld, who: str) -> None:
    """Both may, and what they take in is recorded."""
    assert day_run(
        by=getattr(day_world, who), name="orders.csv", content=TWO, on=TODAY
    ).recorded_now


@pytest.mark.parametrize("who", ["ben", "vic"])
def test_bench_and_viewer_take_no_orders(day_world: DayWorld, who: str) -> None:
    """Neither may, and nothing is written, not even where the file is bad."""
    before = row_counts()
    for content in (TWO, b"nonsense"):
        with refused("not_allowed"):
            day_run(by=getattr(day_world, who), name="orders.csv", content=content, on=TODAY)
    assert row_counts() == before


@pytest.mark.parametrize("stem", sorted(DEFECTS))
def test_a_bad_file_writes_nothing(day_world: DayWorld, stem: str) -> None:
    """Whatever is wrong with a file, no table has a row more."""
    (path,) = FILES.glob(f"{stem}.*")
    before = row_counts()
    with pytest.raises(InputFaults) as caught:
        take(day_world, path.read_bytes(), path.name)
    assert {fault.file for fault in caught.value.faults} == {path.name}
    assert row_counts() == before


@pytest.mark.parametrize(
    "stem",
    [
        "good",
        "good-semicolons",
        "good-tabs",
        "good-with-byte-order-mark",
        "good-windows-line-ends",
        "good-other-row-order",
    ],
)
def test_the_same_content_again_changes_nothing(day_world: DayWorld, stem: str) -> None:
    """In any accepted form and under any name: the same run, and no row more in any table."""
    first = take(day_world, (FILES / "good.csv").read_bytes())
    before = row_counts()
    again = take(day_world, (FILES / f"{stem}.csv").read_bytes(), name=f"{stem}.csv")
    assert (again.run_id, again.recorded_now) == (first.run_id, False)
    assert row_counts() == before


def test_other_content_under_a_known_number_names_both(day_world: DayWorld) -> None:
    """Every such line is told with what stands in the books and what came; nothing is written."""
    take(day_world)
    before = row_counts()
    changed = order_file(
        good_row(quantity="3", colour="red", typed="two leads of 3 m, black"),
        good_row(order="W-2", customer="orla finch", quantity="1", length="4 m"),
        good_row(order="W-3"),
    )
    with pytest.raises(InputFaults) as caught:
        take(day_world, changed, "again.csv")
    first, second = caught.value.faults
    assert (first.file, first.row, first.field, first.value) == (
        "again.csv",
        2,
        "quantity, colour",
        "W-1/1",
    )
    for part in ("Nell Farrow", "2027-03-02", "quantity was '2'", "quantity is '3'"):
        assert part in first.problem
    for part in ("colour was 'black'", "colour is 'red'"):
        assert part in first.problem
    assert "length was '3 m'" in second.problem
    assert "length is '4 m'" in second.problem
    assert "a line number of its own" in second.accepted
    assert row_counts() == before


def test_two_customers_may_number_alike(day_world: DayWorld) -> None:
    """Order W-1 of one is not W-1 of the other; their pieces have codes of their own."""
    take(day_world, order_file(good_row(), good_row(customer="Orla Finch", quantity="1")))
    assert Order.objects.filter(number="W-1").count() == 2
    codes = list(Piece.objects.values_list("code", flat=True))
    assert len(codes) == len(set(codes)) == 3
    take(day_world, order_file(good_row(customer="Pia Moss", quantity="1")))
    assert Piece.objects.values("code").distinct().count() == 4


@pytest.mark.parametrize("other", ["NELL FARROW", "nell  farrow"])
def test_a_customer_is_known_however_the_name_is_written(day_world: DayWorld, other: str) -> None:
    """Capitals and spaces make no second customer."""
    take(day_world, order_file(good_row()))
    take(day_world, order_file(good_row(order="W-2", customer=other)))
    assert Customer.objects.count() == 1


def test_capitals_of_other_alphabets_make_no_second_customer(day_world: DayWorld) -> None:
    """Not every database folds them; we do."""
    take(day_world, order_file(good_row(customer="Ödön Ágai")))
    take(day_world, order_file(good_row(order="W-2", customer="ÖDÖN ÁGAI")))
    assert Customer.objects.count() == 1


def test_lines_without_a_number_count_on(day_world: DayWorld) -> None:
    """Two lines of one order are lines 1 and 2, and the second's pieces say so."""
    rows = [good_row(quantity="1", length=length, typed="") for length in ("3 m", "4 m")]
    take(day_world, order_file(*rows))
    assert list(OrderLine.objects.values_list("number", flat=True)) == [1, 2]
    assert set(Piece.objects.values_list("code", flat=True)) == {"W-1-1", "W-1.2-1"}


def test_an_order_named_like_a_line_has_codes_of_its_own(day_world: DayWorld) -> None:
    """Line 2 of order W-1 and order W-1.2 would name their pieces alike; both are made."""
    rows = [good_row(line="2", typed=""), good_row(order="W-1.2", typed="")]
    take(day_world, order_file(*rows))
    codes = set(Piece.objects.values_list("code", flat=True))
    assert codes == {"W-1.2-1", "W-1.2-2", "C1-W-1.2-1", "C1-W-1.2-2"}


def test_a_held_line_has_a_question_and_no_piece(day_world: DayWorld) -> None:
    """Where the typed text and the column differ the customer is asked and nothing is allocated."""
    take(day_world, order_file(good_row(typed="black leads of 5 m")))
    (line,) = lines_received(on=TODAY)
    assert line.state == "held"
    assert any("5\u202fm" in question for question in line.answer.questions)
    assert not Piece.objects.exists()
    assert not Traveller.objects.exists()


def test_a_refused_line_has_a_reason_and_no_piece(day_world: DayWorld) -> None:
    """A run that is far too long is refused with its reason and nothing is allocated."""
    take(day_world, order_file(good_row(length="95 m", typed="95 m", quantity="1")))
    (line,) = lines_received(on=TODAY)
    assert line.state == "refused"
    assert line.answer.reasons
    assert not Piece.objects.exists()


def test_a_line_the_rack_cannot_give_is_held_whole(day_world: DayWorld) -> None:
    """146 m lie in the rack: of fifty pieces of three metres not one is allocated."""
    take(day_world, order_file(good_row(quantity="50", typed="")))
    (line,) = lines_received(on=TODAY)
    assert line.state == "held"
    assert not Piece.objects.exists()


def test_a_second_file_replans_what_is_not_cut(day_world: DayWorld) -> None:
    """What is cut stays cut on its reel; every other planned cut is replaced by a new one."""
    take(day_world)
    first_plan = CutPlan.objects.get()
    reel = PlannedCut.objects.filter(sequence=1).select_related("reel").first()
    assert reel is not None
    cut_confirm(by=day_world.ben, code=reel.piece.code, reel_code=reel.reel.code, on=TODAY)
    take(day_world, order_file(good_row(order="W-9", quantity="1", due=TODAY.isoformat())))
    states = dict(first_plan.cuts.values_list("piece__code", "state"))
    assert states.pop(reel.piece.code) == PlannedCut.State.CUT
    assert set(states.values()) == {PlannedCut.State.REPLACED}
    second_plan = CutPlan.objects.get(number=2)
    planned = set(second_plan.cuts.values_list("piece__code", flat=True))
    assert planned == {*states, "W-9-1"}
    assert Piece.objects.get(code=reel.piece.code).state == Piece.State.CUT


@pytest.mark.parametrize("step", ["plan_cuts", "cut_plan_record", "record_benches"])
def test_nothing_is_half_written(
    day_world: DayWorld, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    """Wherever the work breaks off, no table has a row more; the same file then goes through."""
    before = row_counts()

    def break_off(*_args: object, **_options: object) -> None:
        raise RuntimeError("the lights went out")

    with monkeypatch.context() as patched:
        patched.setattr(services, step, break_off)
        with pytest.raises(RuntimeError, match="lights"):
            take(day_world)
    assert row_counts() == before
    assert take(day_world).recorded_now


def test_a_line_typed_at_the_desk_is_taken_in_once(day_world: DayWorld) -> None:
    """It is answered and planned as a file of one line; typed again it changes nothing."""
    (line,) = read_orders(name="desk", content=order_file(good_row()), vocabulary=WORDS)
    first = line_accept(by=day_world.olga, line=line, on=TODAY)
    before = row_counts()
    again = line_accept(by=day_world.ada, line=line, on=TODAY)
    assert (again.run_id, again.recorded_now) == (first.run_id, False)
    assert row_counts() == before
    # The same line in a file is no other order either.
    assert take(day_world, order_file(good_row())).run_id == first.run_id


@pytest.mark.parametrize("who", ["ben", "vic"])
def test_bench_and_viewer_accept_no_line(day_world: DayWorld, who: str) -> None:
    """Neither may, and nothing is written."""
    (line,) = read_orders(name="desk", content=order_file(good_row()), vocabulary=WORDS)
    before = row_counts()
    with refused("not_allowed"):
        line_accept(by=getattr(day_world, who), line=line, on=TODAY)
    assert row_counts() == before


def test_an_erased_customer_leaves_the_orders(day_world: DayWorld) -> None:
    """The name is in no table any more; orders, answers and pieces stand under the number."""
    content = order_file(
        good_row(customer="Zebulon Quist", typed="Zebulon here: 3 m", set="same lot"),
        good_row(customer="Abel Other"),
    )
    take(day_world, content)
    number = CustomerDetails.objects.get(name="Zebulon Quist").customer.number
    before = row_counts()
    customer_erase(by=day_world.ada, number=number, when=dt.datetime.now(tz=dt.UTC))
    after = row_counts()
    assert {name for name in before if before[name] != after[name]} == {"orders_customerdetails"}
    assert "Zebulon" not in everything_stored()
    line = next(each for each in lines_received(on=TODAY) if each.customer_number == number)
    assert (line.customer_name, line.cells["typed"]) == (f"C-{number:04d}", "")
    assert Answer.objects.filter(line=line.id).exists()
    # The file is still known: taking it in again changes nothing.
    assert not take(day_world, content).recorded_now


def everything_stored() -> str:
    """Every value of every row of the shop, as text."""
    from django.apps import apps

    from tests.day_world import all_models

    return repr(
        [list(model._default_manager.values_list()) for model in all_models(apps.get_app_configs())]
    )


def test_only_who_keeps_people_erases(day_world: DayWorld) -> None:
    """The office may not, an unknown number is refused, and nobody is erased twice."""
    take(day_world)
    now = dt.datetime.now(tz=dt.UTC)
    with refused("not_allowed"):
        customer_erase(by=day_world.olga, number=1, when=now)
    customer_erase(by=day_world.ada, number=1, when=now)
    for number in (1, 99):
        with refused("no_customer"):
            customer_erase(by=day_world.ada, number=number, when=now)


def test_the_stock_is_untouched_by_a_plan(day_world: DayWorld) -> None:
    """A plan promises cable; only a cut takes it off the reel."""
    take(day_world)
    assert reel_now(FULL).length_mm == 100_000


def test_planning_again_takes_what_is_not_cut(day_world: DayWorld) -> None:
    """The cut piece stays cut; the others are planned anew, and no order is entered or answered."""
    take(day_world)
    first = PlannedCut.objects.select_related("piece", "reel").get(sequence=1)
    cut_confirm(by=day_world.ben, code=first.piece.code, reel_code=first.reel.code, on=TODAY)
    before = row_counts()
    plan_again(by=day_world.olga, on=TODAY)
    after = row_counts()
    assert CutPlan.objects.get(number=2).cuts.count() == 2
    assert {
        name for name in before if name.startswith("orders_") and before[name] != after[name]
    } == set()


def test_planning_again_needs_something_to_plan(day_world: DayWorld) -> None:
    """With nothing waiting it is refused, and so it is to bench and viewer; nothing is written."""
    before = row_counts()
    with refused("nothing_to_plan"):
        plan_again(by=day_world.ada, on=TODAY)
    for who in (day_world.ben, day_world.vic):
        with refused("not_allowed"):
            plan_again(by=who, on=TODAY)
    assert row_counts() == before
