"""What to tell each customer: on paper, and as text to paste."""

from reelwright.documents.answers.content import Answer, AnswerKind, Answers, Figure
from reelwright.documents.answers.paper import render_answers
from reelwright.documents.answers.plain import answers_text

__all__ = ["Answer", "AnswerKind", "Answers", "Figure", "answers_text", "render_answers"]
