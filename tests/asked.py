"""Questions of a studio's own, as tests need them. Everybody is invented."""

from intake.models import Answer, Question

EACH = {  # a question of every kind that a form answers, what is typed, and what is kept
    "short": ("Three words about the day?", "Warm, slow, loud", "Warm, slow, loud"),
    "long": ("What have you made yourselves?", "Seeds.\r\nCake.", "Seeds.\nCake."),
    "yes_no": ("Any animals?", "unknown", "unknown"),
    "one": ("In front of a camera?", "Shy", "Shy"),
    "several": ("Who brings a camera?", ["Oma", "Ödön’s aunt"], ["Oma", "Ödön’s aunt"]),
    "date": ("When is the rehearsal?", "11 June 2027", "2027-06-11"),
    "number": ("How many tables?", "12,50", "12.5"),
}
CHOICES = {"one": "At ease\nShy\n100 % sure", "several": "Oma\nÖdön’s aunt\nNobody"}


def ask(wedding=None, kind="short", answer=None, by=None, **more):
    """A question, and with `answer` what a wedding (`by`, or its own) has said to it."""
    values = {"text": EACH.get(kind, ("Your list?",))[0], "choices": CHOICES.get(kind, "")} | more
    question = Question.objects.create(wedding=wedding, kind=kind, **values)
    if answer is not None:
        said = {"asked": question.text, "value": answer, "kind": kind}
        Answer.objects.create(wedding=by or wedding, question=question, **said)
    return question


def box(question):
    """The name of its box on a couple's page."""
    return f"own-q{question.pk}"


def kept_as(kept, called):
    return {"file": kept.name, "small": kept.small, "digest": kept.digest, "called": called}
