"""The venue visit: which days are offered, and what the plan says of the one that is set."""

from dataclasses import replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from planning.compute.day import plan_wedding
from planning.compute.light import match_visit
from planning.compute.visit import candidates, middle, visited_block, window_days

from .briefs import APART, BARN, JUNE, LONDON, group, make_brief, make_day, moment
from .light.judges import spa_sun

ZONE = ZoneInfo(LONDON)
BRIEF = make_brief(
    make_day(moment("ceremony", "14:00"), hours="10:00-23:00"), groups=(group("All", "A", "B"),)
)


def test_the_window_is_three_weeks_to_one_week_before_and_not_over():
    days = window_days(JUNE, date(2027, 1, 1))
    assert (days[0], days[-1], len(days)) == (date(2027, 5, 22), date(2027, 6, 5), 15)
    assert window_days(JUNE, date(2027, 6, 3)) == days[-3:]
    assert window_days(JUNE, JUNE) == ()


def test_the_best_day_of_the_window_has_the_nearest_sun():
    wanted = datetime(2027, 6, 12, 15, tzinfo=ZONE)
    window = window_days(JUNE, date(2027, 1, 1))
    found = candidates(BARN, LONDON, wanted, window, {date(2027, 6, 11)})
    (best,) = [each for each in found if each.best]
    assert best.match.separation == min(e.match.separation for e in found if e.day in window)
    assert found[-1].day == date(2027, 6, 11)
    assert not found[-1].best  # nearer still, but typed: not of the window
    assert [each.day for each in found] == sorted(each.day for each in found)


def test_a_clock_change_between_the_two_moves_the_visit_by_its_hour():
    wedding = date(2027, 4, 3)  # British clocks went forward on 28 March (Summer Time Act 1972)
    wanted = datetime(2027, 4, 3, 15, tzinfo=ZONE)
    before, after = candidates(BARN, LONDON, wanted, [date(2027, 3, 27), date(2027, 3, 28)])
    assert (before.match.at.hour, after.match.at.hour) == (14, 15)
    for each in (before, after):
        there = spa_sun(BARN.spot, [each.match.at.timestamp()])
        then = spa_sun(BARN.spot, [wanted.timestamp()])
        assert abs(float(there[1][0] - then[1][0])) < 3  # the bearing hardly differs
    assert wedding > before.day


def test_where_the_sun_never_stands_so_high_or_there_nothing_is_offered():
    noon = datetime(2027, 6, 12, 13, 10, tzinfo=ZONE)
    (winter,) = candidates(BARN, LONDON, noon, [date(2027, 1, 10)])
    assert winter.same_height is None
    assert winter.match.separation == pytest.approx(45, abs=1)
    night = datetime(2027, 6, 12, 23, 30, tzinfo=ZONE)
    (dark,) = candidates(BARN, LONDON, night, [date(2027, 6, 1)])
    assert (dark.same_way, dark.same_height) == (None, None)


def test_portraits_are_looked_at_unless_another_block_is_asked_for():
    days = plan_wedding(BRIEF).days
    assert visited_block(days).kind == "portraits"
    ceremony = next(b for b in days[0].blocks if b.kind == "ceremony")
    assert visited_block(days, ceremony.key) == ceremony
    assert visited_block(days, "gone").kind == "portraits"
    assert visited_block(plan_wedding(replace(BRIEF, places=(APART[1],))).days) is None
    assert visited_block(()) is None


def test_a_visit_that_is_set_says_how_near_its_sun_will_be():
    plan = plan_wedding(BRIEF)
    portraits = visited_block(plan.days)
    match = match_visit(BARN.spot, LONDON, middle(portraits), date(2027, 6, 5))
    set_so = replace(BRIEF, visit_at=match.at, visit_place="barn", visit_block=portraits.key)
    visit = plan_wedding(set_so).visit
    assert (visit.place, visit.block) == (BARN, portraits)
    assert visit.separation == pytest.approx(match.separation)
    later = replace(set_so, visit_at=match.at + timedelta(hours=1))
    assert plan_wedding(later).visit.separation > 10


def test_a_visit_set_by_hand_claims_no_block_and_one_without_a_spot_no_sun():
    at = datetime(2027, 6, 2, 20, 30, tzinfo=ZONE)
    visit = plan_wedding(replace(BRIEF, visit_at=at)).visit
    assert (visit.place, visit.block, visit.separation) == (BARN, None, None)
    assert visit.there.sun.altitude == pytest.approx(
        float(spa_sun(BARN.spot, [at.timestamp()])[0][0]), abs=0.001
    )
    nowhere = replace(BRIEF, visit_at=at, places=(replace(BARN, spot=None),))
    assert plan_wedding(nowhere).visit.there is None
    several = replace(BRIEF, visit_at=at, places=APART)
    assert plan_wedding(several).visit.place is None
    assert plan_wedding(BRIEF).visit is None


def test_the_middle_of_a_block_counts_the_hour_that_the_clocks_give_back():
    plan = plan_wedding(
        make_brief(make_day(moment("party", "23:00"), on=date(2027, 10, 30), hours="22:00-03:00"))
    )
    party = next(b for b in plan.days[0].blocks if b.kind == "party")
    assert middle(party).timestamp() * 2 == party.start.timestamp() + party.end.timestamp()
