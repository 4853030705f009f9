"""The photographer's decisions about a wedding. The couple's own words live in intake."""

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from intake.models import Day, Group, KeptPicture, Place, Wedding
from intake.row_models import WithRemoved

from .calendar_models import CalendarAddress, GivenEntry
from .compute.blocks import STYLES
from .kind_models import KindBlock, KindOfDay, new_own_key
from .kit_models import BagLine, BagNote, KitItem
from .listed_managers import ListedDrives, ListedRules
from .meeting_models import Agreement, AnswerNote, MeetingPoint
from .people_models import Assigned
from .ready_models import Experience, Policy, ReadyItem, ReadyTick
from .sheet_models import SheetLink

__all__ = [  # Django looks for models here
    "Agreement",
    "AnswerNote",
    "Assigned",
    "BagLine",
    "BagNote",
    "CalendarAddress",
    "Experience",
    "GivenEntry",
    "KindBlock",
    "KindOfDay",
    "KitItem",
    "MeetingPoint",
    "Policy",
    "ReadyItem",
    "ReadyTick",
    "SheetLink",
    "new_own_key",
]


def style_choices() -> list[tuple[str, str]]:
    return [(key, _(style.title)) for key, style in STYLES.items()]


class Presence(models.TextChoices):
    GATHERED = "gathered", _("all wait from the start, and go after their last")
    CALLED = "called", _("each comes for their first, and goes after their last")


class OrderBy(models.TextChoices):
    BEST = "best", _("best order")
    LARGEST = "largest", _("largest first")
    LISTED = "listed", _("as the couple listed them")
    HAND = "hand", _("by hand")


class Decisions(models.Model):
    wedding = models.OneToOneField(Wedding, models.CASCADE, related_name="decisions")
    # A built-in kind or one of the studio's own; where it is gone, `style_of` falls back.
    style = models.CharField(
        _("kind of day"),
        max_length=20,
        default="one_place",
        help_text=_("It lays out the first timeline; everything can change later."),
    )
    presence = models.CharField(
        _("guests at the groups"), max_length=10, choices=Presence.choices, default="gathered"
    )
    order_by = models.CharField(max_length=10, choices=OrderBy.choices, default="largest")
    hand_order = models.JSONField(default=list, blank=True)
    nice_last = models.BooleanField(_("those “if there is time” come last"), default=False)
    meeting_at = models.DateTimeField(_("planning meeting"), null=True, blank=True)
    visit_at = models.DateTimeField(_("venue visit"), null=True, blank=True)
    visit_place = models.ForeignKey(Place, models.SET_NULL, null=True, blank=True, related_name="+")
    # The key of the block whose sun the visit is to see; blocks are planned, never stored.
    visit_block = models.CharField(max_length=80, blank=True)

    # ISO 3166-1 codes; none means the country of the wedding's time zone.
    countries = models.JSONField(_("countries"), default=list, blank=True)

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


BEARING = [MinValueValidator(0), MaxValueValidator(360)]


class PlaceSpot(models.Model):
    """Where a place is on the ground, as the photographer found it on a map.

    Bearings are degrees from true north; `skyline` is a list of [bearing, degrees of height].
    """

    place = models.OneToOneField(Place, models.CASCADE, related_name="spot")
    latitude = models.FloatField(
        _("latitude"), validators=[MinValueValidator(-90), MaxValueValidator(90)]
    )
    longitude = models.FloatField(
        _("longitude"), validators=[MinValueValidator(-180), MaxValueValidator(180)]
    )
    ceremony_facing = models.FloatField(
        _("the couple face"), null=True, blank=True, validators=BEARING
    )
    group_facing = models.FloatField(
        _("people in the photographs face"), null=True, blank=True, validators=BEARING
    )
    skyline = models.JSONField(_("what hides the low sun"), default=list, blank=True)

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

    objects = ListedDrives()
    with_removed = WithRemoved()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["wedding", "origin", "destination"], name="drive_once")
        ]

    def __str__(self) -> str:
        return f"{self.origin} - {self.destination}"


class DayDecision(models.Model):
    """What the photographer settled about a day as a whole.

    `order` are keys of blocks, once they were put into another order; `held` is the timeline as
    it last fitted, a list of [clock time, clock time, title], kept when a change breaks it.
    """

    day = models.OneToOneField(Day, models.CASCADE, related_name="decision")
    order = models.JSONField(default=list, blank=True)
    wanted = models.PositiveSmallIntegerField(
        _("fixed times to be kept, in 100 days"),
        default=90,
        validators=[MinValueValidator(50), MaxValueValidator(99)],
    )
    notice = models.PositiveSmallIntegerField(
        _("minutes the places need to be ready for rain"),
        default=60,
        validators=[MaxValueValidator(1440)],
    )
    held = models.JSONField(default=list, blank=True)
    held_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return f"{self.day}"


