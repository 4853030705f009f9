"""Ready briefs made by hand, and a reckoning of dates that knows nothing of ours.

Everybody in them is invented.
"""

from datetime import UTC, date, datetime, timedelta

from planning.compute.ready_values import Policy, ReadyBrief, Tick

from .briefs import make_day

LONDON = "Europe/London"
BOOKED = datetime(2026, 1, 10, 12, tzinfo=UTC)
KINDS = frozenset({"liability", "indemnity", "equipment"})
POLICIES = tuple(
    Policy(kind, "Harbour Mutual", date(2026, 1, 1), date(2028, 12, 31)) for kind in sorted(KINDS)
)


def ready_brief(*dates, hours="10:00-22:30", **fields):
    """One wedding with a day on each date, booked long ago and insured; nothing else is said."""
    days = tuple(make_day(on=on, key=f"d{i}", hours=hours) for i, on in enumerate(dates, 1))
    usual = {
        "wedding": "w1",
        "names": "Žofie & Ike",
        "zone": LONDON,
        "days": days,
        "booked_at": BOOKED,
        "kinds": KINDS,
        "policies": POLICIES,
        "countries": frozenset({"GB"}),
        "home_country": "GB",
        "home_zone": LONDON,
    }
    return ReadyBrief(**(usual | fields))


def ticks(*keys, state="done"):
    return {key: Tick(key, state, "marigold", BOOKED) for key in keys}


def julian_day_number(year, month, day):
    """Fliegel and Van Flandern, "A machine algorithm for processing calendar dates",
    Communications of the ACM 11 (1968), page 657; divisions there are cut off at zero."""

    def cut(a, b):
        return abs(a) // b * (1 if a >= 0 else -1)

    early = cut(month - 14, 12)
    return (
        day
        - 32075
        + cut(1461 * (year + 4800 + early), 4)
        + cut(367 * (month - 2 - early * 12), 12)
        - cut(3 * cut(year + 4900 + early, 100), 4)
    )


def last_sunday(year, month):
    """Of March or October (31 days): the remainder of a Julian day number by 7 is 6 on Sundays."""
    return 31 - (julian_day_number(year, month, 31) + 1) % 7


def summer_time(year):
    """When it begins and ends in the whole Union and in Britain, in UTC: the last Sundays of March
    and October at 1:00 (Directive 2000/84/EC, articles 2 and 3; the Summer Time Order 2002)."""
    return tuple(datetime(year, m, last_sunday(year, m), 1, tzinfo=UTC) for m in (3, 10))


def london_offset(at):
    """Hours that London's clocks are ahead of UTC, from the rule and not from a zone file."""
    begins, ends = summer_time(at.year)
    return timedelta(hours=1 if begins <= at < ends else 0)
