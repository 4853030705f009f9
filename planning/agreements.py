"""The agreed summary between the two sides: written, shared, confirmed, and compared with now."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from intake.languages import in_language_of
from intake.models import Wedding
from intake.read_through import headings
from studio.models import Studio

from .brief import load_brief
from .compute.agreed import Agreed, AgreedNote, digest_of, from_text, to_text
from .compute.agreed_changes import Change, changes
from .compute.agreed_plan import agreed_of
from .compute.day import plan_wedding
from .compute.planned import Plan
from .expect_words import spoken_by
from .meeting_models import Agreement, MeetingPoint

NEWER = gettext_lazy("There is a newer summary than the one you read: read this one, then answer.")


class NotDoneError(Exception):
    """What was asked cannot be done; the message says why."""


def agreed_now(wedding: Wedding, plan: Plan) -> Agreed:
    """The summary as it would be shared now, our own words in it in the couple's language."""
    with in_language_of(wedding):
        return agreed_of(plan, spoken_by(Studio.get()), _notes(wedding))


def _notes(wedding: Wedding) -> list[AgreedNote]:
    """What the photographer ticked for it, and nothing else that was noted."""
    noted = list(wedding.answer_notes.filter(for_couple=True).exclude(text="").order_by("key"))
    points = wedding.meeting_points.filter(for_couple=True)
    about = headings(wedding) if noted else {}
    return [
        *(AgreedNote(note.key, about.get(note.key, note.about), note.text) for note in noted),
        *(AgreedNote(f"point.{point.key}", point.text, point.note) for point in points),
    ]


def read(agreement: Agreement) -> Agreed | None:
    """What a version says; None where it cannot be read any more."""
    try:
        return from_text(agreement.snapshot)
    except ValueError:
        return None


@dataclass
class Standing:
    """How the summary stands: the newest version, and the newest that was confirmed.

    Differences are computed when they are asked for; `broken` are versions in use whose text is
    not the one that their digest was made of.
    """

    wedding: Wedding
    plan: Plan
    shared: Agreement | None = None
    confirmed: Agreement | None = None
    broken: list[Agreement] = field(default_factory=list)

    @cached_property
    def now(self) -> Agreed:
        return agreed_now(self.wedding, self.plan)

    @property
    def waits(self) -> bool:
        """Whether the newest version is not confirmed yet."""
        return self.shared is not None and self.shared.confirmed_at is None

    @cached_property
    def since_confirmed(self) -> list[Change]:
        return self._between(self.confirmed, self.now)

    @cached_property
    def since_shared(self) -> list[Change]:
        """What the newest version does not say yet, while it waits."""
        return self._between(self.shared, self.now) if self.waits else self.since_confirmed

    @cached_property
    def news(self) -> list[Change]:
        """What the version that waits says otherwise than the one that was confirmed."""
        said = read(self.shared) if self.waits and self.confirmed else None
        return self._between(self.confirmed, said) if said else []

    def _between(self, was: Agreement | None, now: Agreed) -> list[Change]:
        said = read(was) if was and was not in self.broken else None
        return changes(said, now) if said else []


def standing(wedding: Wedding, plan: Plan | None = None) -> Standing:
    shared = wedding.agreements.first()
    confirmed = wedding.agreements.exclude(confirmed_at=None).first()
    broken = [each for each in {shared, confirmed} - {None} if not is_sound(each)]
    plan = plan or plan_wedding(load_brief(wedding))
    return Standing(wedding, plan, shared, confirmed, sorted(broken, key=lambda a: a.number))


def is_sound(agreement: Agreement) -> bool:
    return agreement.is_intact and read(agreement) is not None


@transaction.atomic
def share(wedding: Wedding, seen: str) -> Agreement:
    """A new version for the couple; `seen` is the digest of what the photographer has read."""
    wedding = Wedding.objects.select_for_update().get(pk=wedding.pk)
    new = written(wedding, plan_wedding(load_brief(wedding)))
    last = wedding.agreements.first()
    if last and last.snapshot == new["snapshot"] and is_sound(last):
        words = _("Version %(number)s says just this already. Nothing was shared.")
        raise NotDoneError(words % {"number": last.number})
    if new["digest"] != seen:
        raise NotDoneError(
            _("The summary is not what it was when you opened the page. Read it, then share it.")
        )
    return wedding.agreements.create(
        number=last.number + 1 if last else 1, **new, shared_at=timezone.now()
    )


def written(wedding: Wedding, plan: Plan) -> dict[str, str]:
    """The summary as it is kept, word for word, with what it was made of."""
    text = to_text(agreed_now(wedding, plan))
    return {"snapshot": text, "digest": digest_of(text)}


def version_for(wedding: Wedding, number: str) -> Agreement:
    """The version that a page showed, while it is the newest."""
    newest = wedding.agreements.first()
    if newest is None or str(newest.number) != number:
        raise NotDoneError(str(NEWER))
    return newest


@transaction.atomic
def confirm(wedding: Wedding, number: str, name: str) -> Agreement:
    """Whoever comes first confirms; the version is never written again."""
    wedding = Wedding.objects.select_for_update().get(pk=wedding.pk)
    newest = version_for(wedding, number)
    if newest.confirmed_at:
        return newest
    if not is_sound(newest):
        raise NotDoneError(_("Nothing was confirmed: this is not the text that was shared."))
    newest.confirmed_by, newest.confirmed_at = name, timezone.now()
    newest.save(update_fields=["confirmed_by", "confirmed_at"])
    return newest


@transaction.atomic
def object_to(wedding: Wedding, number: str, key: str, text: str) -> MeetingPoint:
    """What is not right becomes an open point of the meeting; sent twice, it is one."""
    version = wedding.agreements.filter(number=number).first() if number.isdecimal() else None
    values = {"text": text, "by": MeetingPoint.By.COUPLE, "agreement": version}
    return wedding.meeting_points.get_or_create(key=key, defaults=values)[0]
