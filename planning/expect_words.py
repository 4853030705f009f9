"""What a couple may expect, in words: what nobody can promise, and the usual cautions.

Both are common practice, no source; the first is the studio's to write.
"""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from studio.models import Studio

from .compute.agreed import Spoken

CANNOT = gettext_lazy(
    "Nobody can promise the weather and the light it brings, that everybody is there when they "
    "are called, or that every place lets us stand where we would like to. The times here are a "
    "plan: if the day runs late we cut what matters least, as we have talked it over. We try for "
    "every photograph on your lists, and no single one of them can be guaranteed."
)
CAUTIONS = (
    gettext_lazy(
        "Sun and heat: shade, water and something to eat in between, children and the old first."
    ),
    gettext_lazy(
        "Sparklers, smoke and open fire only where the place allows them, with water at hand, well "
        "away from children, hair and veils."
    ),
    gettext_lazy(
        "Nobody stands on a road, a wall, a roof or at deep water for a photograph. Children are "
        "photographed with their grown-ups close by."
    ),
    gettext_lazy("A drone flies only with a licensed pilot, where the law and the place allow it."),
    gettext_lazy("Local rules, and whoever is in charge at a place, have the last word."),
)


def cannot_promise(studio: Studio) -> str:
    return studio.cannot_promise or str(CANNOT)


def spoken_by(studio: Studio) -> Spoken:
    own = bool(studio.cannot_promise)
    return Spoken(cannot_promise(studio), own, tuple(str(each) for each in CAUTIONS))


def sure_words(step: int) -> str:
    """A chance in words, as `agreed_plan.sure` steps it; never as certain."""
    if step >= 99:
        return _("as good as always")
    if step >= 50:
        return _("on at least %(n)s days of 100") % {"n": step}
    return _("less often than not") if step else _("hardly ever")
