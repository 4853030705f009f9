"""The photographer's decisions about a wedding. The couple's own words live in intake."""

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from intake.models import Day, Place, Wedding

from .compute.blocks import STYLES


def style_choices() -> list[tuple[str, str]]:
    return [(key, _(style.title)) for key, style in STYLES.items()]


class Decisions(models.Model):
    wedding = models.OneToOneField(Wedding, models.CASCADE, related_name="decisions")
    style = models.CharField(
        _("kind of day"),
        max_length=20,
        choices=style_choices,
        default="one_place",
        help_text=_("It lays out the first timeline; everything can change later."),
    )
    meeting_at = models.DateTimeField(_("planning meeting"), null=True, blank=True)
    visit_at = models.DateTimeField(_("venue visit"), null=True, blank=True)

    class Meta:
        verbose_name = _("decisions")

    def __str__(self) -> str:
        return f"{self.wedding}"


class Hours(models.Model):
    """The hours the photographer is booked for on one day."""

    day = models.OneToOneField(Day, models.CASCADE, related_name="hours")
    starts = models.TimeField(_("from"), null=True, blank=True)
    ends = models.TimeField(_("until"), null=True, blank=True)

    def __str__(self) -> str:
        return f"{self.starts}-{self.ends}"


class PlaceSpot(models.Model):
    """Where a place is on the ground, as the photographer found it on a map."""

    place = models.OneToOneField(Place, models.CASCADE, related_name="spot")
    latitude = models.FloatField(
        _("latitude"), validators=[MinValueValidator(-90), MaxValueValidator(90)]
    )
    longitude = models.FloatField(
        _("longitude"), validators=[MinValueValidator(-180), MaxValueValidator(180)]
    )

    def __str__(self) -> str:
        return f"{self.latitude:.5f}, {self.longitude:.5f}"


class Drive(models.Model):
    """What the map says between two places of a wedding; without a place it is home."""

    wedding = models.ForeignKey(Wedding, models.CASCADE, related_name="drives")
    origin = models.ForeignKey(
        Place, models.CASCADE, null=True, blank=True, related_name="drives_from"
    )
    destination = models.ForeignKey(
        Place, models.CASCADE, null=True, blank=True, related_name="drives_to"
    )
    map_minutes = models.PositiveSmallIntegerField(
        _("minutes on the map"), validators=[MaxValueValidator(1440)]
    )

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["wedding", "origin", "destination"], name="drive_once")
        ]

    def __str__(self) -> str:
        return f"{self.origin} - {self.destination}"
