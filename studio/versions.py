"""The version of this program, and what each one changed, in words for photographers.

The newest comes first, and its number is the program's; pyproject.toml repeats it, and a test
compares the two. Numbers go by Semantic Versioning 2.0.0 (https://semver.org): before 1.0.0 the
middle one rises when something is new, the last when something was only mended.
"""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from django.utils.translation import gettext_lazy as _


class Version(NamedTuple):
    number: str
    since: date
    changes: tuple[str, ...]  # translated where they are read


VERSIONS = (
    Version(
        "0.2.0",
        date(2026, 11, 26),
        (
            _(
                "Several people may sign in to one studio: owners, photographers, and second "
                "photographers who see only the weddings they are put down for."
            ),
            _("A sign-in ends after a week unused, and after thirty days in any case."),
            _("Nobody can lock you out by guessing at your password from somewhere else."),
            _(
                "Each wedding has a ready list: what must be true by when, ticked off on a phone, "
                "with what is due next across the season, and a guide for first weddings."
            ),
            _(
                "A couple's phone can reach your laptop across the table, in your own Wi-Fi, and a "
                "guide goes step by step through putting Foreday online."
            ),
            _(
                "The day is on your phone, one screen under one thumb; second photographer and "
                "helpers get theirs by a secret link that you can switch off."
            ),
            _(
                "The bag of each wedding: what is not covered when one thing fails, what to pack, "
                "and whether cards and batteries are enough."
            ),
            _(
                "Your calendar program fetches the whole season from a secret address, and hears "
                "of every change."
            ),
            _(
                "Each reader has papers of their own, in the parts that you choose, on A4 or "
                "folded for the pocket."
            ),
            _("You find a wedding by a name, a place or a date."),
            _("What is typed is kept when the network or the disk fails, to be sent once more."),
            _(
                "Couples read everything in English, German, French, Spanish or Polish, answer "
                "questions of your own too, and confirm a summary of what was agreed."
            ),
            _("Pictures may lie in an object store, where your own disk is small."),
            _(
                "One command makes a backup of everything and one puts it back; before each update "
                "of the database Foreday makes one by itself."
            ),
            _(
                "Couples take a copy of all that they entered, as a PDF or for a program. You say "
                "how long you keep answers, are reminded, and erase a wedding whole."
            ),
            _("Foreday runs on PostgreSQL too, for a studio that outgrows one machine."),
            _(
                "There is an address for whatever watches over your server, and a log that a "
                "machine can read. Neither holds a couple's words."
            ),
        ),
    ),
    Version(
        "0.1.0",
        date(2026, 11, 25),
        (
            _(
                "The couple's questions, the meeting, the groups in their order, the light, the "
                "day and what to cut when it runs late, and the papers for the pocket."
            ),
        ),
    ),
)
VERSION = VERSIONS[0].number
