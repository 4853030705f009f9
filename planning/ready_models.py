"""What the studio ticked, what it adds to every list, and the insurance it holds."""

from django.conf import settings
from django.core.validators import MaxValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from intake.models import Wedding, new_key

from .compute.cover import KINDS

MOST_DAYS = 1500  # a little more than four years


class ReadyTick(models.Model):
    """One line of a ready list, ticked: one row each, so that nobody overwrites anybody.

    `key` is that of `compute.ready.entry_key`; `by_name` stays when the account goes.
    """

    class State(models.TextChoices):
        DONE = "done", _("done")
        NOT_NEEDED = "not_needed", _("not needed here")

    wedding = models.ForeignKey(Wedding, models.CASCADE, related_name="ready_ticks")
    key = models.CharField(max_length=100)
    state = models.CharField(max_length=10, choices=State.choices)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.SET_NULL, null=True, blank=True, related_name="+"
    )
    by_name = models.CharField(max_length=150, blank=True)
    at = models.DateTimeField()
    note = models.CharField(_("note"), max_length=200, blank=True)

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["wedding", "key"], name="ready_tick_once")]

    def __str__(self) -> str:
        return f"{self.key}: {self.state}"


class Policy(models.Model):
    """An insurance of the studio; `countries` are ISO 3166-1 codes, none means everywhere."""

    Kind = models.TextChoices(
        "Kind", {key.upper(): (key, _(title)) for key, title in KINDS.items()}
    )

    key = models.SlugField(max_length=40, default=new_key, unique=True)
    position = models.PositiveIntegerField(default=0)
    kind = models.CharField(_("what it insures"), max_length=12, choices=Kind.choices)
    insurer = models.CharField(_("insurer"), max_length=120)
    number = models.CharField(_("number of the policy"), max_length=80, blank=True)
    phone = models.CharField(_("phone for a claim"), max_length=40, blank=True)
    starts = models.DateField(_("in force from"))
    ends = models.DateField(_("until"))
    countries = models.JSONField(_("countries"), default=list, blank=True)

    class Meta:
        ordering = ["position", "pk"]
        verbose_name = _("policy")

    def __str__(self) -> str:
        return f"{self.get_kind_display()}: {self.insurer}"


class ReadyItem(models.Model):
    """A line that the studio adds to every ready list, or to one wedding's."""

    class When(models.TextChoices):
        BEFORE = "before", _("days before the wedding")
        EVENING = "evening", _("the evening before each day")
        MORNING = "morning", _("the morning of each day")
        NIGHT = "night", _("the night after each day")
        AFTER = "after", _("the day after each day")

    wedding = models.ForeignKey(
        Wedding, models.CASCADE, null=True, blank=True, related_name="ready_items"
    )
    key = models.SlugField(max_length=40, default=new_key, unique=True)
    position = models.PositiveIntegerField(default=0)
    title = models.CharField(_("what must be true"), max_length=120)
    why = models.CharField(_("why"), max_length=300, blank=True)
    when = models.CharField(_("when"), max_length=8, choices=When.choices, default=When.BEFORE)
    days = models.PositiveSmallIntegerField(
        _("days before"), default=7, validators=[MaxValueValidator(MOST_DAYS)]
    )
    at = models.TimeField(_("by the clock there"), null=True, blank=True)

    class Meta:
        ordering = ["position", "pk"]
        verbose_name = _("line of the ready list")

    def __str__(self) -> str:
        return self.title


class Experience(models.Model):
    """A wedding beside another photographer, before the first one alone."""

    class Role(models.TextChoices):
        SECOND = "second", _("second photographer")
        ASSISTANT = "assistant", _("assistant: lights, bags, calling groups")
        WATCHED = "watched", _("watched, and asked")

    key = models.SlugField(max_length=40, default=new_key, unique=True)
    position = models.PositiveIntegerField(default=0)
    on = models.DateField(_("date"))
    role = models.CharField(_("as"), max_length=10, choices=Role.choices, default=Role.SECOND)
    who = models.CharField(_("who of the studio"), max_length=80, blank=True)
    beside = models.CharField(_("beside whom"), max_length=120, blank=True)
    learnt = models.TextField(_("what you learnt"), max_length=1000, blank=True)

    class Meta:
        ordering = ["position", "pk"]
        verbose_name = _("experience")

    def __str__(self) -> str:
        return f"{self.on}: {self.get_role_display()}"
