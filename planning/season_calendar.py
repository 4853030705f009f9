"""Whole calendars, as they are handed out: of one wedding, and of the season."""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

from django.conf import settings
from django.db.models import F, Q
from django.utils.translation import gettext, override

from intake.models import Wedding
from studio.models import Studio

from .brief import load_brief, load_briefs
from .compute.day import plan_wedding
from .compute.values import Brief
from .entries import list_entries, list_studio_entries
from .entry import Entry
from .given import Batch, hand_out
from .ics import calendar_bytes
from .taken_out import LAST

# What the season's calendar holds: enough to look back a quarter, and more weddings than one
# studio has ahead, so that thousands of past ones cost a reader nothing.
PAST = timedelta(days=92)
MOST = 300
OWN = "studio"  # what the UIDs of the studio's own entries are made of


def wedding_calendar(wedding: Wedding, kept: bool = True) -> tuple[bytes, int]:
    """The file, and how many entries are in it; not `kept` where nobody is given it."""
    brief = load_brief(wedding)
    entries = hand_out([_batch(wedding.pk, brief)], kept)
    return calendar_bytes(brief.names, entries), len(entries)


def season_calendar(now: datetime, kept: bool = True) -> bytes:
    """Every wedding ahead and lately past, and what is the studio's own; not `kept` where nobody
    is given it."""
    studio = Studio.get()
    with override(settings.LANGUAGE_CODE):
        own = Batch(None, OWN, studio.zone, list_studio_entries())
        name = gettext("Weddings, %(studio)s") % {"studio": studio.name}
    entries = hand_out([own, *season_batches(now.astimezone(ZoneInfo(studio.zone)))], kept)
    return calendar_bytes(name, entries)


def season_batches(now: datetime) -> list[Batch]:
    """In the same number of queries, however many weddings there are."""
    first = now.date() - PAST
    weddings = Wedding.objects.annotate(last=LAST).filter(Q(last__gte=first) | Q(last=None))
    soonest = weddings.order_by(F("last").asc(nulls_last=True), "pk")[:MOST]
    keys = dict(soonest.values_list("public_id", "pk"))
    briefs = load_briefs(Wedding.objects.filter(pk__in=keys.values()))
    return [_batch(keys[brief.wedding], brief) for brief in briefs]


def _batch(wedding: int, brief: Brief) -> Batch:
    return Batch(wedding, brief.wedding, brief.zone, entries_of(brief))


@lru_cache(maxsize=2 * MOST)
def entries_of(brief: Brief) -> tuple[Entry, ...]:
    """In the photographer's language, whoever asks. The same brief is asked for every few hours by
    every reader of the season."""
    with override(settings.LANGUAGE_CODE):
        return list_entries(plan_wedding(brief))
