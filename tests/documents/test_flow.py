"""Papers that grow: where they break, and the one that never does."""

from dataclasses import replace

import pytest

from reelwright.core.errors import BadValue
from reelwright.documents.answers import AnswerKind, answers_text, render_answers
from reelwright.documents.bench_plan import render_bench_plan
from reelwright.documents.cut_list import render_cut_list
from reelwright.documents.expected_values import NOT_A_CERTIFICATE, render_expected_values
from reelwright.documents.shortages import render_shortages
from reelwright.documents.summary import render_summary
from tests.documents import pdfs, sheets


@pytest.mark.parametrize("n_to_look_at", [0, 3, 20, 200])
@pytest.mark.parametrize("n_sentences", [1, 12, 40])
def test_the_summary_is_one_page_whatever_stands_on_it(n_to_look_at: int, n_sentences: int) -> None:
    """One page always; what has no room is counted on it."""
    content = sheets.summary(
        n_to_look_at=n_to_look_at, sentence="43 of 52 orders go to the benches. " * n_sentences
    )
    pages = pdfs.texts(render_summary(content))
    assert len(pages) == 1
    shown = pages[0].count("The 6.48 die nears")
    if shown < n_to_look_at:
        assert f"And {n_to_look_at - shown} more" in pages[0]
    else:
        assert "more, in the answers" not in pages[0]


def test_the_summary_shows_the_day_where_there_is_room() -> None:
    """Day, parcels and reels stand below ten things to look at, and give way where those and a
    long sentence leave no room."""
    (text,) = pdfs.texts(render_summary(sheets.summary()))
    assert "O-09, 2 cables, packed 15:37" in text
    assert "B4 R-115, R-116" in text
    (full,) = pdfs.texts(render_summary(sheets.summary(n_to_look_at=40)))
    assert "R-115" in full
    assert "Ø 6.05" in full
    assert full.count("The 6.48 die nears") >= 10
    (over,) = pdfs.texts(
        render_summary(sheets.summary(n_to_look_at=40, sentence="43 of 52 orders. " * 400))
    )
    assert "R-115" not in over
    assert "Ø 6.05" not in over


def test_no_line_ends_inside_a_rate_or_a_code() -> None:
    """Rates, codes and "set-up" stay on one line however narrow the rest is set."""
    for n in range(60):
        sentence = f"{'x' * n} runs at 11.88 Gb/s on VID-60 by its set-up."
        look = replace(sheets.summary().look_first[0], sentence=sentence)
        pdf = render_summary(replace(sheets.summary(), look_first=(look,)))
        assert not pdfs.broken(pdf, ("Gb/s", "VID-60", "set-up"))


def test_a_reel_stays_whole_where_it_can() -> None:
    """Reels of a few cuts never break: drawing, cuts and remnant stand on one page."""
    reels = [sheets.reel(f"R-{n}", 6) for n in range(101, 113)]
    pages = pdfs.texts(render_cut_list(sheets.cut_list(*reels)))
    assert len(pages) > 2
    for reel in reels:
        holding = {n for n, text in enumerate(pages) for cut in reel.cuts if cut.pieces in text}
        assert len(holding) == 1
    assert not any("continued" in text for text in pages)


def test_a_long_reel_goes_on_under_its_name() -> None:
    """Ninety cuts of one reel break over pages, each further page saying which reel goes on."""
    pages = pdfs.texts(render_cut_list(sheets.cut_list(sheets.reel("R-111", 90))))
    assert len(pages) > 1
    assert "R-111, continued" not in pages[0]
    # The last page may hold only what stays on the reel.
    with_cuts = [text for text in pages[1:] if "R-111-P" in text]
    assert with_cuts
    assert all("R-111, continued" in text for text in with_cuts)
    assert sum(text.count("R-111-P") for text in pages) == 90


def test_cuts_of_one_length_share_a_row_and_keep_a_tick_each() -> None:
    """Fourteen alike stand in one row, "3–16", with fourteen numbered boxes."""
    alike = replace(
        sheets.reel("R-161", 1).cuts[0],
        before="Now cut out 0.20 m with the flaw.",
        first=3,
        pieces="O-07-…",
        ticks=tuple(str(n) for n in range(101, 115)),
    )
    (text,) = pdfs.texts(
        render_cut_list(sheets.cut_list(replace(sheets.reel("R-161", 1), cuts=(alike,))))
    )
    assert "Now cut out 0.20 m with the flaw. 3–16 O-07-…" in text
    assert "101 102 103 104 105 106 107 108 109 110 111 112 113 114" in text
    with pytest.raises(BadValue, match="ticks"):
        replace(alike, ticks=())


def test_an_answer_is_not_broken() -> None:
    """Forty answers fill pages, and each stands whole on one of them."""
    base = sheets.answers()
    many = tuple(
        replace(
            base.answers[0],
            order=f"Q-{n:02d}",
            sentence=f"No number {n:02d}.",
            questions=(f"Question {n:02d}?",),
        )
        for n in range(40)
    )
    pages = pdfs.texts(render_answers(replace(base, answers=many)))
    assert len(pages) > 3
    for n in range(40):
        (page,) = [text for text in pages if f"Q-{n:02d}" in text]
        assert f"No number {n:02d}." in page
        assert f"Question {n:02d}?" in page


