"""Questions of the studio's own, and what couples answered.

The photographer writes the questions. They live on the couple's side all the same, since the
couple's pages are made of them and intake never imports planning.
"""

from django.db import models

from .keys import new_key


class Question(models.Model):
    """Asked of every couple, or of one where there is a `wedding`.

    A question that is taken out stays here, so that an answer on its way finds it. `choices` has
    one a line; `step` is the slug of the couple's page on which it stands.
    """

    class Kind(models.TextChoices):
        SHORT = "short"
        LONG = "long"
        YES_NO = "yes_no"
        ONE = "one"
        SEVERAL = "several"
        DATE = "date"
        NUMBER = "number"
        FILE = "file"

    wedding = models.ForeignKey(
        "intake.Wedding", models.CASCADE, null=True, blank=True, related_name="questions"
    )
    key = models.SlugField(max_length=40, unique=True, default=new_key)
    position = models.PositiveIntegerField(default=0)
    text = models.CharField(max_length=300)
    hint = models.CharField(max_length=300, blank=True)
    kind = models.CharField(max_length=10, choices=Kind.choices)
    choices = models.TextField(max_length=4000, blank=True)
    step = models.SlugField(max_length=20, default="more")
    needed = models.BooleanField(default=False)
    hidden = models.BooleanField(default=False)
    removed = models.BooleanField(default=False)

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.text

    @property
    def token(self) -> str:
        """What stands for it among the things that a wedding is not asked."""
        return f"question.{self.key}"


class Answer(models.Model):
    """What a couple answered, and the words in which they were asked.

    One for each kind that the question had: where it becomes another, what was said to it before
    stays as it was. `value` is a text, or a list of them; dates as ISO 8601, numbers in figures.
    Of a file it is what file_views.py keeps: where it lies, and what it was called.
    """

    wedding = models.ForeignKey("intake.Wedding", models.CASCADE, related_name="own_answers")
    question = models.ForeignKey(Question, models.CASCADE, related_name="answers")
    kind = models.CharField(max_length=10, choices=Question.Kind.choices)
    asked = models.CharField(max_length=300)
    value = models.JSONField()

    class Meta:
        ordering = ["question__position", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["wedding", "question", "kind"], name="answer_once")
        ]

    def __str__(self) -> str:
        return self.asked
