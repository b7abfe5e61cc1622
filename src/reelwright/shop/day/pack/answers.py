"""What to tell each customer."""

from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import with_unit
from reelwright.core.quantities.words import counted
from reelwright.documents.answers import Answer, AnswerKind, Answers, Figure
from reelwright.shop.day.pack.gather import PackData
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
            ("Held lines come first: each needs an answer before it can move. " if held else "")
            + "Prices hold for the quantity of the line."
        ),
        answers=tuple(answer_of(view, currency=data.currency) for view in lines),
    )


def answer_of(view: LineView, *, currency: str) -> Answer:
    """Return one line's answer as the paper shows it."""
    given = view.answer
    return Answer(
        order=view.order,
        line=str(view.number),
        customer=view.customer_name,
        kind=AnswerKind(view.state),
        asked=view.cells.get("typed", ""),
        sentence=given.headline,
        reading=given.reading,
        reasons=(*given.reasons, *given.notes),
        figures=_figures(view),
        offers=tuple(
            offer.sentence
            if offer.price is None
            else f"{offer.sentence} Price {offer.price}{NARROW_SPACE}{currency} each."
            for offer in given.offers
        ),
        questions=given.questions,
    )


def _figures(view: LineView) -> tuple[Figure, ...]:
    given = view.answer
    figures = []
    # Of checks that came out alike the first with figures is the one that decides.
    main = given.worst
    if main is not None:
        alike = [check for check in given.checks if check.outcome == main.outcome]
        main = next((check for check in alike if check.margin and check.value), None)
    if main is not None:
        figures.append(Figure(name=main.name, value=main.value))
        figures.append(Figure(name="limit", value=main.limit or "none"))
        figures.append(Figure(name="to spare", value=main.margin))
    if given.price is not None:
        currency = given.price.currency
        figures.append(Figure(name="each", value=with_unit(str(given.price.unit_price), currency)))
        figures.append(Figure(name="line", value=with_unit(str(given.price.line_price), currency)))
    return tuple(figures)
