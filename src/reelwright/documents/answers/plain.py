"""Answers as text, to be pasted into a message."""

import textwrap

from reelwright.documents.answers.content import Answer, Answers

_WIDTH = 78


def answers_text(content: Answers) -> str:
    """Every answer as plain text, one block an order line, ruled apart; ends with a line feed."""
    head = f"{content.mark.workshop} · Answers · {content.mark.date}\n{content.sentence}\n"
    rule = "\n" + "-" * _WIDTH + "\n\n"
    return rule.join([head, *(_one(answer) for answer in content.answers)])


def _one(answer: Answer) -> str:
    out = [f"{answer.order}, line {answer.line} · {answer.customer} · {answer.kind.value}"]
    if answer.asked:
        out += ["", _filled(f"You wrote: “{answer.asked}”")]
    out += ["", _filled(answer.sentence)]
    if answer.reading:
        out += [_item(f"Read as {answer.reading}.")]
    out += [_item(reason) for reason in answer.further_reasons]
    if answer.figures:
        out += ["", *(f"  {figure.name}: {figure.value}" for figure in answer.figures)]
    if answer.offers:
        out += ["", "What we can do:", *(_item(offer) for offer in answer.offers)]
    further = answer.further_questions
    if further:
        asking = "Please tell us:" if further == answer.questions else "Please tell us too:"
        out += ["", asking, *(_item(question) for question in further)]
    return "\n".join(out) + "\n"


def _filled(text: str) -> str:
    return textwrap.fill(text, _WIDTH, break_long_words=False, break_on_hyphens=False)


def _item(text: str) -> str:
    return textwrap.fill(
        text,
        _WIDTH,
        initial_indent="- ",
        subsequent_indent="  ",
        break_long_words=False,
        break_on_hyphens=False,
    )
