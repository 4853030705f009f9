"""Clock times as one says them aloud, to five minutes."""

from __future__ import annotations

from datetime import datetime

from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

STEPS = (
    _("%(hour)s o’clock"),
    _("five past %(hour)s"),
    _("ten past %(hour)s"),
    _("a quarter past %(hour)s"),
    _("twenty past %(hour)s"),
    _("twenty-five past %(hour)s"),
    _("half past %(hour)s"),
    _("twenty-five to %(next)s"),
    _("twenty to %(next)s"),
    _("a quarter to %(next)s"),
    _("ten to %(next)s"),
    _("five to %(next)s"),
)
HOURS = (
    _("twelve"),
    _("one"),
    _("two"),
    _("three"),
    _("four"),
    _("five"),
    _("six"),
    _("seven"),
    _("eight"),
    _("nine"),
    _("ten"),
    _("eleven"),
)
# Until which hour, and what the part of the day is called.
PARTS = (
    (3, _("about %(time)s at night")),
    (12, _("about %(time)s in the morning")),
    (18, _("about %(time)s in the afternoon")),
    (22, _("about %(time)s in the evening")),
    (24, _("about %(time)s at night")),
)


def spoken(at: datetime) -> str:
    """21:32 as "about half past nine in the evening"."""
    fives = round((at.hour * 60 + at.minute + at.second / 60) / 5) % 288
    hour, step = divmod(fives, 12)
    if step == 0 and hour % 12 == 0:
        return gettext("about noon") if hour else gettext("about midnight")
    names = {"hour": HOURS[hour % 12], "next": HOURS[(hour + 1) % 12]}
    part = next(words for until, words in PARTS if hour < until)
    return str(part) % {"time": str(STEPS[step]) % names}
