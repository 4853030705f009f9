"""The second opinion on every date is dateutil's recurrence rules (RFC 5545)."""

from datetime import date, timedelta

import pytest
from dateutil.rrule import FR, SA, TH, WEEKLY, YEARLY, rrule
from hypothesis import given, settings
from hypothesis import strategies as st

from planning.demo import dates
from planning.demo.season import season

TODAYS = [
    date(2024, 2, 29),
    date(2026, 3, 23),
    date(2026, 12, 31),
    date(2027, 1, 1),
    date(2028, 2, 28),
    date(2028, 2, 29),
    date(2028, 3, 1),
    date(2099, 12, 31),
]
any_today = st.dates(date(2024, 1, 1), date(2098, 12, 31))


@pytest.mark.parametrize("today", TODAYS)
@pytest.mark.parametrize(
    ("month", "day", "weekday", "rule_day"),
    [
        (6, 15, dates.SATURDAY, SA),
        (9, 19, dates.SATURDAY, SA),
        (8, 22, dates.SATURDAY, SA),
        (3, 4, dates.THURSDAY, TH),
        (5, 21, dates.FRIDAY, FR),
    ],
)
def test_a_summer_date_is_the_one_a_recurrence_rule_gives(today, month, day, weekday, rule_day):
    earliest = today + timedelta(weeks=12)
    rule = rrule(
        YEARLY,
        dtstart=earliest,
        bymonth=month,
        bymonthday=range(day - 3, day + 4),
        byweekday=rule_day,
        count=1,
    )
    assert dates.next_near(today, month, day, weekday) == rule[0].date()


@given(any_today)
@settings(max_examples=200, deadline=None)
def test_the_dark_saturday_is_the_one_a_recurrence_rule_gives(today):
    rule = rrule(WEEKLY, dtstart=today + timedelta(weeks=3), byweekday=SA, count=60)
    holidays = {(12, 24), (12, 25), (12, 26), (1, 1)}
    expected = next(
        d.date() for d in rule if d.month in {12, 1} and (d.month, d.day) not in holidays
    )
    assert dates.next_dark_saturday(today) == expected


@pytest.mark.parametrize(
    ("today", "expected"),
    [
        (date(2026, 11, 14), date(2026, 12, 5)),  # three weeks to the day
        (date(2026, 12, 4), date(2027, 1, 2)),  # 25 December is too soon anyway, 26 is Boxing Day
        (date(2026, 12, 5), date(2027, 1, 2)),  # 26 December 2026 is a Saturday
        (date(2027, 1, 10), date(2027, 12, 4)),
    ],
)
def test_the_dark_saturday_keeps_three_weeks_and_avoids_christmas(today, expected):
    assert dates.next_dark_saturday(today) == expected


@given(any_today)
@settings(max_examples=100, deadline=None)
def test_the_season_lies_ahead_and_no_day_is_booked_twice(today):
    days = [day.date for demo in season(today) for day in demo.brief.days]
    assert min(days) >= today + timedelta(weeks=3)
    assert max(days) <= today + timedelta(weeks=66)
    assert len(set(days)) == len(days)
    assert days == sorted(days)


@given(any_today)
@settings(max_examples=100, deadline=None)
def test_what_happens_before_a_wedding_is_in_the_order_of_the_journey(today):
    for demo in season(today):
        brief = demo.brief
        steps = [brief.answers_due, brief.meeting_at, brief.visit_at, brief.days[0].date]
        known = [s.date() if hasattr(s, "date") else s for s in steps if s]
        assert known == sorted(set(known)), brief.wedding
        for done in (demo.sent_at, demo.saved_at):
            assert done is None or done.date() < today
        if demo.sent_at:
            assert demo.sent_at.date() <= brief.answers_due
        else:
            assert brief.answers_due > today
