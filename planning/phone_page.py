"""The day on a phone: the parts of a paper that are needed on one's feet, on one screen.

Nothing is chosen here a second time. A part shows what its builder in planning/paper gives, so a
phone says no more than the paper of the same reader (`tests/planning/test_privacy.py`).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from .paper.parts import parts_of
from .paper.subject import Reader, Subject


def _always(shown: dict[str, Any]) -> bool:
    return True


@dataclass(frozen=True)
class Screen:
    """Where a part of a paper stands: `part` is its key, `anchor` its id on the page.

    `jump` is its word at the foot of the page, empty where there is none; a part with a `folded`
    title opens when it is pressed; `has` looks at what the builder gave.
    """

    part: str
    anchor: str
    template: str
    jump: Any = ""
    folded: Any = ""
    has: Callable[[dict[str, Any]], bool] = _always


# In the order in which they stand on the page; a reader sees those of the own paper.
SCREENS = (
    Screen("day", "day", "phone/day.html", _("Day")),
    Screen("second", "day", "phone/second.html", _("Day")),
    Screen("calling", "groups", "phone/calling.html"),
    Screen("groups", "groups", "phone/groups.html", _("Groups")),
    Screen(
        "second",
        "groups",
        "phone/second_groups.html",
        _("Groups"),
        has=lambda shown: bool(shown["sheet"].turns),
    ),
    Screen("calls", "calls", "phone/calls.html", _("Call")),
    Screen("places", "places", "phone/places.html", _("Places")),
    Screen(
        "second",
        "places",
        "phone/second_places.html",
        _("Places"),
        has=lambda shown: bool(shown["sheet"].places),
    ),
    Screen("wishes", "wishes", "phone/wishes.html", folded=_("Photographs they want")),
    Screen("care", "care", "phone/care.html", folded=_("Private: what to care for")),
    Screen("safety", "safety", "phone/safety.html", folded=_("So that nobody is hurt")),
)


@dataclass(frozen=True)
class Shown:
    screen: Screen
    html: SafeString


@dataclass(frozen=True)
class PhonePage:
    shown: list[Shown]

    @property
    def jumps(self) -> list[tuple[str, Any]]:
        """Anchor and word of each, where there is more than one place to go."""
        found = [(s.screen.anchor, s.screen.jump) for s in self.shown if s.screen.jump]
        return found if len(found) > 1 else []


def phone_page(subject: Subject, sheet: str, reader: Reader) -> PhonePage:
    """What the reader of a sheet sees of it on a phone, where there is anything to see.

    Each template knows what its builder gives, and in which country numbers without a code are.
    """
    parts = {part.key: part for part in parts_of(sheet) if part.needs(subject)}
    zones = {"zone": subject.brief.zone, "studio_zone": subject.studio.zone}
    found = []
    for screen in SCREENS:
        if screen.part in parts:
            given = parts[screen.part].build(subject, reader)
            if screen.has(given):
                found.append(Shown(screen, render_to_string(screen.template, given | zones)))
    return PhonePage(found)


def seen_at(subject: Subject) -> datetime:
    """When a page was made, on the wedding's clocks: a phone may show it hours later."""
    return timezone.now().astimezone(ZoneInfo(subject.brief.zone))
