"""Summary, shortages and expected values of a recorded day."""

from dataclasses import replace
from decimal import Decimal

import pytest

from reelwright.documents.expected_values import NOT_A_CERTIFICATE
from reelwright.shop.day.pack import shortages as shortages_module
from reelwright.shop.day.pack.expected import expected_paper
from reelwright.shop.day.pack.shortages import shortages_paper
from reelwright.shop.day.pack.summary import summary_paper
from tests.shop.day.pack.conftest import Pack, plain


def test_the_summary_counts_what_is_recorded(pack: Pack) -> None:
    """The seven numbers are those of the records, on one page."""
    paper = summary_paper(pack.data, shortages_paper(pack.data))
    values = {number.name: plain(number.value) for number in paper.numbers}
    for state in ("accepted", "held", "refused"):
        assert values[state] == str(len(pack.data.with_state(state)))
    prices = [view.answer.price for view in pack.data.with_state("accepted")]
    total = sum((Decimal(price.line_price) for price in prices if price), Decimal(0))
    assert values["accepted value"] == f"{total:,.2f} EUR"
    assert values["cuts"] == f"{len(pack.data.cut_reels)} reels"
    (page,) = pack.pages("summary.pdf")
    for value in values.values():
        assert value in page


def test_every_question_and_warning_stands_on_the_summary(pack: Pack) -> None:
    """Nothing that waits for the lead is left out while there is room for it."""
    (page,) = pack.pages("summary.pdf")
    for view in pack.data.with_state("held"):
        assert plain(view.answer.questions[0])[:60] in page
    assert pack.data.cut_plan is not None
    for warning in pack.data.cut_plan.content["warnings"]:
        assert plain(warning) in page


def test_one_question_to_many_is_said_once(pack: Pack) -> None:
    """Lines that wait for the same answer share one sentence that names them all."""
    held = pack.data.with_state("held")[:3]
    question = "Which rate does it run at?"
    asked = tuple(
        replace(view, answer=replace(view.answer, questions=(question,))) for view in held
    )
    data = replace(pack.data, lines=asked)
    told = [look.sentence for look in summary_paper(data, shortages_paper(data)).look_first]
    assert [sentence for sentence in told if question in sentence] == [
        f"{', '.join(view.label for view in held)}: {question}"
    ]


def test_every_reel_to_fetch_stands_by_its_place(pack: Pack) -> None:
    """The reels of the cut list stand once each, under the place that is recorded for them."""
    paper = summary_paper(pack.data, shortages_paper(pack.data))
    fetched = {reel: fetch.place for fetch in paper.fetch for reel in fetch.reels}
    assert fetched == {reel["reel"]: reel["location"] for reel in pack.data.cut_reels}


def test_lines_due_today_are_named_with_their_hour(pack: Pack) -> None:
    """Those whose day is today, and no other."""
    paper = summary_paper(pack.data, shortages_paper(pack.data))
    due = [
        view.label
        for view in pack.data.with_state("accepted")
        if view.cells["due"] == pack.data.on.isoformat()
    ]
    assert due
    assert [line.split(",")[0] for line in paper.due_today] == due
    assert all("packed 1" in line for line in paper.due_today)


def test_a_held_line_that_lacks_cable_is_short(pack: Pack) -> None:
    """Four cables are wanted in orange and the rack gives two: two are short, named and dated."""
    (orange,) = [each for each in shortages_paper(pack.data).shortages if each.colour == "orange"]
    assert (orange.item, orange.orders) == ("VID-60", ("O-04",))
    assert plain(orange.missing) == "2 pieces, 15.3 m"
    assert orange.have == "the line is held until there is more"
    assert orange.needed_by == "Fri 27 Nov"


def test_spares_that_find_no_cable_are_short_of_spares_only(pack: Pack) -> None:
    """The red set of thirty is served; the two more spares it would have are told as such."""
    (red,) = [each for each in shortages_paper(pack.data).shortages if each.colour == "red"]
    assert red.orders == ("O-12",)
    assert red.have.startswith("spare pieces only")


def test_connectors_are_counted_against_the_bins(
    pack: Pack, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With one too few in a bin, one is short; with just enough, none is."""
    wanted: dict[str, int] = {}
    for view in pack.data.with_state("accepted"):
        make = view.answer.make
        assert make is not None
        for code in (make.connector_a, make.connector_b):
            wanted[code] = wanted.get(code, 0) + len(pack.data.pieces[view.id])
    monkeypatch.setattr(shortages_module, "connectors_on_hand", lambda: dict(wanted))
    assert not [s for s in shortages_paper(pack.data).shortages if s.item in wanted]
    fewer = {**wanted, "8P8C": wanted["8P8C"] - 1}
    monkeypatch.setattr(shortages_module, "connectors_on_hand", lambda: fewer)
    (short,) = [s for s in shortages_paper(pack.data).shortages if s.item in wanted]
    assert (short.item, short.missing) == ("8P8C", "1 connector")
    assert set(short.orders) == {"A-126", "A-127", "A-128", "A-129"}


def test_every_cable_has_its_expected_values(pack: Pack) -> None:
    """Each serial of each lot is covered once, and every page says that nothing was measured."""
    paper = expected_paper(pack.data)
    assert paper is not None
    covered = {(line.order, line.lot): line for line in paper.lines}
    for view in pack.data.with_state("accepted"):
        lots = {piece.lot for piece in pack.data.pieces[view.id]}
        assert {lot for order, lot in covered if order == view.order} == lots
        for lot in lots:
            serials = [p.serial for p in pack.data.pieces[view.id] if p.lot == lot]
            told = covered[view.order, lot or ""].cables
            assert {serials[0], serials[-1]} <= set(told.replace(",", " ").split())
    assert all(NOT_A_CERTIFICATE in page for page in pack.pages("expected-values.pdf"))


def test_the_loss_expected_and_the_loss_answered_differ_by_the_ends(pack: Pack) -> None:
    """Of the cable alone, and at the frequency of the limit: twice 0.1 dB less than the answer.

    0.1 dB an end: the demo workshop's data sheets of its connectors.
    """
    paper = expected_paper(pack.data)
    assert paper is not None
    compared = 0
    for line in paper.lines:
        (view,) = [view for view in pack.data.lines if view.order == line.order]
        for row in line.rows:
            if not row.name.startswith("loss at") or not row.limit:
                continue
            check = next(check for check in view.answer.checks if check.name == row.name)
            told = [plain(each).split()[0] for each in (check.value, row.value)]
            # Both are rounded as they are shown: half a step of the last figure of each.
            rounded = sum(0.5 * 10 ** -len(each.partition(".")[2]) for each in told)
            assert float(told[0]) - float(told[1]) == pytest.approx(0.2, abs=rounded + 1e-9)
            compared += 1
    assert compared > 8
