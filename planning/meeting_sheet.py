"""Everything that can be typed on the Meeting, in one form, whatever button is pressed."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from django.http import QueryDict
from django.utils.translation import gettext as _

from intake.answers import errors_of
from intake.models import Wedding, new_key
from intake.read_through import ReadRow, read_steps
from intake.rows import typed
from intake.steps import Step

from .meeting_form import AnswerNoteForm, KeptForm, NewPointForm, PointForm
from .meeting_models import AnswerNote, MeetingPoint

GONE_NOTE = re.compile(r"((?:[\w-]{1,40}\.){1,2}[\w-]{1,40})-text")
GONE_POINT = re.compile(r"point\.([\w-]{1,40})-text")
MOST_POINTS = 200


@dataclass(frozen=True)
class Entry:
    """One answer and its note; `row` is None where the couple took the answer away."""

    form: AnswerNoteForm
    row: ReadRow | None
    heading: str


@dataclass(frozen=True)
class Part:
    title: str
    entries: list[Entry]


@dataclass(frozen=True)
class StepSheet:
    """A step of the couple's; `entries` of all its parts, and what is noted of answers gone."""

    step: Step
    parts: list[Part]
    gone: list[Entry]

    @property
    def entries(self) -> list[Entry]:
        return [entry for part in self.parts for entry in part.entries] + self.gone

    @property
    def settled(self) -> int:
        return sum(bool(entry.form["settled"].value()) for entry in self.entries)

    @property
    def is_wrong(self) -> bool:
        return any(entry.form.errors for entry in self.entries)


class Sheet:
    """All forms of the page, bound to what was posted or to what is kept."""

    def __init__(self, wedding: Wedding, data: QueryDict | None = None) -> None:
        self.wedding = wedding
        self.data = None if data is None else typed(data, [])
        self.steps = self._steps()
        self.points = [PointForm(self.data, point) for point in self._all_points()]
        self.new = NewPointForm(self.data)

    def _steps(self) -> list[StepSheet]:
        notes = {note.key: note for note in self.wedding.answer_notes.all()}
        found = []
        for step, parts in read_steps(self.wedding):
            shown = [
                Part(part.title, [self._entry(row, part.title, step, notes) for row in part.rows])
                for part in parts
                if part.rows
            ]
            found.append(StepSheet(step, shown, self._gone(step, notes, shown)))
        return found

    def _entry(self, row: ReadRow, title: str, step: Step, notes: dict[str, AnswerNote]) -> Entry:
        note = notes.pop(row.key, None) or AnswerNote(wedding=self.wedding, key=row.key)
        heading = row.heading or title or str(step.title)
        return Entry(AnswerNoteForm(self.data, note, row.mark), row, heading)

    def _gone(self, step: Step, notes: dict[str, AnswerNote], shown: list[Part]) -> list[Entry]:
        """Notes on answers that are no longer there, kept or just typed."""
        there = {entry.form.prefix for part in shown for entry in part.entries}
        lost = [note for key, note in notes.items() if key.split(".")[0] == step.slug]
        known = there | {note.key for note in lost}
        for name in self.data or ():
            match = GONE_NOTE.fullmatch(name)
            key = match[1] if match else ""
            if key.split(".")[0] == step.slug and key not in known and self.data[name].strip():
                lost.append(AnswerNote(wedding=self.wedding, key=key))
        return [
            Entry(AnswerNoteForm(self.data, note, ""), None, note.about or _("an answer"))
            for note in lost
        ]

    def _all_points(self) -> list[MeetingPoint]:
        """Those that are kept, and those of the page that were taken away elsewhere meanwhile."""
        points = list(self.wedding.meeting_points.select_related("agreement"))
        known = {point.key for point in points}
        for name in self.data or ():
            match = GONE_POINT.fullmatch(name)
            if match and match[1] not in known:
                points.append(MeetingPoint(wedding=self.wedding, key=match[1]))
        return points

    @property
    def open_points(self) -> list[PointForm]:
        return [form for form in self.points if not self._is_settled(form)]

    @property
    def settled_points(self) -> list[PointForm]:
        return [form for form in self.points if self._is_settled(form)]

    def _is_settled(self, form: PointForm) -> bool:
        return bool(form.instance.pk and form.initial.get("settled")) and not form.errors

    def entries(self) -> Iterable[Entry]:
        return (entry for step in self.steps for entry in step.entries)

    def forms(self) -> list[KeptForm]:
        return [*(e.form for e in self.entries()), *self._points_to_keep(), self.new]

    def _points_to_keep(self) -> list[PointForm]:
        """A point that is gone comes back only if its words were changed on this page."""
        return [f for f in self.points if f.errors or f.is_stored() or f.is_touched()]

    def errors(self) -> list[tuple[str, str]]:
        errors = [error for form in self.forms() for error in errors_of(form)]
        if self.new.cleaned_data.get("text") and len(self.points) >= MOST_POINTS:
            self.new.add_error("text", _("There are too many points: remove some of them first."))
            errors += errors_of(self.new)
        return errors

    def taken(self) -> list[str]:
        """What the other device changed meanwhile and is kept so."""
        notes = [(entry.heading, entry.form) for entry in self.entries()]
        points = [(form.instance.text, form) for form in self.points]
        return [
            f"{heading[:60]} ({', '.join(str(form.fields[name].label) for name in form.taken)})"
            for heading, form in [*notes, *points]
            if form.taken
        ]

    def brought_back(self) -> list[str]:
        forms = self._points_to_keep()
        return [form.cleaned_data["text"] for form in forms if not form.is_stored()]

    def save(self) -> None:
        points = self.wedding.meeting_points
        for entry in self.entries():
            if entry.form.is_touched():
                self._save_note(entry)
        for form in self._points_to_keep():
            if form.is_touched():
                points.update_or_create(key=form.instance.key, defaults=form.answers())
        text, key = (self.new.cleaned_data.get(name) for name in ("text", "key"))
        if text:
            points.get_or_create(key=key or new_key(), defaults={"text": text})

    def _save_note(self, entry: Entry) -> None:
        form, notes = entry.form, self.wedding.answer_notes
        if form.is_blank():
            notes.filter(key=form.prefix).delete()
            return
        answers = form.answers()
        about = {"about": entry.heading[:300]} if entry.row else {}
        settled_as = form.answer if answers["settled"] else ""
        notes.update_or_create(
            key=form.prefix, defaults=answers | about | {"settled_as": settled_as}
        )
