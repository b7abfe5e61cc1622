"""What to tell each customer."""

from reelwright.documents.answers import Answer, AnswerKind, Answers, Figure
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.day.words import SPACE, counted
from reelwright.shop.orders.answer import ACCEPTED, HELD, REFUSED
from reelwright.shop.orders.selectors import LineView

# Held first: somebody waits for a question. Then what is refused, then the good news.
_ORDER = {HELD: 0, REFUSED: 1, ACCEPTED: 2}


def answers_paper(data: PackData) -> Answers:
    """Return the paper of all answers."""
    lines = sorted(data.lines, key=lambda view: (_ORDER[view.state], view.order, view.number))
    accepted, held, refused = (len(data.with_state(each)) for each in (ACCEPTED, HELD, REFUSED))
    return Answers(
        mark=data.mark("ANS"),
        sentence=(
            f"{counted(len(lines), 'line')}: {accepted} accepted, {held} held, {refused} refused"
        ),
        lead=(
            "Held lines come first: each needs one answer before it can move. Prices hold as "
            "quoted for the quantity of the line."
        ),
        answers=tuple(answer_of(view) for view in lines),
    )


def answer_of(view: LineView) -> Answer:
    """Return one line's answer as the paper shows it."""
    given = view.answer
    return Answer(
        order=view.order,
        line=str(view.number),
        customer=view.customer_name,
        kind=AnswerKind(view.state),
        asked=view.cells.get("typed", ""),
        sentence=given.headline,
        reasons=(f"Read as {given.reading}.", *given.reasons, *given.notes),
        figures=_figures(view),
        offers=tuple(
            offer.sentence
            if offer.price is None
            else f"{offer.sentence} {_price(view, offer.price)}"
            for offer in given.offers
        ),
        questions=given.questions,
    )


def _price(view: LineView, amount: str | None) -> str:
    if amount is None:
        return ""
    currency = "" if view.answer.price is None else f"{SPACE}{view.answer.price.currency}"
    return f"Price {amount}{currency} each."


def _figures(view: LineView) -> tuple[Figure, ...]:
    given = view.answer
    figures = []
    worst = given.worst
    if worst is not None and worst.margin and worst.value:
        figures.append(Figure(name=worst.name, value=worst.value))
        figures.append(Figure(name="limit", value=worst.limit or "none"))
        figures.append(Figure(name="to spare", value=worst.margin))
    if given.price is not None:
        currency = given.price.currency
        figures.append(Figure(name="each", value=f"{given.price.unit_price}{SPACE}{currency}"))
        figures.append(Figure(name="line", value=f"{given.price.line_price}{SPACE}{currency}"))
    return tuple(figures)
