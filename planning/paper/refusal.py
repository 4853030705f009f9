"""Why a paper was not printed, and what to do about it."""

from __future__ import annotations

from django.utils.translation import gettext as _

from planning.press.apart import SECONDS, NotDrawnError
from planning.press.draw import PangoMissingError, TooLongError

from .parts import PARTS

TOLD = 3  # of the longest parts


CANNOT = (PangoMissingError, TooLongError, NotDrawnError)


def refusal(error: Exception) -> str:
    """In one line what stands in the way."""
    if isinstance(error, TooLongError):
        return _too_long(error)
    if isinstance(error, NotDrawnError):
        words = _("Drawing this took more than %(n)s seconds. Print fewer parts at a time.")
        return words % {"n": SECONDS}
    return str(error)


def _too_long(long: TooLongError) -> str:
    """Which parts take most of the pages, and how to come by with less."""
    titles = {part.key: part.title for part in PARTS}
    longest = sorted(long.parts.items(), key=lambda item: -item[1])[:TOLD]
    said = ", ".join(f"{titles.get(key, key)} {count}" for key, count in longest)
    values = {"pages": long.pages, "most": long.most, "parts": said}
    return (
        _(
            "This would have %(pages)s pages, and %(most)s is the most: nobody finds anything in "
            "more. The longest parts: %(parts)s. Print fewer parts at a time."
        )
        % values
    )
