"""First weddings: from the booking to the night after, in the order in which it comes.

What is advised here is `common practice, no source` unless a line says otherwise; where somebody
could be hurt, local rules and licensed practice come first.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.urls import reverse
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from intake.models import Wedding

from .guide_day import ON_THE_DAY
from .guide_stage import Stage, point

BEFORE = Stage(
    "before",
    _("Before you take one alone"),
    _("Months before"),
    _(
        "A wedding is not hard because of the photographs. It is hard because nothing waits. Learn "
        "that beside somebody who is responsible, while you are not."
    ),
    (
        point(
            _(
                "Be second photographer first, at three weddings or more, and write down each: "
                "what ran late, where you were in somebody’s way, what you would have missed alone."
            ),
            "experience",
            _("Your experience"),
        ),
        point(_("Ask to see how that photographer sorts the groups, and how the cards go home.")),
        point(
            _(
                "Practise in the worst light you can find: a friend walking towards you down a "
                "dark corridor, until nine of ten frames are sharp."
            )
        ),
        point(
            _(
                "Practise groups with a stopwatch: ten friends, six groupings, every name called. "
                "Most people are surprised by how long it takes; put your own minutes into Studio."
            ),
            "studio",
            _("Studio"),
        ),
        point(
            _(
                "Practise failure: take a card out, let a battery run down, fit the other lens "
                "with your eyes shut. Then do the whole evening of copies once, for nothing."
            )
        ),
        point(
            _("Insure yourself before the first booking, and note the policies."),
            "insurance",
            _("Insurance"),
        ),
    ),
)
BOOKING = Stage(
    "booking",
    _("The booking"),
    _("As soon as they ask"),
    _("Agree little, agree it in writing, and promise nothing that light or weather decides."),
    (
        point(
            _(
                "Agree which hours, how many photographs at the least, by when, who may show them, "
                "what happens if you are ill, and that you eat when the guests eat."
            )
        ),
        point(
            _(
                "Say that it is one of your first, and what you charge for that. Couples forgive "
                "what they were told, and rarely what they find out."
            )
        ),
        point(
            _("Name somebody who would step in, and ask them before you need them."),
            "ready",
            _("Ready"),
        ),
        point(_("Add the wedding: two names and a date."), "new_wedding", _("Add a wedding")),
        point(_("Send them their link."), "link", _("Their link")),
    ),
    (
        _("A contract is law: take one from a lawyer or your trade body, not from a friend."),
        _(
            "Leave the day before and the day after free. Two weddings in a row need rest, charged "
            "batteries and copied cards between them."
        ),
    ),
)
MEETING = Stage(
    "meeting",
    _("The meeting"),
    _("Two to three months before, and six weeks at the latest"),
    _("Walk their answers with them. You are there to take worries away, yours too."),
    (
        point(
            _("Read what is missing and what contradicts before you meet."), "answers", _("Answers")
        ),
        point(
            _("Agree the groups: few, in order, with somebody on each side who knows the faces."),
            "groups",
            _("Groups"),
        ),
        point(
            _("Show how long things take, what the light allows, and what you cannot promise."),
            "meeting",
            _("Meeting"),
        ),
        point(
            _("Share the summary, so that both sides have the same words."), "meeting", _("Meeting")
        ),
    ),
)
VISIT = Stage(
    "visit",
    _("The visit"),
    _("A week or two before"),
    _("Go at the hour of the portraits, and walk the day with your feet."),
    (
        point(
            _(
                "Find one good place for groups, one for the two of them, one for rain. One of "
                "each is enough."
            ),
            "visit",
            _("Venue visit"),
        ),
        point(_("See where the sun will stand, and where it will not."), "light", _("Light")),
        point(_("Look whether the day holds, and what to cut when it runs late."), "day", _("Day")),
        point(
            _("Speak to whoever is in charge: where you may stand, flash or none, where to eat."),
            "papers",
            _("Papers"),
        ),
    ),
    (
        _(
            "Choose places where nobody stands in traffic, at an edge, in water, or under "
            "branches. What you would not let a child do there, ask nobody to do."
        ),
    ),
)
WEEK = Stage(
    "week",
    _("The week"),
    _("The days before"),
    _("Nothing new now: no new camera, no new lens, no new idea."),
    (
        point(
            _("Two cameras, two lenses that can do everything, and no single thing you depend on."),
            "bag",
            _("Bag"),
        ),
        point(_("Borrow or hire what is lacking, and use it at home first."), "kit", _("Kit")),
        point(_("Take the list from the top, a little every day."), "ready", _("Ready")),
        point(_("Print the day pack, and read it aloud once."), "papers", _("Papers")),
    ),
)
EVENING = Stage(
    "evening",
    _("The evening before"),
    _("From coming home to bed"),
    _("Everything that can be done now is one thing less in the morning."),
    (
        point(_("Charge first, since it takes longest."), "bag", _("Bag")),
        point(
            _(
                "Format the cards only once both copies of the last wedding are checked. Set all "
                "clocks alike. Sound off, raw on, both slots."
            ),
            "ready",
            _("Ready"),
        ),
        point(_("Lay out clothes, water, food, the paper pack, and the key of the car.")),
        point(_("Two alarms, and to bed. You will not sleep much, and that is usual.")),
    ),
)
NIGHT = Stage(
    "night",
    _("The night after"),
    _("Before you sleep"),
    _("You are done when the day exists twice."),
    (
        point(
            _(
                "Copy every card twice, open photographs from both copies, from the beginning, the "
                "middle and the end. Leave the cards as they are."
            ),
            "ready",
            _("Ready"),
        ),
        point(_("In the morning, take one copy to another place."), "ready", _("Ready")),
        point(
            _("Note how many frames you took: the next bag is reckoned from it."), "bag", _("Bag")
        ),
        point(
            _(
                "Write down, before you look at the photographs, what went well and what took "
                "longer than planned. Put the minutes into your kind of day."
            ),
            "kinds",
            _("Kinds of day"),
        ),
        point(_("Send the couple two lines: it is safe, and it was lovely.")),
    ),
    (
        _(
            "Never drive tired: stop for 15 minutes after every two hours, and sleep where you are "
            "if you can (Highway Code, rule 91)."
        ),
        _("Charge no battery while you sleep beside it, and none that is swollen or damaged."),
    ),
)
STAGES: tuple[Stage, ...] = (
    BEFORE, BOOKING, MEETING, VISIT, WEEK, EVENING, *ON_THE_DAY, NIGHT
)  # fmt: skip
OF_STUDIO = {"experience", "studio", "insurance", "new_wedding", "kit", "kinds"}


@dataclass(frozen=True)
class Told:
    """A point with where it leads; no address where there is no wedding to show it on."""

    text: Promise
    url: str
    link: Promise | str


def told(stage: Stage, wedding: Wedding | None) -> Iterator[Told]:
    for each in stage.points:
        yield Told(each.text, _url(each.page, wedding), each.link)


def _url(page: str, wedding: Wedding | None) -> str:
    if not page or (page not in OF_STUDIO and wedding is None):
        return ""
    return reverse(page) if page in OF_STUDIO else reverse(page, args=[wedding.public_id])