def test_each_kind_of_answer_is_said_in_words() -> None:
    """Accepted, held and refused stand as words, so that black and white loses nothing."""
    (text,) = pdfs.texts(render_answers(sheets.answers()))
    for answer in sheets.answers().answers:
        assert answer.kind.value in text
        assert answer.sentence.replace("\u202f", " ") in text.replace("\u202f", " ")


def test_answers_as_text_hold_everything() -> None:
    """The text to paste has each sentence, reason, figure, offer and question, lines below 80."""
    content = sheets.answers()
    text = answers_text(content)
    joined = " ".join(text.split())
    for answer in content.answers:
        parts = (answer.sentence, answer.reading, *answer.reasons, *answer.offers)
        for part in (*parts, *answer.questions):
            assert " ".join(part.split()) in joined
        for figure in answer.figures:
            assert f"{figure.name}: {figure.value}" in text
    assert max(len(line) for line in text.splitlines()) < 80
    assert text.endswith("\n")


def test_what_the_sentence_says_is_said_once() -> None:
    """A question or reason that is the sentence itself stands once, on paper and as text."""
    base = sheets.answers()
    question, more = "The rack gives two of four: which do you want?", "By when?"
    held = replace(
        base.answers[1],
        sentence=f"Held: {question[0].lower()}{question[1:]}",
        reasons=(f"It is 25 ft. {question}", "Nothing is ordered."),
        questions=(question, more),
    )
    refused = replace(
        base.answers[0],
        sentence="No: the jacket is 1.32 mm too thick.",
        reasons=("The jacket is 1.32 mm too thick.", "The conductor is stranded."),
    )
    content = replace(base, answers=(held, refused))
    (page,) = pdfs.texts(render_answers(content))
    for text in (page, " ".join(answers_text(content).split())):
        assert text.lower().count(question.lower()) == 1
        assert text.lower().count("1.32 mm too thick") == 1
        for left in ("It is 25 ft.", "Nothing is ordered.", "By when?", "is stranded"):
            assert text.count(left) == 1


def test_a_held_answer_needs_a_question_and_a_refusal_a_reason() -> None:
    """An answer that leaves the customer without a next step is refused when built."""
    answer = sheets.answers().answers[0]
    with pytest.raises(BadValue, match="questions"):
        replace(answer, kind=AnswerKind.HELD, questions=())
    with pytest.raises(BadValue, match="reasons"):
        replace(answer, reasons=())


def test_expected_values_say_on_every_page_that_nothing_was_measured() -> None:
    """Each page, not only the first, says in words that it is no certificate."""
    base = sheets.expected_values()
    pages = pdfs.texts(render_expected_values(replace(base, lines=base.lines * 60)))
    assert len(pages) > 3
    assert all(NOT_A_CERTIFICATE in text for text in pages)


def test_a_value_without_spread_says_so() -> None:
    """Expected value and spread stand beside each other; an unknown spread is said in words."""
    (text,) = pdfs.texts(render_expected_values(sheets.expected_values()))
    plain = text.replace("\u202f", " ")
    assert "2.43 dB ± 0.07 dB" in plain
    assert "0.51 Ω not known" in plain


def test_a_source_is_said_once_and_numbered_at_each_figure() -> None:
    """Thirty lines from the same two sources print each source once, its number at every figure."""
    base = sheets.expected_values()
    text = " ".join(pdfs.texts(render_expected_values(replace(base, lines=base.lines * 30))))
    for number, row in enumerate(base.lines[0].rows, start=1):
        assert text.count(f"{number} {row.source}") == 1
    plain = text.replace("\u202f", " ")
    assert plain.count("2.43 dB ± 0.07 dB 1") == 30
    assert plain.count("0.51 Ω not known 2") == 30


def test_the_bench_plan_names_what_is_late() -> None:
    """A late batch is marked by a word, and its sentence stands above the drawing."""
    (text,) = pdfs.texts(render_bench_plan(sheets.bench_plan()))
    assert "late today 16:00" in text
    assert "O-02 misses the courier of 16:00 by 20 minutes." in text
    assert "The work runs until 17:10; the day ends at 16:30." in text
    assert text.count("nothing") == 1


def test_papers_may_be_empty() -> None:
    """A day with nothing to cut, nothing missing and nobody at the benches still prints."""
    assert (
        "No reel is cut today."
        in pdfs.texts(render_cut_list(replace(sheets.cut_list(), reels=(), warnings=())))[0]
    )
    nothing = replace(sheets.shortages(), sentence="Nothing is missing", shortages=())
    assert "Nothing is missing" in pdfs.texts(render_shortages(nothing))[0]
    idle = replace(sheets.bench_plan(), rows=(), people=(), late=(), day_svg="")
    assert len(pdfs.texts(render_bench_plan(idle))) == 1


def test_the_summary_has_seven_numbers() -> None:
    """Six or eight numbers are refused when built."""
    content = sheets.summary()
    for numbers in (content.numbers[:6], content.numbers + content.numbers[:1]):
        with pytest.raises(BadValue, match="exactly 7"):
            replace(content, numbers=numbers)
