"""The table of parts: everything that can stand on a paper, in the order in which it is printed.

A new part is a row here, its template, and a builder that says what may stand on it. Where it holds
anything private, `tests/planning/test_privacy.py` asks for a row too.
"""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from . import bag, coordinator, helper, meeting, pack, ready, second, summary, suppliers, words
from .part import Part

PACK = frozenset({"day-pack"})
NO_TIMES = _("no times yet")
NO_GROUPS = _("no groups yet")

PARTS: tuple[Part, ...] = (
    Part("cover", _("Cover, the day at a glance"), "papers/cover.html", PACK, pack.cover),
    Part(
        "calls",
        _("Who to call"),
        "papers/calls.html",
        PACK,
        pack.who_to_call,
        fresh=True,
    ),
    Part(
        "places",
        _("Places"),
        "papers/places.html",
        PACK,
        pack.places,
        lambda subject: bool(subject.brief.places),
        _("no places yet"),
    ),
    Part(
        "day",
        _("The day, fair and in rain"),
        "papers/day.html",
        PACK,
        pack.the_day,
        lambda subject: bool(subject.plan.days),
        _("no date yet"),
        fresh=True,
    ),
    Part(
        "late",
        _("Running late"),
        "papers/late.html",
        PACK,
        pack.running_late,
        pack.has_late,
        _("no fixed times yet"),
    ),
    Part(
        "groups",
        _("Group photographs"),
        "papers/groups.html",
        PACK,
        pack.groups,
        helper.has_turns,
        NO_GROUPS,
        fresh=True,
    ),
    Part(
        "wishes",
        _("Photographs they want"),
        "papers/wishes.html",
        PACK,
        pack.wanted,
        lambda subject: bool(subject.brief.must_haves),
        _("none asked for yet"),
    ),
    Part(
        "care",
        _("What to care for (private)"),
        "papers/care.html",
        PACK,
        pack.care,
        pack.has_cares,
        _("nothing said yet"),
    ),
    Part(
        "asked",
        _("Who may see the pictures, and your own questions (private)"),
        "papers/asked.html",
        PACK,
        pack.asked,
        pack.has_asked,
        _("nothing answered yet"),
    ),
    Part(
        "ready",
        _("Ready list"),
        "papers/ready.html",
        PACK,
        ready.ready,
        ready.has_wedding,
    ),
    Part(
        "pictures",
        _("Contact sheet of pictures"),
        "papers/pictures.html",
        PACK,
        pack.pictures,
        lambda subject: bool(subject.brief.pictures),
        _("no pictures yet"),
    ),
    Part(
        "light",
        _("Light"),
        "papers/light.html",
        PACK,
        pack.light,
        pack.has_light,
        _("no places yet"),
    ),
    Part(
        "visit",
        _("Venue visit"),
        "papers/visit.html",
        PACK,
        pack.visit,
        lambda subject: subject.plan.visit is not None,
        _("none arranged yet"),
    ),
    Part(
        "bag",
        _("Bag"),
        "papers/bag.html",
        PACK,
        bag.bag,
        bag.has_bag,
        _("your kit is empty"),
    ),
    Part(
        "changes",
        _("Agreed with the couple, and changed since"),
        "papers/changes.html",
        PACK,
        pack.agreed,
        lambda subject: subject.standing is not None,
        _("nothing shared yet"),
    ),
    Part(
        "open",
        _("Still open"),
        "papers/open.html",
        PACK,
        pack.still_open,
        lambda subject: bool(subject.plan.findings),
        _("nothing is open"),
    ),
    Part("safety", _("So that nobody is hurt"), "papers/safety.html", PACK, pack.safety),
    Part(
        "calling",
        _("Calling list"),
        "papers/calling.html",
        frozenset({"calling-list"}),
        helper.calling,
        helper.has_turns,
        NO_GROUPS,
    ),
    Part(
        "second",
        _("Second photographer"),
        "papers/second.html",
        frozenset({"second-photographer"}),
        second.second,
        second.has_second_day,
        _("No block is the second photographer’s yet: settle one on Day."),
    ),
    Part(
        "coordinator",
        _("In charge at a place"),
        "papers/coordinator.html",
        frozenset({"coordinator"}),
        coordinator.coordinator,
        lambda subject: bool(coordinator.in_charge(subject)),
        _("Nothing happens at a place yet."),
    ),
    Part(
        "suppliers",
        _("The day for others who work there"),
        "papers/suppliers.html",
        frozenset({"suppliers"}),
        suppliers.suppliers,
        suppliers.has_shared_blocks,
        NO_TIMES,
    ),
    Part(
        "summary",
        _("Agreed summary"),
        "papers/summary.html",
        frozenset({"agreed-summary"}),
        summary.summary,
        summary.has_summary,
        _("No summary was shared yet: do so on Meeting."),
    ),
    Part(
        "words",
        _("All that the couple entered"),
        "papers/words.html",
        frozenset({"their-words"}),
        words.words,
        words.has_wedding,
    ),
    Part(
        "agenda",
        _("Planning meeting"),
        "papers/agenda.html",
        frozenset({"agenda"}),
        meeting.agenda,
        meeting.has_wedding,
    ),
)


def parts_of(sheet: str) -> list[Part]:
    return [part for part in PARTS if sheet in part.sheets]
