"""The parts of the day pack: what each shows. They are for the photographer alone."""

from __future__ import annotations

from typing import Any

from planning.compute.planned import Finding
from planning.contact_sheet import contact_sheets
from planning.expect_words import spoken_by
from planning.pack_page import PackDay, cautions
from planning.ribbon_spare import ribbon_words
from studio.words import long_date

from .bands import light_at
from .calls import calls
from .image import as_image
from .subject import Reader, Subject
from .wishes import wishes

# What the photographer does alone, or where no light falls on anybody.
NO_LIGHT_NEEDED = {"travel", "setup", "rest", "pack", "night"}


def cover(subject: Subject, reader: Reader) -> dict[str, Any]:
    lights = zip(subject.days, subject.lights, strict=True)
    return {
        "brief": subject.brief,
        "studio": subject.studio,
        "days": [(each, as_image(light.ribbon), ribbon_words(light.day)) for each, light in lights],
        "state": subject.state,
        "count": len(subject.changes),
        "clashes": [finding for finding in subject.plan.findings if _clashes(finding)],
    }


def _clashes(finding: Finding) -> bool:
    """What the cover warns of; a list of groups is mended long before the day."""
    return finding.step != "groups" and (
        finding.weight == "clash" or finding.code == "unknown_drives"
    )


def who_to_call(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {"ranks": calls(subject.plan), "studio": subject.studio}


def places(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {"brief": subject.brief, "changed": subject.changed}


def the_day(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {
        "days": [(each, light_at(each.day), titled(subject, each.day)) for each in subject.days],
        "cautions": cautions(subject.plan),
        "changed": subject.changed,
    }


def running_late(subject: Subject, reader: Reader) -> dict[str, Any]:
    """Also of a day with no plans for being late, where the photographer can mend why."""
    days = [each for each in subject.days if _says_late(each)]
    return {
        "days": [(each, titled(subject, each.day)) for each in days],
        "some": any(each.late for each in days),
    }


def _says_late(each: PackDay) -> bool:
    return bool(each.late) or each.why in {"short", "drives"}


def groups(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {"plan": subject.plan, "changed": subject.changed}


def wanted(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {"wishes": wishes(subject.plan)}


def care(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {"brief": subject.brief}


def asked(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {"brief": subject.brief}


def pictures(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {"sheets": contact_sheets(subject.brief.pictures)}


def light(subject: Subject, reader: Reader) -> dict[str, Any]:
    skies = []
    for each in subject.lights:
        drawn = [
            (place, as_image(place.path.svg if place.path else ""), _lit(place.blocks))
            for place in each.places
        ]
        if drawn:
            skies.append((titled(subject, each.day), drawn))
    return {"skies": skies}


def _lit(lines: list[Any]) -> list[Any]:
    return [(at, line) for at, line in lines if line.lit.block.kind not in NO_LIGHT_NEEDED]


def visit(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {"visit": subject.plan.visit}


def agreed(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {"state": subject.state, "changes": subject.changes}


def still_open(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {"findings": subject.plan.findings}


def safety(subject: Subject, reader: Reader) -> dict[str, Any]:
    return {"cautions": spoken_by(subject.studio).cautions}


def titled(subject: Subject, day: Any) -> str:
    """The date, where there are several days to tell apart."""
    return long_date(day.brief.date) if len(subject.plan.days) > 1 else ""


def has_light(subject: Subject) -> bool:
    return any(day.light for day in subject.plan.days)


def has_late(subject: Subject) -> bool:
    return any(_says_late(each) for each in subject.days)


def has_asked(subject: Subject) -> bool:
    brief = subject.brief
    return bool(brief.allowed or brief.sharing_note or brief.own_answers)


def has_cares(subject: Subject) -> bool:
    return bool(subject.brief.cares or subject.brief.anything_else)


def has_blocks(subject: Subject) -> bool:
    return any(day.blocks for day in subject.plan.days)
