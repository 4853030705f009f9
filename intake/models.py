"""The couple's words, as typed. Nothing here is computed and nothing here is the photographer's."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.words import long_date

from .keys import new_key, new_nonce, new_public_id
from .own_models import Answer, Question
from .row_models import Anchor, Row
from .sharing_words import Children, Gallery, Online, Suppliers

__all__ = ["Answer", "Question", "new_key"]  # Django looks for models here


def default_language() -> str:
    return settings.LANGUAGE_CODE


class MomentKind(models.TextChoices):
    GETTING_READY = "getting_ready", _("Getting ready")
    CEREMONY = "ceremony", _("Ceremony")
    CONGRATULATIONS = "congratulations", _("Congratulations, confetti")
    DRINKS = "drinks", _("Drinks")
    MEAL = "meal", _("Meal")
    SPEECHES = "speeches", _("Speeches")
    CAKE = "cake", _("Cake")
    DANCE = "dance", _("First dance")
    PARTY = "party", _("Party")
    END = "end", _("The end")
    OTHER = "other", _("Something else")


class Use(models.TextChoices):
    GETTING_READY = "getting_ready", _("Getting ready")
    CEREMONY = "ceremony", _("Ceremony")
    GROUPS = "groups", _("Group photographs")
    PORTRAITS = "portraits", _("Portraits of the two of you")
    MEAL = "meal", _("Drinks and meal")
    PARTY = "party", _("Party")


class Wedding(models.Model):
    public_id = models.SlugField(max_length=24, unique=True, default=new_public_id, editable=False)
    link_nonce = models.CharField(max_length=64, default=new_nonce, editable=False)
    zone = models.CharField(_("time zone"), max_length=64, default="Europe/London")
    language = models.CharField(_("language"), max_length=12, default=default_language)
    answers_due = models.DateField(_("please send answers by"), null=True, blank=True)
    matters = models.TextField(_("what matters most"), max_length=5000, blank=True)
    anything_else = models.TextField(_("anything else"), max_length=5000, blank=True)
    online = models.CharField(max_length=10, choices=Online.choices, blank=True)
    children = models.CharField(max_length=10, choices=Children.choices, blank=True)
    gallery = models.CharField(max_length=10, choices=Gallery.choices, blank=True)
    supplier_use = models.CharField(max_length=10, choices=Suppliers.choices, blank=True)
    sharing_note = models.TextField(max_length=2000, blank=True)
    # What this couple is not asked, as intake/not_asked.py names it: the photographer's choice,
    # kept here since the couple's pages are made of it and intake never imports planning.
    not_asked = models.JSONField(default=list, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True, editable=False)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["pk"]
        verbose_name = _("wedding")

    def __str__(self) -> str:
        return self.names

    @property
    def names(self) -> str:
        return " & ".join(partner.short for partner in self.partners.all())

    @property
    def dates(self) -> list:
        return [day.date for day in self.days.all()]


class Partner(Row):
    name = models.CharField(_("full name"), max_length=120)
    called = models.CharField(_("what you are called"), max_length=60, blank=True)
    word = models.CharField(_("word we should use"), max_length=40, blank=True)
    phone = models.CharField(_("phone"), max_length=40, blank=True)
    email = models.EmailField(_("email"), blank=True)

    def __str__(self) -> str:
        return self.name

    @property
    def short(self) -> str:
        return self.called or self.name.split(" ")[0]


class Day(Anchor):
    date = models.DateField(_("date"))
    title = models.CharField(_("what happens that day"), max_length=80, blank=True)

    class Meta(Anchor.Meta):
        ordering = ["date", "pk"]

    def __str__(self) -> str:
        return long_date(self.date)


class Place(Anchor):
    name = models.CharField(_("name of the place"), max_length=120)
    uses = models.JSONField(_("what happens there"), default=list, blank=True)
    address = models.TextField(_("address"), max_length=500, blank=True)
    coordinator = models.CharField(_("who is in charge there"), max_length=120, blank=True)
    coordinator_phone = models.CharField(_("their phone"), max_length=40, blank=True)
    coordinator_email = models.EmailField(_("their email"), blank=True)
    wet_plan = models.TextField(_("where to go if it rains"), max_length=1000, blank=True)
    not_allowed = models.TextField(_("what is not allowed"), max_length=1000, blank=True)
    note = models.TextField(_("anything else about it"), max_length=1000, blank=True)

    def __str__(self) -> str:
        return self.name


class Moment(Row):
    day = models.ForeignKey(Day, models.SET_NULL, null=True, blank=True, related_name="moments")
    kind = models.CharField(_("what"), max_length=20, choices=MomentKind.choices)
    title = models.CharField(_("in your words"), max_length=120, blank=True)
    at = models.TimeField(_("when"), null=True, blank=True)
    unknown = models.BooleanField(_("not known yet"), default=False)
    place = models.ForeignKey(Place, models.SET_NULL, null=True, blank=True, related_name="moments")

    def __str__(self) -> str:
        return self.title or self.get_kind_display()


class Contact(Row):
    class List(models.TextChoices):
        CONTACT = "contact", _("Somebody to ring")
        HELPER = "helper", _("Helper who knows faces")
        SUPPLIER = "supplier", _("Supplier")

    class Side(models.TextChoices):
        BOTH = "both", _("both sides")
        FIRST = "first", _("first partner's side")
        SECOND = "second", _("second partner's side")

    listed_as = models.CharField(max_length=10, choices=List.choices, editable=False)
    name = models.CharField(_("name"), max_length=120)
    role = models.CharField(_("role"), max_length=80, blank=True)
    side = models.CharField(_("side"), max_length=10, choices=Side.choices, default=Side.BOTH)
    phone = models.CharField(_("phone"), max_length=40, blank=True)
    email = models.EmailField(_("email"), blank=True)

    def __str__(self) -> str:
        return self.name


class Group(Anchor):
    class Wish(models.TextChoices):
        MUST = "must", _("must have")
        NICE = "nice", _("nice to have")

    title = models.CharField(_("title"), max_length=120)
    people = models.TextField(_("people, one name a line"), max_length=40_000, blank=True)
    everyone = models.BooleanField(_("everybody is in it"), default=False)
    extra = models.PositiveIntegerField(_("people nobody needs to name"), default=0)
    wish = models.CharField(_("how much it matters"), max_length=4, choices=Wish.choices)

    def __str__(self) -> str:
        return self.title


class MustHave(Row):
    text = models.CharField(_("photograph"), max_length=300)
    kind = models.CharField(_("when"), max_length=20, choices=MomentKind.choices, blank=True)

    def __str__(self) -> str:
        return self.text


class CareNote(Row):
    class Kind(models.TextChoices):
        SEAT = "seat", _("cannot stand long")
        STEP_FREE = "step_free", _("needs step-free ground")
        CHILD = "child", _("is a child")
        GRIEVES = "grieves", _("grieves")
        APART = "apart", _("must not share a frame with")
        NO_PHOTO = "no_photo", _("does not want to be photographed")
        OTHER = "other", _("something else")

    person = models.CharField(_("who"), max_length=120)
    kind = models.CharField(_("what we should know"), max_length=10, choices=Kind.choices)
    other = models.CharField(_("with whom"), max_length=120, blank=True)
    note = models.TextField(_("in your words"), max_length=1000, blank=True)

    def __str__(self) -> str:
        return self.person


class KeptPicture(Row):
    """A picture of which the store (store.py) holds the files; its key is its address.

    `digest` is of the file as it was sent, so that the same one sent twice is one picture.
    """

    line = models.CharField(_("a line about it"), max_length=120, blank=True)
    file = models.CharField(max_length=100, editable=False)
    small = models.CharField(max_length=100, editable=False)
    width = models.PositiveIntegerField(editable=False)
    height = models.PositiveIntegerField(editable=False)
    digest = models.CharField(max_length=64, editable=False)

    class Meta:
        abstract = True
        ordering = ["pk"]  # as they were added
        constraints = [
            *Row.Meta.constraints,
            models.UniqueConstraint(fields=["wedding", "digest"], name="%(class)s_once"),
        ]

    def __str__(self) -> str:
        return self.line or str(_("A picture, without a word"))


class Picture(KeptPicture):
    """A picture that the couple like. The photographer's own are in planning: not the couple's."""


class StepState(models.Model):
    """When the couple last kept a step, and what they had typed if it could not be kept yet."""

    wedding = models.ForeignKey(Wedding, models.CASCADE, related_name="steps")
    slug = models.SlugField(max_length=20)
    saved_at = models.DateTimeField(null=True, blank=True)
    draft = models.JSONField(null=True, blank=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["wedding", "slug"], name="step_once")]

    def __str__(self) -> str:
        return self.slug
