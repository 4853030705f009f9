"""The day: the photographer's beside the second photographer's, fair beside wet."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from .blocks import blocks_of
from .chain import build_chain
from .draft import Change, golden_key
from .planned import Day, Turn
from .second import RANK, plan_both, ways_to_share, worst
from .settling import settle_all
from .values import Brief, DayBrief
from .wet import in_rain, keeps_golden, on_wet_roads


def lay_out(
    brief: Brief,
    day: DayBrief,
    turns: tuple[Turn, ...],
    golden: tuple[datetime, datetime] | None = None,
) -> Day:
    """The day when it is fair, beside the day when it rains.

    `golden` is the evening's golden light (start, end) where the portraits are.
    """
    fair = shared(brief, day, turns, golden)
    lit = golden_key(day)
    template = next((b for b in blocks_of(brief) if b.kind == "golden"), None)
    goes_out = template is not None and keeps_golden(template.wet, lit, day)
    wet = shared(on_wet_roads(brief), day, turns, golden if goes_out else None, in_rain(brief, day))
    return replace(fair, wet=wet)


def shared(
    brief: Brief,
    day: DayBrief,
    turns: tuple[Turn, ...],
    golden: tuple[datetime, datetime] | None,
    change: Change = list,
) -> Day:
    """The photographer's day with the second photographer's, if there is one. What either could
    do is hers, unless her day holds better without it."""
    links = change(settle_all(build_chain(brief, day, turns), brief, day)[0])
    best, rank = Day(day), len(RANK)
    for given in ways_to_share(links):
        found = plan_both(brief, day, turns, golden, change, given, links)
        if (how := worst(found, brief)) < rank:
            best, rank = found, how
        if rank == 0:
            break
    return best
