"""The studio's own questions in the demo, and short forms for what couples say to them."""

from __future__ import annotations

from intake import sharing_words as words
from intake.models import Answer, Question, Wedding
from intake.own_fields import YES_NO
from planning.brief_asked import USES
from planning.compute.values import Allowed, OwnAnswer

CAMERA = ("At ease", "Shy at first", "We would rather not notice it")
QUESTIONS = (
    Question(
        key="demo-camera",
        text="How do you feel in front of a camera?",
        hint="It tells us how much to say, and how far away to stand.",
        kind=Question.Kind.ONE,
        choices="\n".join(CAMERA),
    ),
    Question(
        key="demo-made",
        text="What have you made yourselves for the day?",
        hint="So that we photograph it before the guests come in.",
        kind=Question.Kind.LONG,
    ),
    Question(
        key="demo-animals",
        text="Will there be animals?",
        kind=Question.Kind.YES_NO,
        step="people",
    ),
)
CHOICES = (words.Online, words.Children, words.Gallery, words.Suppliers)


def ask_questions() -> None:
    """The studio's questions, where it has none."""
    if not Question.objects.filter(wedding=None).exists():
        for position, question in enumerate(QUESTIONS):
            question.pk, question.position = None, position
            question.save(force_insert=True)


def answer(wedding: Wedding, said: tuple[OwnAnswer, ...]) -> None:
    figures = {str(label): value for value, label in YES_NO}
    for each in said:
        question = Question.objects.filter(wedding=None, text=each.asked).first()
        if question:
            value = figures.get(each.words, each.words)
            mine = {"question": question, "kind": question.kind, "asked": each.asked}
            Answer.objects.create(wedding=wedding, value=value, **mine)


def said(camera: str = "", made: str = "", animals: str = "") -> tuple[OwnAnswer, ...]:
    """Answers to the demo's questions, as a brief has them."""
    pairs = zip(QUESTIONS, (camera, made, animals), strict=True)
    return tuple(OwnAnswer(q.text, text, q.step) for q, text in pairs if text)


def allowed(online: str, children: str, gallery: str, supplier_use: str) -> tuple[Allowed, ...]:
    answers = zip(USES, CHOICES, (online, children, gallery, supplier_use), strict=True)
    return tuple(Allowed(use, value, str(choices(value).label)) for use, choices, value in answers)
