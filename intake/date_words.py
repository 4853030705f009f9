"""Typed dates and times, read in every language that couples are offered, all at once.

A couple of two languages writes "12 czerwca" on a German page, so the page's language is not asked.
"""

from __future__ import annotations

import re
import unicodedata
from datetime import date, time
from functools import cache

from django.conf import settings
from django.utils import dates
from django.utils.translation import override

# Beside the names that Django's catalogues hold: other spellings, the cases that follow "on" in
# Polish, the short forms of calendars, and months in Roman figures (usual in Polish).
MONTHS = {
    1: "i jän jänner jaenner januar janv", 2: "ii feber febr févr", 3: "iii mär mrz maerz",
    4: "iv", 5: "v", 6: "vi", 7: "vii juil juill", 8: "viii", 9: "ix sept setiembre set wrz",
    10: "x paź", 11: "xi", 12: "xii gru",
}  # fmt: skip
DAYS = (
    "mon tu tue tues wed thu thur thurs fri sat su sun mo di mi do fr sa so sonnabend "
    "lu lun ma mar me mer je jeu ve ven sam dim mié ju jue vi vie sáb dom "
    "pon wt wto śr śro środę czw pt pią sob sobotę nd ndz nie niedz niedzielę"
)
BETWEEN = (
    "the of on in st nd rd th den der dem am er ere le du d l o a el del de la en w we dnia r "
    "roku rok ego"
)
CLOCK = {
    "noon": 12, "midday": 12, "midnight": 0, "mittag": 12, "mittags": 12, "mitternacht": 0,
    "midi": 12, "minuit": 0, "mediodia": 12, "medianoche": 0, "poludnie": 12, "polnoc": 0,
    "polnocy": 0,
}  # fmt: skip
BEFORE = r"(?:at|um|ab|a|vers|à|a las|a la|las|o|godz|godzina|o godz|o godzinie|w|al|zu)\b\.?\s*"
AFTER = r"(?:uhr|h|hs|hrs|hours|o.?clock|heures?|horas?|godz\.?)\.?"
HALF = r"(?:(?P<half>[ap])\.?\s?m\.?)"
TIMES = [
    re.compile(rf"(?P<hour>\d{{1,2}})\s*(?:[:.]|h|uhr)\s*(?P<minute>\d\d)\s*(?:{AFTER})?{HALF}?"),
    re.compile(r"(?P<hour>\d{1,2}):(?P<minute>\d\d):\d\d"),
    re.compile(rf"(?P<hour>\d{{1,2}})\s*(?:{AFTER})?\s*{HALF}?"),
    re.compile(r"(?P<hour>\d{1,2})(?P<minute>\d\d)"),
]


def fold(text: str) -> str:
    """Small letters without accents: what "Środę" and "środe" have in common."""
    plain = unicodedata.normalize("NFKD", text.casefold().replace("ł", "l"))
    return "".join(c for c in plain if not unicodedata.combining(c))


@cache
def month_words() -> dict[str, int]:
    tables = (dates.MONTHS, dates.MONTHS_3, dates.MONTHS_AP, dates.MONTHS_ALT)
    words = {fold(word): month for month, text in MONTHS.items() for word in text.split()}
    for code, _name in settings.LANGUAGES:
        with override(code):
            for table in tables:
                words |= {fold(str(name)).strip("."): month for month, name in table.items()}
    return words


@cache
def day_words() -> frozenset[str]:
    words = {fold(word) for word in DAYS.split()}
    for code, _name in settings.LANGUAGES:
        with override(code):
            for table in (dates.WEEKDAYS, dates.WEEKDAYS_ABBR):
                words |= {fold(str(name)).strip(".") for name in table.values()}
    return frozenset(words)


def read_date(text: str) -> date | None:
    """The date that is written, day before month; None where none can be read.

    A weekday beside it is not looked at: it is said back, for people to see.
    """
    words, figures = [], []
    for piece in re.findall(r"[^\W\d_]+|\d+|[^\s\w]|_", fold(text)):
        if piece.isdecimal():
            figures.append(piece)
        elif piece.isalpha():
            words.append(piece)
        elif piece not in "-./,'’":
            return None
    month = _month(words, is_named=len(figures) == 2)
    if month is None or len(figures) != (2 if month else 3):
        return None
    year_first = len(figures[0]) == 4
    if month:
        day, year = reversed(figures) if year_first else figures
    else:
        day, month, year = reversed(figures) if year_first else figures
    try:
        return date(_year(year), int(month), int(day))
    except ValueError:
        return None


def _month(words: list[str], is_named: bool) -> int | None:
    """The month that the words name, 0 where they name none, None where they name anything else."""
    months = [word for word in words if word in month_words()] if is_named else []
    others = [word for word in words if word not in day_words() and word not in BETWEEN.split()]
    if set(others) - set(months):
        return None
    # "mar 4 mayo": a word that can be a weekday too gives way to one that is only a month.
    sure = [word for word in others if word in months]
    found = {month_words()[word] for word in sure or months}
    if len(found) > 1:
        return None
    return found.pop() if found else 0


def _year(text: str) -> int:
    if len(text) == 2:  # as POSIX reads two figures
        return int(text) + (1900 if int(text) > 68 else 2000)
    if len(text) != 4:
        raise ValueError(text)
    return int(text)


def read_time(text: str) -> time | None:
    """The time of day that is written; None where none can be read."""
    folded = " ".join(fold(text).split())
    folded = re.sub(rf"^(?:{BEFORE})+", "", folded)
    if folded in CLOCK:
        return time(CLOCK[folded])
    for pattern in TIMES:
        if found := pattern.fullmatch(folded):
            return _clock(**found.groupdict())
    return None


def _clock(hour: str, minute: str | None = None, half: str | None = None) -> time | None:
    hours, minutes = int(hour), int(minute or 0)
    if half and not 1 <= hours <= 12:
        return None
    if half:
        hours = hours % 12 + (12 if half == "p" else 0)
    return time(hours, minutes) if hours < 24 and minutes < 60 else None
