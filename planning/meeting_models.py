"""The planning meeting: notes on answers, open points, and the summaries that were shared."""

import hashlib

from django.db import models
from django.utils.translation import gettext_lazy as _

from intake.models import Wedding, new_key

MOST_LETTERS = 2000  # of one note or point


class AnswerNote(models.Model):
    """What the photographer noted beside one of the couple's answers.

    `key` names step, list and row, as `intake.read_through` does; `about` is the answer's heading
    when the note was kept, for the day its row is gone. An answer is settled as it was then:
    `settled_as` is its mark (`intake.merging.mark`), so that a later change of it opens it again.
    """

    wedding = models.ForeignKey(Wedding, models.CASCADE, related_name="answer_notes")
    key = models.CharField(max_length=100)
    about = models.CharField(max_length=300, blank=True)
    text = models.TextField(_("note"), max_length=MOST_LETTERS, blank=True)
    for_couple = models.BooleanField(_("into the summary"), default=False)
    settled = models.BooleanField(_("settled"), default=False)
    settled_as = models.CharField(max_length=8, blank=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["wedding", "key"], name="answer_note_once")]

    def __str__(self) -> str:
        return self.about or self.key


class Agreement(models.Model):
    """One version of the summary as the couple were shown it, word for word, and who confirmed it.

    `snapshot` is the exact text that `digest` (SHA-256, in hexadecimal) was made of. A version is
    never written again, but for its confirmation, which comes once.
    """

    wedding = models.ForeignKey(Wedding, models.CASCADE, related_name="agreements")
    number = models.PositiveIntegerField()
    snapshot = models.TextField()
    digest = models.CharField(max_length=64)
    shared_at = models.DateTimeField()
    confirmed_by = models.CharField(_("your full name"), max_length=120, blank=True)
    confirmed_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-number"]
        constraints = [
            models.UniqueConstraint(fields=["wedding", "number"], name="agreement_number_once")
        ]

    def __str__(self) -> str:
        return f"{self.wedding}, {self.number}"

    @property
    def is_intact(self) -> bool:
        return hashlib.sha256(self.snapshot.encode()).hexdigest() == self.digest

    @property
    def fingerprint(self) -> str:
        """The digest's beginning, short enough to compare by eye."""
        return " ".join(self.digest[i : i + 4] for i in range(0, 16, 4))


class MeetingPoint(models.Model):
    """Something to settle: added by the photographer, or said by the couple of a summary."""

    class By(models.TextChoices):
        PHOTOGRAPHER = "photographer", _("photographer")
        COUPLE = "couple", _("couple")

    wedding = models.ForeignKey(Wedding, models.CASCADE, related_name="meeting_points")
    key = models.SlugField(max_length=40, default=new_key)
    by = models.CharField(max_length=12, choices=By.choices, default=By.PHOTOGRAPHER)
    agreement = models.ForeignKey(Agreement, models.CASCADE, null=True, blank=True)
    text = models.TextField(_("what is open"), max_length=MOST_LETTERS)
    note = models.TextField(_("note"), max_length=MOST_LETTERS, blank=True)
    for_couple = models.BooleanField(_("into the summary"), default=False)
    settled = models.BooleanField(_("settled"), default=False)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["created_at", "pk"]
        constraints = [models.UniqueConstraint(fields=["wedding", "key"], name="point_once")]

    def __str__(self) -> str:
        return self.text
