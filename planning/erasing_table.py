"""What becomes of every table when a wedding is erased. A new table is in one of the two lists.

`tests/planning/test_erasing.py` asks for it.
"""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext_lazy as _

# What goes with the wedding, told under these words, and the tables that each stands for.
GOES: dict[Any, tuple[str, ...]] = {
    _("what the couple entered, kept or begun"): (
        "intake.Wedding",
        "intake.Partner",
        "intake.Day",
        "intake.Place",
        "intake.Moment",
        "intake.Contact",
        "intake.Group",
        "intake.MustHave",
        "intake.CareNote",
        "intake.StepState",
        "intake.Answer",
    ),
    _("pictures"): ("intake.Picture", "planning.StudioPicture"),
    _("questions asked of this couple alone"): ("intake.Question",),
    _("summaries that were shared or agreed"): ("planning.Agreement",),
    _("your notes and open points"): ("planning.AnswerNote", "planning.MeetingPoint"),
    _("what you settled: times, groups, places, drives"): (
        "planning.Decisions",
        "planning.Hours",
        "planning.PlaceSpot",
        "planning.Drive",
        "planning.DayDecision",
        "planning.BlockDecision",
        "planning.GroupDecision",
        "planning.GroupRule",
        "planning.SamePerson",
    ),
    _("ticks and lines of its ready list"): ("planning.ReadyTick", "planning.ReadyItem"),
    _("its bag, and the frames counted afterwards"): ("planning.BagLine", "planning.BagNote"),
    _("who is put down for it, and links to papers for phones"): (
        "planning.Assigned",
        "planning.SheetLink",
    ),
}
# What stays, and why. A table may be in both: what of it is the wedding's own goes.
STAYS: dict[str, str] = {
    "planning.GivenEntry": "number and times, no word: calendars must be told that it is cancelled",
    "intake.Question": "those asked of every couple are the studio's",
    "planning.ReadyItem": "those on every list are the studio's",
    "planning.KitItem": "the studio's kit",
    "planning.Policy": "the studio's insurance",
    "planning.Experience": "where the photographer learnt; of other photographers' weddings",
    "planning.KindOfDay": "the studio's templates of days",
    "planning.KindBlock": "the studio's templates of days",
    "planning.CalendarAddress": "an account's secret address, and a digest of the last file",
    "studio.Studio": "the studio itself",
    "studio.Member": "what an account may do",
    "auth.User": "accounts of the studio",
    "auth.Group": "unused, Django's own",
    "auth.Permission": "unused, Django's own",
    "contenttypes.ContentType": "Django's own list of tables",
    "sessions.Session": "who is signed in: ends after thirty days at the latest",
    "axes.AccessAttempt": "sign-ins by account and address, no couple's",
    "axes.AccessAttemptExpiration": "sign-ins by account and address, no couple's",
    "axes.AccessFailureLog": "sign-ins by account and address, no couple's",
    "axes.AccessLog": "sign-ins by account and address, no couple's",
}
# Fields of what stays of a wedding's own rows; all others are emptied.
LEFT_OF_ENTRIES = {"uid", "sequence", "changed_at", "cancelled", "starts", "ends"}
