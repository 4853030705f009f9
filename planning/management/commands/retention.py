"""`manage.py retention`: weddings whose answers have been kept for as long as you said."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

from django.conf import settings
from django.core.management.base import CommandError, CommandParser
from django.db import OperationalError, ProgrammingError

from intake.models import Wedding
from planning import clock_sense
from planning.erasing import NotErasedError, erase, forget_told, overwrite_deleted
from planning.management.one_line import OneLineCommand
from planning.retention import Due, due_by, sweep, today_of, undated
from studio.models import Studio
from studio.sessions import forget_old

MOST = 25  # our choice: more at once are a clock or a setting that is wrong, more likely than not


class Command(OneLineCommand):
    help = (
        "List the weddings whose answers have been kept for as long as Studio says, and with "
        "--erase erase them. It names public ids and dates, and no people: for cron, every night. "
        "What earlier erasures had to leave for a while goes too, and sign-ins that are over."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--erase", action="store_true", help="erase them, for good")
        parser.add_argument(
            "--most", type=int, default=MOST, metavar="N", help=f"erase no more at once ({MOST})"
        )
        parser.add_argument(
            "--today", metavar="DATE", help="say that the clock is right, after it has leapt"
        )
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *, most: int, **options: Any) -> None:
        try:
            studio = Studio.get()
            today = today_of(studio)
            due, dateless = due_by(today, studio), undated(studio)
            report = {
                "months": studio.keep_months,
                "today": today.isoformat(),
                "due": [_values(each) for each in due],
                "undated": list(dateless.values_list("public_id", flat=True)),
                "erased": [],
            }
        except (OperationalError, ProgrammingError):
            words = "There is no database yet: run migrate, or demo."
            raise CommandError(words, returncode=2) from None
        if options["erase"]:
            if len(due) > most:
                raise CommandError(
                    f"Nothing was erased: {len(due)} weddings are due at once. Look at the clock, "
                    f"and at the months in Studio; then give --most {len(due)}.",
                    returncode=2,
                )
            _ask_about_the_clock(today, options["today"], due)
            report |= _erase(due)
        self.stdout.write(json.dumps(report) if options["json"] else _in_words(report, options))
        if report.get("failed"):
            raise CommandError(" ".join(report["failed"]), returncode=2)


def _ask_about_the_clock(today: date, said: str | None, due: list[Due]) -> None:
    """Raises CommandError where it has leapt, weddings are due by it, and nobody says it is right.

    A leap with nothing due is not noted: it is asked about when there is something to lose.
    """
    if said not in (None, today.isoformat()):
        raise CommandError(
            f"Nothing was erased: the clock says {today}, and not {said}.", returncode=2
        )
    leapt = clock_sense.leap(today)
    if leapt and not said:
        if not due:
            return
        raise CommandError(
            f"Nothing was erased: the clock says {today}, and the last that is known here is of "
            f"{leapt[0]}. Set it if it is wrong; if it is right, give --today {today} once.",
            returncode=2,
        )
    try:
        clock_sense.note(today)
    except OSError as error:
        why = f"{settings.DATA_DIR}: {error.strerror}"
        raise CommandError(f"Nothing was erased: {why}.", returncode=2) from error


def _values(due: Due) -> dict[str, str]:
    return {"wedding": due.wedding, "last": due.last.isoformat(), "by": due.by.isoformat()}


def _erase(due: list[Due]) -> dict[str, Any]:
    """Each on its own, so that one that cannot be erased keeps no other."""
    erased, failed, files = [], [], 0
    for each in due:
        try:
            wedding = Wedding.objects.filter(public_id=each.wedding).first()
            if wedding:  # nobody else has done so meanwhile
                erase(wedding)
                erased.append(each.wedding)
        except NotErasedError as error:
            failed.append(f"{each.wedding}: {error}")
    try:
        files = sweep()
    except OSError as error:
        failed.append(f"Files of erased weddings could not be removed: {error}.")
    entries = forget_told()
    forget_old()
    values = {"erased": erased, "failed": failed, "stray_files": files, "old_entries": entries}
    return values | {"written_over": overwrite_deleted()}


def _in_words(report: dict[str, Any], options: dict[str, Any]) -> str:
    lines = [f"Answers are kept for {report['months']} months after the last day."]
    if not report["due"]:
        lines.append("No wedding is past that.")
    for each in report["due"]:
        done = "erased" if each["wedding"] in report["erased"] else "to be erased"
        lines.append(f"{each['wedding']}: last day {each['last']}, {done} by {each['by']}")
    if report["undated"]:
        names = ", ".join(report["undated"])
        lines.append(f"Without a date for as long, so look at them yourself: {names}")
    if options["erase"]:
        lines.append(
            f"Erased: {len(report['erased'])} weddings, {report['stray_files']} files and "
            f"{report['old_entries']} calendar entries left of earlier ones."
        )
        if not report["written_over"]:
            lines.append("The database file could not be written anew just now: next time.")
    elif report["due"]:
        lines.append("Nothing was erased: this was only a look. To erase them, give --erase.")
    return "\n".join(lines)