def minutes_field(label: str) -> models.PositiveSmallIntegerField:
    return models.PositiveSmallIntegerField(
        label, null=True, blank=True, validators=[MaxValueValidator(1440)]
    )


class BlockDecision(models.Model):
    """What the photographer settled about one block of a day, as compute.settled.Settled has it.

    Blocks are planned and never stored: `key` is the couple's moment, or the day's key and the
    kind of block. One with a `kind` is the photographer's own.
    """

    class Who(models.TextChoices):
        ME = "me", _("me")
        SECOND = "second", _("the second photographer")
        BOTH = "both", _("both of us")
        EITHER = "either", _("either of us")

    day = models.ForeignKey(Day, models.CASCADE, related_name="block_decisions")
    key = models.SlugField(max_length=80)
    kind = models.CharField(max_length=20, blank=True)
    title = models.CharField(_("what"), max_length=80, blank=True)
    follows = models.SlugField(max_length=80, blank=True)
    least = minutes_field(_("least"))
    likely = minutes_field(_("likely"))
    most = minutes_field(_("most"))
    at = models.TimeField(_("fixed at"), null=True, blank=True)
    said = models.TimeField(null=True, blank=True)
    loose = models.BooleanField(_("its time may move"), default=False)
    wished = models.TimeField(_("about"), null=True, blank=True)
    suggested = models.BooleanField(default=False, editable=False)
    opens = models.TimeField(_("not before"), null=True, blank=True)
    closes = models.TimeField(_("done by"), null=True, blank=True)
    place = models.ForeignKey(Place, models.SET_NULL, null=True, blank=True, related_name="+")
    who = models.CharField(_("whose"), max_length=6, choices=Who.choices, blank=True)
    short = minutes_field(_("short form"))
    droppable = models.BooleanField(_("may be left out"), null=True, blank=True)
    importance = models.PositiveSmallIntegerField(
        _("how much it matters"),
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(10)],
    )
    movable = models.BooleanField(_("its time can be asked to move"), null=True, blank=True)
    left_out = models.BooleanField(default=False)
    wet_least = minutes_field(_("least"))
    wet_likely = minutes_field(_("likely"))
    wet_most = minutes_field(_("most"))
    wet_place = models.ForeignKey(Place, models.SET_NULL, null=True, blank=True, related_name="+")
    wet_left_out = models.BooleanField(_("left out when it rains"), default=False)

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["day", "key"], name="block_once")]

    def __str__(self) -> str:
        return self.title or self.key

    @property
    def says_something(self) -> bool:
        """Whether anything is settled by it; `said` alone is only when that was."""
        plumbing = {"id", "day", "key", "said"}
        usual = BlockDecision(day=self.day)
        fields = (f.attname for f in self._meta.concrete_fields if f.name not in plumbing)
        return any(getattr(self, name) != getattr(usual, name) for name in fields)


class GroupDecision(models.Model):
    """What the photographer settled about one group photograph."""

    group = models.OneToOneField(Group, models.CASCADE, related_name="decision")
    minutes = models.DecimalField(
        _("minutes"),
        max_digits=4,
        decimal_places=1,
        null=True,
        blank=True,
        validators=[MinValueValidator(0.5), MaxValueValidator(120)],
    )
    left_out = models.BooleanField(_("left out"), default=False)

    def __str__(self) -> str:
        return f"{self.group}"


class GroupRule(models.Model):
    """A rule of the order that the photographer set."""

    class Kind(models.TextChoices):
        BEFORE = "before", _("comes before")
        FIRST = "first", _("comes first")
        LAST = "last", _("comes last")
        FREE = "free", _("is free after photograph number")

    wedding = models.ForeignKey(Wedding, models.CASCADE, related_name="group_rules")
    kind = models.CharField(max_length=10, choices=Kind.choices)
    one = models.ForeignKey(Group, models.CASCADE, null=True, blank=True, related_name="+")
    other = models.ForeignKey(Group, models.CASCADE, null=True, blank=True, related_name="+")
    person = models.CharField(max_length=120, blank=True)
    position = models.PositiveSmallIntegerField(null=True, blank=True)

    objects = ListedRules()
    with_removed = WithRemoved()

    def __str__(self) -> str:
        words = [str(self.one or self.person), self.get_kind_display()]
        return " ".join([*words, str(self.other or self.position or "")]).strip()


class SamePerson(models.Model):
    """Two spellings that the photographer says are one person, or says are two."""

    wedding = models.ForeignKey(Wedding, models.CASCADE, related_name="same_people")
    name = models.CharField(max_length=120)
    other = models.CharField(max_length=120)
    is_same = models.BooleanField()

    def __str__(self) -> str:
        return f"{self.name}, {self.other}"


class StudioPicture(KeptPicture):
    """A picture that the photographer brings to the meeting and the day pack.

    A table apart from the couple's: no link of theirs opens it.
    """
