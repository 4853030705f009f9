"""What a light sheet says, in the reader's words, for page and paper alike."""

from __future__ import annotations

from datetime import datetime
from typing import NamedTuple

from django.utils.formats import number_format
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from studio.templatetags.clock import ABSENT, clock

from .compute.light.compass import compass_word, shadow_words
from .compute.light.facing import OVERHEAD
from .compute.light.windows import HARSH
from .compute.planned import BlockLight, Event, LightSheet, SunThen
from .spoken import spoken

KINDS = {
    "astronomical_dawn": _("Night ends (astronomical dawn)"),
    "nautical_dawn": _("Nautical dawn"),
    "civil_dawn": _("Blue light begins (civil dawn)"),
    "golden_morning_start": _("Blue light ends, golden light begins"),
    "sunrise": _("Sunrise"),
    "golden_morning_end": _("Golden light ends"),
    "golden_evening_start": _("Golden light begins"),
    "sunset": _("Sunset"),
    "golden_evening_end": _("Golden light ends, blue light begins"),
    "civil_dusk": _("Blue light ends (civil dusk)"),
    "nautical_dusk": _("Nautical dusk"),
    "astronomical_dusk": _("Night begins (astronomical dusk)"),
    "sun_reaches": _("The sun comes over the skyline"),
    "sun_leaves": _("The sun goes behind the skyline"),
    "moonrise": _("Moonrise"),
    "moonset": _("Moonset"),
}
SAME = {
    "blue_morning_start": "civil_dawn",
    "blue_morning_end": "golden_morning_start",
    "blue_evening_start": "golden_evening_end",
    "blue_evening_end": "civil_dusk",
}
MOON = {"moonrise": _("rises %(at)s"), "moonset": _("sets %(at)s")}
NOT_TOLD = {"astronomical_dawn", "astronomical_dusk"}  # `night_words` says why
WINDOWS = {
    "blue": _("Blue light"),
    "golden": _("Golden light"),
    "harsh": _("Hard high sun"),
}
DEFINITIONS = {
    "blue": _("the sun 4° to 6° below level"),
    "golden": _("the sun from 6° above to 4° below level"),
    "harsh": _("the sun over 45° high: shadows shorter than people are tall"),
}
QUALITIES = {
    "good": _("long enough for portraits"),
    "short": _("short"),
    "hidden": _("the sun itself is out of sight: soft light only"),
    "hard": _("look for open shade"),
    "overhead": _("from overhead: look for open shade"),
}
FALLS = {
    "front": _("in their faces: they squint"),
    "side-left": _("from their left, your right"),
    "side-right": _("from their right, your left"),
    "back": _("from behind them: their faces are in shade"),
    "overhead": _("from overhead: dark eyes"),
}


class Line(NamedTuple):
    """One boundary: its time and how one says it, or why there is none."""

    at: datetime | None
    what: str
    words: str


def boundaries(sheet: LightSheet) -> list[Line]:
    """Every boundary of a day's light in order of time, absent ones last."""
    found = [e for e in (*sheet.events, *sheet.skyline, *sheet.moon_events) if e.kind in KINDS]
    lines = [_line(event, sheet) for event in found if event.at or event.kind not in NOT_TOLD]
    lines += [line for window in sheet.windows for line in _hard(window)]
    if sheet.noon:
        highest = gettext("Highest sun: %(sun)s") % {"sun": sun_words(sheet.noon)}
        lines.append(Line(sheet.noon.at, highest, spoken(sheet.noon.at)))
    return sorted(lines, key=lambda line: (line.at is None, line.at.timestamp() if line.at else 0))


def low_sun(sheet: LightSheet) -> list[Line]:
    """When the sun itself comes and goes: over level ground, and over the skyline."""
    kinds = ("sunrise", "sun_reaches", "sun_leaves", "sunset")
    found = [e for e in (*sheet.events, *sheet.skyline) if e.kind in kinds]
    return [_line(e, sheet) for e in sorted(found, key=lambda e: kinds.index(e.kind))]


def _hard(window: object) -> list[Line]:
    if window.kind != "harsh":
        return []
    ends = ((window.start, _("Hard high sun begins")), (window.end, _("Hard high sun ends")))
    return [Line(at, str(what), spoken(at)) for at, what in ends]


def _line(event: Event, sheet: LightSheet) -> Line:
    if event.at is None:
        moon = event.kind in {"moonrise", "moonset"}
        why = gettext("not on this date") if moon else str(ABSENT.get(event.reason, ""))
        return Line(None, str(KINDS[event.kind]), why)
    words = spoken(event.at)
    if sheet.noon and event.at.date() > sheet.noon.at.date():
        words = gettext("%(time)s, after midnight") % {"time": words}
    return Line(event.at, str(KINDS[event.kind]), words)


def night_words(sheet: LightSheet) -> str:
    """When the last twilight ends, or why it does not."""
    dusk = sheet.first("astronomical_dusk")
    if dusk is None or sheet.lowest is None:
        return ""
    if dusk.at:
        return gettext("Full night from %(at)s.") % {"at": clock(dusk.at)}
    if dusk.reason == "always_down":
        return gettext("Night all day: the sun stays more than 18° below level.")
    return (
        gettext(
            "No night: the sun sinks to %(height)s° below level at most; a full night needs 18°."
        )
        % {"height": round(-sheet.lowest)}
        if sheet.lowest < 0
        else gettext("No night: the sun does not set.")
    )


