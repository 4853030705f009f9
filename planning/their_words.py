"""All that a couple entered, as JSON for them to take away: their words, and no word of ours.

The keys are promised: FORM rises when one of them changes its name or its meaning; a new key may
come at any time. Times are ISO 8601 (UTC where they are moments, the clock of the place where they
are not), an empty text is an answer that was not given, and `key` names a row within its list.
DEVELOPERS.md lists the keys.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from typing import Any

from django.db.models import Model
from django.utils import timezone

from intake.drafts import sheets_of
from intake.models import (
    CareNote,
    Contact,
    Day,
    Group,
    Moment,
    MustHave,
    Partner,
    Picture,
    Place,
    Wedding,
)
from intake.names import split_names
from intake.own_models import Answer, Question
from intake.row_models import Anchor
from studio.models import Studio

from .meeting_models import MeetingPoint

WHAT, FORM = "what a couple entered in Foreday", 1
PLACE = ("key", "name", "uses", "address", "coordinator", "coordinator_phone", "coordinator_email")
PLACE += ("wet_plan", "not_allowed", "note")
# The couple's lists: the key in the file, the table, and its fields, which keep their names.
LISTS: dict[str, tuple[type[Model], tuple[str, ...]]] = {
    "partners": (Partner, ("key", "name", "called", "word", "phone", "email")),
    "days": (Day, ("key", "date", "title")),
    "places": (Place, PLACE),
    "moments": (Moment, ("key", "day", "kind", "title", "at", "unknown", "place")),
    "contacts": (Contact, ("key", "listed_as", "name", "role", "side", "phone", "email")),
    "groups": (Group, ("key", "title", "people", "everyone", "extra", "wish")),
    "must_haves": (MustHave, ("key", "text", "kind")),
    "care_notes": (CareNote, ("key", "person", "kind", "other", "note")),
    "pictures": (Picture, ("key", "line", "width", "height")),
}
ALONE = ("answers_due", "sent_at", "matters", "anything_else")
SHARING = ("online", "children", "gallery", "supplier_use", "sharing_note")


def their_words(wedding: Wedding) -> dict[str, Any]:
    """Plain values, as `json.dumps` takes them."""
    return {
        "what": WHAT,
        "form": FORM,
        "made_at": plain(timezone.now()),
        "studio": Studio.get().name,
        "wedding": {"id": wedding.public_id, "zone": wedding.zone, "language": wedding.language}
        | {name: plain(getattr(wedding, name)) for name in ALONE},
        "sharing": {name: getattr(wedding, name) for name in SHARING},
        **{name: _rows(name, wedding) for name in LISTS},
        "taken_out": {
            name: _rows(name, wedding, taken_out=True)
            for name, (model, _fields) in LISTS.items()
            if issubclass(model, Anchor)
        },
        "own_answers": [_answer(each) for each in wedding.own_answers.all()],
        "pages": [_page(state) for state in wedding.steps.order_by("pk")],
        "summaries": [_summary(each) for each in wedding.agreements.order_by("number")],
        "not_right": _objections(wedding),
    }


def _rows(name: str, wedding: Wedding, taken_out: bool = False) -> list[dict[str, Any]]:
    model, fields = LISTS[name]
    rows = model._base_manager.filter(wedding=wedding)
    if issubclass(model, Anchor):
        rows = rows.filter(removed_at__isnull=not taken_out)
    if model is Moment:
        rows = rows.select_related("day", "place")
    return [{field: _value(row, field) for field in fields} for row in rows]


def _value(row: Model, field: str) -> Any:
    value = getattr(row, field)
    if field == "people":
        return split_names(value)
    return value.key if isinstance(value, Model) else plain(value)


def plain(value: Any) -> Any:
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat(timespec="seconds")
    if isinstance(value, time):
        return value.isoformat(timespec="minutes")
    return value.isoformat() if isinstance(value, date) else value


def _answer(answer: Answer) -> dict[str, Any]:
    """To a question of the studio's own; of a file, what they called it."""
    value = answer.value["called"] if answer.kind == Question.Kind.FILE else answer.value
    return {"asked": answer.asked, "kind": answer.kind, "value": value}


def _page(state: Any) -> dict[str, Any]:
    """`not_kept_yet` is what was typed and lies here unfinished, by the names of its boxes."""
    drafts = [{"at": each.at, "typed": each.typed} for each in sheets_of(state)]
    return {"page": state.slug, "kept_at": plain(state.saved_at), "not_kept_yet": drafts}


def _summary(version: Any) -> dict[str, Any]:
    """`text` is word for word what they were shown, `sha256` the digest of just that text."""
    return {
        "number": version.number,
        "shared_at": plain(version.shared_at),
        "text": version.snapshot,
        "sha256": version.digest,
        "confirmed_by": version.confirmed_by,
        "confirmed_at": plain(version.confirmed_at),
    }


def _objections(wedding: Wedding) -> list[dict[str, Any]]:
    """What they said of a summary. What the photographer noted beside it is not theirs."""
    said = wedding.meeting_points.filter(by=MeetingPoint.By.COUPLE).select_related("agreement")
    return [
        {
            "said_at": plain(point.created_at),
            "of_summary": point.agreement.number if point.agreement else None,
            "text": point.text,
        }
        for point in said
    ]
