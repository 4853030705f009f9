"""The studio's own kinds of day: templates of blocks, changed from the built-in ones."""

import secrets

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from intake.models import new_key


def new_own_key() -> str:
    return f"own-{secrets.token_hex(6)}"


class KindOfDay(models.Model):
    """A template of a day that the studio made its own; the built-in ones are in the code."""

    key = models.SlugField(max_length=20, unique=True, default=new_own_key)
    title = models.CharField(_("name of this kind of day"), max_length=80)
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "pk"]
        verbose_name = _("kind of day")

    def __str__(self) -> str:
        return self.title


LENGTH = [MaxValueValidator(1440)]  # minutes of a day


class KindBlock(models.Model):
    """A block of an own kind of day. Lengths are whole minutes, as in `compute.template`."""

    kind_of_day = models.ForeignKey(KindOfDay, models.CASCADE, related_name="blocks")
    key = models.SlugField(max_length=40, default=new_key)
    position = models.PositiveIntegerField(default=0)
    title = models.CharField(max_length=80)
    kind = models.CharField(max_length=20)
    least = models.PositiveSmallIntegerField(default=0, validators=LENGTH)
    likely = models.PositiveSmallIntegerField(default=0, validators=LENGTH)
    most = models.PositiveSmallIntegerField(default=0, validators=LENGTH)
    use = models.CharField(max_length=20, default="previous")
    moment = models.CharField(max_length=20, blank=True)
    leads = models.CharField(max_length=20, blank=True)
    fills = models.BooleanField(default=False)
    once = models.BooleanField(default=False)
    short = models.PositiveSmallIntegerField(null=True, blank=True, validators=LENGTH)
    droppable = models.BooleanField(default=False)
    importance = models.PositiveSmallIntegerField(
        default=5, validators=[MinValueValidator(1), MaxValueValidator(10)]
    )
    delay_least = models.PositiveSmallIntegerField(null=True, blank=True, validators=LENGTH)
    delay_likely = models.PositiveSmallIntegerField(null=True, blank=True, validators=LENGTH)
    delay_most = models.PositiveSmallIntegerField(null=True, blank=True, validators=LENGTH)
    movable = models.BooleanField(default=True)
    wet_least = models.PositiveSmallIntegerField(null=True, blank=True, validators=LENGTH)
    wet_likely = models.PositiveSmallIntegerField(null=True, blank=True, validators=LENGTH)
    wet_most = models.PositiveSmallIntegerField(null=True, blank=True, validators=LENGTH)
    wet_left_out = models.BooleanField(default=False)

    class Meta:
        ordering = ["position", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["kind_of_day", "key"], name="kindblock_key_once")
        ]

    def __str__(self) -> str:
        return self.title