def moon_words(sheet: LightSheet) -> str:
    """The moon's phase, how much of it is lit, and when it is up."""
    if sheet.moon is None:
        return ""
    times = [
        str(MOON[e.kind]) % {"at": clock(e.at)}
        for e in sorted((e for e in sheet.moon_events if e.at), key=lambda e: e.at.timestamp())
    ]
    share = number_format(round(sheet.moon.illumination * 100))
    face = gettext("%(phase)s, %(share)s %% lit") % {
        "phase": gettext(sheet.moon.phase),
        "share": share,
    }
    return ", ".join([face, *times])


class Named(NamedTuple):
    """A window of named light."""

    what: str
    start: datetime
    end: datetime
    quality: str
    definition: str


def named_windows(sheet: LightSheet) -> list[Named]:
    parts = {
        "morning": _("%(light)s, morning"),
        "evening": _("%(light)s, evening"),
        "day": _("%(light)s"),
    }
    return [
        Named(
            str(parts[w.part]) % {"light": WINDOWS[w.kind]},
            w.start,
            w.end,
            str(QUALITIES[w.quality]),
            str(DEFINITIONS[w.kind]),
        )
        for w in sheet.windows
    ]


def sun_words(then: SunThen) -> str:
    """59° high in the south-west."""
    height = round(then.sun.altitude)
    where = gettext(compass_word(then.sun.azimuth))
    if height == 0:
        return gettext("level with the horizon in the %(where)s") % {"where": where}
    if height < 0:
        return gettext("down, %(height)s° below level") % {"height": -height}
    return gettext("%(height)s° high in the %(where)s") % {"height": height, "where": where}


class BlockLine(NamedTuple):
    """What the sun does in a block; shadows are those of its start."""

    lit: BlockLight
    sun: str
    falls: str
    shadow: str


def block_lines(sheet: LightSheet) -> list[BlockLine]:
    return [
        BlockLine(
            lit,
            course_words(lit),
            _both(falls(lit.first, lit.block.kind), falls(lit.last, lit.block.kind)),
            shadow(lit.first),
        )
        for lit in sheet.blocks
    ]


def _both(first: str, last: str) -> str:
    """From start to end; once where nothing that is said changes."""
    if first == last or not last:
        return first
    return gettext("%(first)s, then %(last)s") % {"first": first, "last": last}


def course_words(lit: BlockLight) -> str:
    """52° to 60° high, south-east to south: from a block's start to its end."""
    first, last = (round(then.sun.altitude) for then in (lit.first, lit.last))
    if first <= 0 and last <= 0:
        if first == last == 0:
            return gettext("level with the horizon")
        if first == last:
            return gettext("%(height)s° below level") % {"height": -first}
        return gettext("%(first)s° to %(last)s° below level") % {"first": -first, "last": -last}
    winds = [gettext(compass_word(then.sun.azimuth)) for then in (lit.first, lit.last)]
    where = " – ".join(dict.fromkeys(winds))
    heights = {"first": abs(first), "last": abs(last), "where": where}
    if last < 0:
        words = gettext("from %(first)s° high to %(last)s° below level, %(where)s")
        return words % heights
    if first < 0:
        words = gettext("from %(first)s° below level to %(last)s° high, %(where)s")
        return words % heights
    if first == last:
        return gettext("%(height)s° high, %(where)s") % {"height": first, "where": where}
    return gettext("%(first)s° to %(last)s° high, %(where)s") % heights


def shadow(then: SunThen) -> str:
    if not then.clear or then.sun.shadow_ratio is None:
        return gettext("none")
    return gettext(shadow_words(then.sun.shadow_ratio))


def falls(then: SunThen, kind: str = "") -> str:
    """How the sun lights the people in a block of that kind."""
    height = then.sun.altitude
    if not then.clear:
        return _without_sun(height)
    if then.lit:
        words = str(FALLS[then.lit])
        if then.near_lens:
            words = gettext("%(words)s; the sun is near your picture") % {"words": words}
        return words
    if height > OVERHEAD:
        return str(FALLS["overhead"])
    if kind in {"ceremony", "groups"}:
        return gettext("nobody has said which way they face")
    return gettext("hard light: find shade") if height > HARSH else gettext("direct sun")


def _without_sun(height: float) -> str:
    if height > 0:
        return gettext("behind the skyline: no direct sun")
    if height > -6:
        return gettext("soft light of the sky") if height > -4 else gettext("blue light")
    return gettext("dark: bring light")


def second_words(sheet: LightSheet) -> str:
    """How far the second opinion disagrees, in seconds."""
    second = sheet.second
    if second is None or second.seconds is None:
        return gettext("A second calculation had nothing to compare here on this date.")
    return gettext(
        "A second, independent calculation differs by at most %(seconds)s s (%(event)s; "
        "%(count)s times compared)."
    ) % {
        "seconds": number_format(second.seconds, 1),
        "event": str(KINDS[SAME.get(second.kind, second.kind)]),
        "count": second.compared,
    }
