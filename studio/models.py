"""The studio itself: who signs the papers, and the defaults of its work."""

from collections.abc import Iterable

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from .member_models import Member
from .words import UNNAMED, kept_for

__all__ = ["Member", "Studio"]  # Django looks for models here


def default_language() -> str:
    return settings.LANGUAGE_CODE


class Studio(models.Model):
    """One row: this installation's studio."""

    name = models.CharField(_("studio name"), max_length=120)
    phone = models.CharField(_("phone on the day"), max_length=40, blank=True)
    email = models.EmailField(_("email"), blank=True)
    home = models.CharField(
        _("where you set out from"),
        max_length=120,
        blank=True,
        default="",
        help_text=_("A town is enough. It names the first and the last drive."),
    )
    zone = models.CharField(_("your time zone"), max_length=64, default="Europe/London")
    language = models.CharField(
        _("language of your couples"),
        max_length=12,
        default=default_language,
        help_text=_(
            "Of new weddings; each booking can change it. Your own pages stay as they are."
        ),
    )
    group_minutes = models.DecimalField(
        _("minutes for a group photograph"),
        max_digits=3,
        decimal_places=1,
        default=2.5,
        validators=[MinValueValidator(0.5), MaxValueValidator(15)],
        help_text=_("For the photograph itself, before anybody is counted."),
    )
    person_seconds = models.PositiveSmallIntegerField(
        _("seconds more for each person in it"), default=6, validators=[MaxValueValidator(60)]
    )
    walk_seconds = models.PositiveSmallIntegerField(
        _("seconds for each person who walks in"),
        default=5,
        validators=[MaxValueValidator(60)],
        help_text=_("From the second photograph on; the first is called together beforehand."),
    )
    cannot_promise = models.TextField(
        _("what you cannot promise"),
        max_length=3000,
        blank=True,
        help_text=_("It stands in the summary that couples agree to. Ask a lawyer where unsure."),
    )
    keep_months = models.PositiveSmallIntegerField(
        _("months that you keep answers after the last day"),
        default=12,
        validators=[MinValueValidator(1), MaxValueValidator(120)],
        help_text=_(
            "Then Season reminds you to erase them, and “manage.py retention --erase” does it. "
            "Our own words to couples below say it too; words of yours have to say the same."
        ),
    )
    keeps = models.TextField(
        _("what you keep of couples, and for how long"),
        max_length=2000,
        blank=True,
        help_text=_(
            "In plain words, and as you really do it: couples read it before they answer and "
            "before they send. Ask a lawyer where unsure."
        ),
    )

    explains = models.BooleanField(
        _("explain each line of the ready lists"),
        default=False,
        help_text=_("For the first weddings, or for somebody new in the studio."),
    )
    # Keys of planning.compute.cover.KINDS; None while nobody has said: then the usual ones.
    insurance = models.JSONField(default=None, null=True, blank=True)

    class Meta:
        verbose_name = _("studio")

    def __str__(self) -> str:
        return self.name

    @classmethod
    def get(cls) -> "Studio":
        return cls.objects.first() or cls(name=str(UNNAMED))

    @property
    def what_is_kept(self) -> str:
        """The studio's own words, or ours, which are translated."""
        return self.keeps or kept_for(self.keep_months)

    def minutes_for(self, sizes: Iterable[int]) -> float:
        """Minutes for groups of so many people, before anybody walks."""
        base, each = float(self.group_minutes), self.person_seconds / 60
        return round(sum(round(base + each * size, 1) for size in sizes), 1)
