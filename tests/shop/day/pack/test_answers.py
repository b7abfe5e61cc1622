"""The answers of a recorded day: each line once, each thing once."""

from reelwright.documents.answers import AnswerKind
from reelwright.shop.day.pack.answers import answer_of, answers_paper
from tests.shop.day.pack.conftest import Pack, plain


def test_every_line_is_answered_once(pack: Pack) -> None:
    """Each line stands once on the paper and once in the text, held ones first."""
    paper = answers_paper(pack.data)
    kinds = [answer.kind for answer in paper.answers]
    assert len(kinds) == len(pack.data.lines) == 51
    assert kinds == sorted(
        kinds, key=[AnswerKind.HELD, AnswerKind.REFUSED, AnswerKind.ACCEPTED].index
    )
    text = pack.files["answers.txt"].decode()
    pages = " ".join(pack.pages("answers.pdf"))
    for view in pack.data.lines:
        assert text.count(f"\n{view.order}, line {view.number} · ") == 1
        assert pages.count(f"{view.order} line {view.number} ") == 1


def test_what_the_customer_wrote_stands_word_for_word(pack: Pack) -> None:
    """The typed text of every line stands in the answers, quotes and all."""
    text = " ".join(plain(pack.files["answers.txt"].decode()).split())
    for view in pack.data.lines:
        assert " ".join(plain(view.cells["typed"]).split()) in text


def test_a_question_is_asked_once(pack: Pack) -> None:
    """The first question of a held line is its headline and stands nowhere else in its answer."""
    held = pack.data.with_state("held")
    assert len(held) >= 5
    blocks = pack.files["answers.txt"].decode().split("-" * 78)
    for view in held:
        (block,) = [each for each in blocks if f"\n{view.order}, line {view.number} · " in each]
        told = " ".join(plain(block).split()).casefold()
        for question in view.answer.questions:
            assert told.count(" ".join(plain(question).split()).casefold()) == 1


def test_a_refusal_gives_each_reason_once(pack: Pack) -> None:
    """No reason of a refused line stands twice on its answer."""
    refused = pack.data.with_state("refused")
    assert len(refused) >= 3
    blocks = pack.files["answers.txt"].decode().split("-" * 78)
    for view in refused:
        (block,) = [each for each in blocks if f"\n{view.order}, line {view.number} · " in each]
        told = " ".join(plain(block).split()).casefold()
        for reason in view.answer.reasons:
            assert told.count(" ".join(plain(reason).split()).rstrip(".").casefold()) == 1


def test_figures_are_of_the_check_that_decides(pack: Pack) -> None:
    """An accepted line that was computed shows value, limit and margin, and both prices."""
    computed = 0
    for view in pack.data.with_state("accepted"):
        answer = answer_of(view, currency="EUR")
        names = [figure.name for figure in answer.figures]
        assert names[-2:] == ["each", "line"]
        if len(names) == 5:
            computed += 1
            assert names[1:3] == ["limit", "to spare"]
            (check,) = [
                each
                for each in view.answer.checks
                if (each.name, each.value) == (names[0], answer.figures[0].value)
            ]
            assert (check.limit, check.margin) == tuple(f.value for f in answer.figures[1:3])
    assert computed > 20


def test_offers_say_their_currency(pack: Pack) -> None:
    """Every price in the text has its currency, that of offers to lines without price too."""
    text = plain(pack.files["answers.txt"].decode())
    told = " ".join(text.split())
    assert "Price " in told
    for part in told.split("Price ")[1:]:
        assert part.split()[1] == "EUR"
