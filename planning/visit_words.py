"""What the venue visit is for, in the reader's words, for page, paper and calendar."""

from __future__ import annotations

from django.utils.formats import number_format
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from studio.templatetags.clock import block_title, clock, long_date

from .compute.planned import Visit
from .compute.visit import middle
from .light_words import sun_words

# Common practice, no source.
CHECKLIST = (
    _("Where the groups will stand: room for the largest, even and step-free ground"),
    _("Where the shade is now, and where it goes in the next half-hour"),
    _("What hides the low sun: note its bearing and how high it stands"),
    _("The wet-weather places: their light, and how many people fit"),
    _("Sockets: where they are, and who may use them"),
    _("The way to walk between places, timed at the pace of the slowest guest"),
    _("Step-free routes and doors, and seats near the groups"),
    _("Roads, water, steep ground and low branches near where people will stand"),
)


def visit_lines(visit: Visit) -> list[str]:
    """What to look for: whose sun it is, and how near it stands, as far as they are known."""
    lines = []
    if visit.block:
        values = {
            "block": block_title(visit.block),
            "date": long_date(visit.block.start),
            "time": clock(middle(visit.block)),
        }
        lines.append(gettext("To see the sun as at %(block)s, %(date)s, %(time)s.") % values)
    if visit.there:
        lines.append(gettext("At the visit the sun is %(sun)s.") % {"sun": sun_words(visit.there)})
    if visit.wanted and visit.separation is not None:
        words = gettext("On the day it is %(sun)s.") % {"sun": sun_words(visit.wanted)}
        lines.append(f"{words} {apart(visit.separation)}")
    return lines


def apart(degrees: float) -> str:
    figure = number_format(degrees, 1)
    return gettext("The two suns are %(degrees)s° apart.") % {"degrees": figure}
