"""What left the house as a calendar, and the secret addresses at which it is fetched."""

from django.conf import settings
from django.db import models

from intake.keys import new_key, new_nonce
from intake.models import Wedding


class GivenEntry(models.Model):
    """An entry as readers of our calendars have it.

    No part of the plan: nothing is planned from it. It is written when a calendar is handed out,
    and only then, since a reader takes an entry for a newer one by its SEQUENCE (RFC 5545,
    3.8.7.4), and lets go of one that is no more when it is told so once.
    """

    uid = models.UUIDField(primary_key=True)
    # None where it is the studio's own, or of a wedding that was erased: then without a word.
    wedding = models.ForeignKey(
        Wedding, models.CASCADE, null=True, blank=True, related_name="given_entries"
    )
    digest = models.CharField(max_length=64)
    sequence = models.PositiveIntegerField(default=0)
    changed_at = models.DateTimeField()
    cancelled = models.BooleanField(default=False)
    # What a cancelled entry still has to say; times as ISO 8601, dates for whole days.
    summary = models.TextField()
    starts = models.CharField(max_length=40)
    ends = models.CharField(max_length=40)

    def __str__(self) -> str:
        return self.summary


class CalendarAddress(models.Model):
    """A photographer's own address of the season's calendar; without this row they have none.

    `digest` is of the file as it was last given out there, `changed_at` when it first was so:
    what readers are told has changed since they asked.
    """

    user = models.OneToOneField(
        settings.AUTH_USER_MODEL, models.CASCADE, related_name="calendar_address"
    )
    key = models.SlugField(max_length=40, unique=True, default=new_key)
    nonce = models.CharField(max_length=64, default=new_nonce)
    digest = models.CharField(max_length=64, blank=True)
    changed_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return f"{self.user}"
