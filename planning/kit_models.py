"""The studio's kit, and what of it goes to which wedding."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from intake.models import Wedding, new_key

COUNT = [MinValueValidator(1), MaxValueValidator(99)]


def whole(label: str, most: int, **more: object) -> models.PositiveIntegerField:
    limits = [MinValueValidator(1), MaxValueValidator(most)]
    return models.PositiveIntegerField(label, null=True, blank=True, validators=limits, **more)


def decimal(label: str, least: float, most: float, **more: object) -> models.FloatField:
    limits = [MinValueValidator(least), MaxValueValidator(most)]
    return models.FloatField(label, null=True, blank=True, validators=limits, **more)


class KitItem(models.Model):
    """A thing, or several that are alike. What is not of its kind stays empty."""

    class Kind(models.TextChoices):
        BODY = "body", _("Camera body")
        LENS = "lens", _("Lens")
        FLASH = "flash", _("Flash")
        CARD = "card", _("Memory card")
        BATTERY = "battery", _("Battery")
        CHARGER = "charger", _("Charger")
        READER = "reader", _("Card reader")
        DRIVE = "drive", _("Drive or computer for copies")
        THING = "thing", _("Something else")

    class Owner(models.TextChoices):
        OWN = "own", _("yours")
        HIRED = "hired", _("hired")
        BORROWED = "borrowed", _("borrowed")

    key = models.SlugField(max_length=40, unique=True, default=new_key)
    kind = models.CharField(_("kind"), max_length=10, choices=Kind.choices)
    title = models.CharField(_("what you call it"), max_length=80)
    count = models.PositiveSmallIntegerField(_("how many alike"), default=1, validators=COUNT)
    mount = models.CharField(_("mount"), max_length=40, blank=True)
    card_form = models.CharField(_("form of card"), max_length=40, blank=True)
    second_form = models.CharField(
        _("form of card of the second slot, if another"), max_length=40, blank=True
    )
    power = models.CharField(_("type of battery"), max_length=40, blank=True)
    slots = models.PositiveSmallIntegerField(
        _("slots that record"), default=1, choices=[(1, _("one")), (2, _("two, the same on both"))]
    )
    raw_mb = decimal(_("MB of a raw file"), 0.1, 1000)
    shots = whole(_("frames of one charge, by the maker"), 20_000)
    wide = decimal(_("shortest focal length, mm"), 1, 3000)
    long = decimal(_("longest focal length, mm"), 1, 3000)
    aperture = decimal(_("widest aperture, f/"), 0.5, 64)
    gb = decimal(_("GB"), 0.1, 200_000)
    speed = decimal(_("MB a second, guaranteed"), 0.1, 20_000)
    is_old = models.BooleanField(_("no longer new: holds less"), default=False)
    carried = models.CharField(_("travels in"), max_length=40, blank=True)
    owner = models.CharField(_("whose"), max_length=10, choices=Owner.choices, default=Owner.OWN)
    owner_from = models.CharField(_("from whom"), max_length=80, blank=True)
    had_from = models.DateField(_("yours from"), null=True, blank=True)
    back_by = models.DateField(_("back by"), null=True, blank=True)

    class Meta:
        ordering = ["pk"]
        verbose_name = _("thing of the kit")

    def __str__(self) -> str:
        return self.title


class BagLine(models.Model):
    """How many of a thing go to a wedding, and whether they are packed."""

    wedding = models.ForeignKey(Wedding, models.CASCADE, related_name="bag_lines")
    item = models.ForeignKey(KitItem, models.CASCADE, related_name="bag_lines")
    count = models.PositiveSmallIntegerField(default=0)
    packed = models.BooleanField(default=False)

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["wedding", "item"], name="bag_line_once")]

    def __str__(self) -> str:
        return f"{self.count} {self.item}"


class BagNote(models.Model):
    """What else is known of a wedding's bag. `frames_expected` is what the usual rates said of
    the day when the photographer counted: no plan is kept, so a later pace can be reckoned."""

    wedding = models.OneToOneField(Wedding, models.CASCADE, related_name="bag_note")
    cold = models.BooleanField(_("near freezing that day"), default=False)
    frames_taken = models.PositiveIntegerField(
        _("frames taken in all"), null=True, blank=True, validators=[MaxValueValidator(100_000)]
    )
    charges_used = models.PositiveIntegerField(
        _("camera batteries emptied"), null=True, blank=True, validators=COUNT
    )
    frames_expected = models.PositiveIntegerField(default=0)

    def __str__(self) -> str:
        return f"{self.wedding}"
