"""Answers onto A4."""

from reelwright.documents.answers.content import Answers
from reelwright.documents.press import print_pdf


def render_answers(content: Answers) -> bytes:
    """The answers as PDF; each answer stays on one page where it can."""
    return print_pdf(
        "answers/answers.typ",
        {
            "mark": content.mark,
            "sentence": content.sentence,
            "lead": content.lead,
            "answers": [
                {
                    "answer": answer,
                    "reasons": answer.further_reasons,
                    "questions": answer.further_questions,
                }
                for answer in content.answers
            ],
        },
    )
