"""What is erased and what is left, in lines for people."""

from __future__ import annotations

from collections.abc import Iterator

from django.conf import settings
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from .backup.own import KEPT
from .erasing import Survey
from .given import TOLD_FOR


def gone_lines(found: Survey) -> Iterator[str]:
    """What goes, each with its count."""
    for words, count in found.rows.items():
        yield _("%(count)s: %(what)s") % {"count": count, "what": words}
    if count := len(found.files):
        files = ngettext(
            "%(n)s file of pictures or papers", "%(n)s files of pictures or papers", count
        )
        yield files % {"n": count}
    yield _("the couple’s link: it opens nothing any more")


def stays_lines(found: Survey) -> Iterator[str]:
    """What stays, why, and until when."""
    if found.entries:
        words = ngettext(
            "%(n)s calendar entry: its number and its times, without a word, so that subscribed "
            "calendars hear that it is cancelled. It goes after %(days)s days.",
            "%(n)s calendar entries: their numbers and times, without a word, so that subscribed "
            "calendars hear that they are cancelled. They go after %(days)s days.",
            found.entries,
        )
        yield words % {"n": found.entries, "days": TOLD_FOR.days}
    if found.backups:
        words = ngettext(
            "%(n)s backup that Foreday made in its own folder still holds all of it: %(names)s. "
            "Before an update or a restore it goes when %(kept)s newer ones are made, a damaged "
            "database when you delete it.",
            "%(n)s backups that Foreday made in its own folder still hold all of it: %(names)s. "
            "Those before an update or a restore go when %(kept)s newer ones are made, a damaged "
            "database when you delete it.",
            len(found.backups),
        )
        names = ", ".join(found.backups)
        yield words % {"n": len(found.backups), "kept": KEPT, "names": names}
    if found.files and settings.STORAGES["pictures"]["BACKEND"].endswith("PrivateBucket"):
        yield _("Old versions of its pictures, where the object store keeps such: see to it there.")
    yield _(
        "Backups that you keep elsewhere hold it until you delete them. Where one of them is put "
        "back, erase the wedding again."
    )
    yield _(
        "Out of reach: what has left Foreday on paper, as a download, a calendar file or a mail."
    )
    yield _("The log: numbers and public ids, never a word that somebody typed.")
    yield _(
        "The memory of a server that runs: what it planned last, until it is started anew; and on "
        "PostgreSQL the server’s own files, until it writes over what was deleted."
    )
    yield _("The studio’s own: kit, insurance, kinds of day, questions to every couple, accounts.")
