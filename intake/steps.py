"""The questionnaire as one ordered table: its steps, and the forms of each."""

from __future__ import annotations

from dataclasses import dataclass, replace

from django import forms
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from . import forms as f
from .own_form import MORE, PREFIX, own_form
from .picture_form import PictureForm
from .sharing_form import SharingForm


@dataclass(frozen=True)
class Part:
    """One form of a step (`rows` False), or a list of rows that can grow."""

    prefix: str
    form: type[forms.Form]
    one: Promise | str = ""  # what one row is
    title: Promise | str = ""
    hint: Promise | str = ""
    add: Promise | str = ""  # the words on "add another"; none for a fixed number of rows
    rows: bool = True


@dataclass(frozen=True)
class Step:
    slug: str
    title: Promise
    hint: Promise
    intro: Promise
    parts: tuple[Part, ...]
    optional: bool = False  # nothing is missing where it was never opened


BUILT_IN: tuple[Step, ...] = (
    Step(
        "two-of-you",
        _("The two of you"),
        _("Names, how to reach you, what matters most"),
        _("So that we write your names as you do, and can ring you if the day changes."),
        (
            Part("partners", f.PartnerForm, _("Partner")),
            Part("wedding", f.MattersForm, rows=False),
        ),
    ),
    Step(
        "day",
        _("The day"),
        _("The date, and the times you know already"),
        _("Times you do not know yet are fine: say so, and come back when you do."),
        (
            Part("days", f.DayForm, _("Day"), _("Your day, or days"), add=_("Add another day")),
            Part(
                "moments",
                f.MomentForm,
                _("Time"),
                _("Times"),
                _("One line for each thing with a time: the ceremony first, then the meal."),
                _("Add another time"),
            ),
        ),
    ),
    Step(
        "places",
        _("Places"),
        _("Where things happen, and where to go if it rains"),
        _(
            "A place for each thing: where you get ready, the ceremony, the meal. From them we "
            "reckon the drives and the light."
        ),
        (Part("places", f.PlaceForm, _("Place"), add=_("Add another place")),),
    ),
    Step(
        "people",
        _("People"),
        _("Who to ring, and who knows everyone’s face"),
        _("We ring these people on the day only if we cannot find you."),
        (
            Part(
                "helpers",
                f.HelperForm,
                _("Helper"),
                _("Helpers who know faces"),
                _("One on each side, to fetch people for the group photographs."),
                _("Add another helper"),
            ),
            Part(
                "contacts",
                f.ContactForm,
                _("Person"),
                _("People to ring"),
                _("Parents, witnesses, whoever runs the day for you."),
                _("Add another person"),
            ),
            Part(
                "suppliers",
                f.SupplierForm,
                _("Supplier"),
                _("Others who work that day"),
                _("Film, flowers, music, hair: so that we stay out of each other’s way."),
                _("Add another supplier"),
            ),
        ),
    ),
    Step(
        "groups",
        _("Group photographs"),
        _("Who stands with whom"),
        _(
            "Photographers reckon three to five minutes for each, so about eight is what most "
            "days have room for. Begin with the ones you would miss."
        ),
        (Part("groups", f.GroupForm, _("Group"), add=_("Add another group")),),
    ),
    Step(
        "photographs",
        _("Photographs you want"),
        _("The few you would miss most"),
        _("Not everything: we know to photograph the kiss. Only what we could not guess."),
        (Part("musthaves", f.MustHaveForm, _("Photograph"), add=_("Add another photograph")),),
    ),
    Step(
        "pictures",  # a page of its own: picture_views.py
        _("Pictures you like"),
        _("A few, to show us what you have in mind"),
        _(
            "A pose, a colour, a mood, from wherever you found it. We do not copy them: they "
            "help us to talk. Only your photographer sees them."
        ),
        (Part("pictures", PictureForm, _("Picture"), add=_("Add pictures")),),
        optional=True,
    ),
    Step(
        "care",
        _("What we should know"),
        _("Only your photographer reads this"),
        _(
            "Somebody who cannot stand long, parents who should not share a frame, a guest "
            "who does not want to be photographed. It is never printed on a page for others."
        ),
        (
            Part("carenotes", f.CareNoteForm, _("Note"), add=_("Add another note")),
            Part("wedding", f.AnythingElseForm, rows=False),
        ),
    ),
    Step(
        "sharing",
        _("Who may see the pictures"),
        _("What we may show, and to whom"),
        _(
            "So that no picture of you, or of your guests, turns up where you would not want it. "
            "It is fine not to have decided: then we show nothing. You can change your mind later."
        ),
        (Part("sharing", SharingForm, rows=False),),
    ),
)
MORE_TITLE = _("A few more questions")


def _with_own(step: Step) -> Step:
    """Every page of boxes ends with what the studio asks on it, if anything."""
    if step.slug == "pictures":
        return step
    own = Part(PREFIX, own_form(step.slug), title=MORE_TITLE, rows=False)
    return replace(step, parts=(*step.parts, own))


STEPS: tuple[Step, ...] = tuple(_with_own(step) for step in BUILT_IN)
# The page of the studio's questions that stand on no other; only where there are some.
MORE_STEP = Step(
    MORE,
    MORE_TITLE,
    _("Your photographer would like to know"),
    _("What only your photographer asks. Leave out what does not fit you."),
    (Part(PREFIX, own_form(MORE), rows=False),),
)
BY_SLUG = {step.slug: step for step in (*STEPS, MORE_STEP)}
