"""What the day pack says of a day beside its blocks."""

import re
from dataclasses import replace
from itertools import pairwise

import pytest

from planning.compute.day import plan_wedding
from planning.compute.network.values import Leaving
from planning.compute.settled import Settled
from planning.compute.values import Leg
from planning.pack_page import cautions, leaving_words, pack_days
from studio.models import Studio
from tests.compute.briefs import ALL_LEGS, APART, group, make_brief, make_day, moment

from .drawn import html_of

STUDIO = Studio(name="Marigold Lane Photography")
USUAL = (
    moment("ceremony", "14:00", title="Vows"),
    moment("meal", "17:00", title="Dinner"),
    moment("dance", "20:30", title="First dance"),
)


def plan_of(*moments, hours="10:00-23:00", **fields):
    fields = {"groups": (group("All", extra=9),)} | fields
    return plan_wedding(make_brief(make_day(*(moments or USUAL), hours=hours), **fields))


@pytest.fixture(scope="module")
def plan():
    return plan_of()


@pytest.fixture(scope="module")
def html(plan):
    return html_of(plan, STUDIO)


def words(html):
    return " ".join(re.sub("<[^>]+>", " ", html).split())


def section(html, title):
    return words(next(part for part in html.split("<section") if f"<h2>{title}" in part))


def test_late_plans_stand_at_each_fixed_time_with_five_latenesses(plan):
    (day,) = pack_days(plan)
    fixed = [b.key for b in day.day.blocks if b.fixed]
    told = [table.block.key for table in day.late]
    assert told[:1] == [day.day.problem.blocks[0].key]
    assert [key for key in told if key in fixed][: len(fixed) - 1] == fixed[:-1]
    for table in day.late:
        told = "–".join(row.late for row in table.rows)
        assert told.startswith("15")
        assert told.endswith("90")


def test_a_day_with_a_way_that_nobody_timed_says_so_instead_of_late_plans():
    untimed = plan_of(places=APART, legs=ALL_LEGS[:1])
    assert "Nobody has timed every drive" in section(html_of(untimed, STUDIO), "Running late")


def test_latenesses_with_the_same_advice_share_a_row(plan):
    for table in pack_days(plan)[0].late:
        said = [(r.advice.cuts, r.advice.ask, r.advice.chance) for r in table.rows]
        assert all(one != other for one, other in pairwise(said))


def test_the_page_says_what_to_cut_what_is_kept_and_the_honest_end(html):
    late = section(html, "Running late")
    assert "Vows ends 14:25" in late
    assert "To keep: Dinner at 17:00" in late
    assert "minutes instead of" in late
    assert "No cut reaches it" in late
    assert re.search(r"\d+ in 100", late)


def test_the_verdict_and_the_chances_stand_beside_the_fixed_times(html, plan):
    cover = words(html.split("<section")[1])
    assert "Every fixed time holds on at least 90 of 100 days." in cover
    chance = pack_days(plan)[0].kept["meal-1700"]
    assert f"Dinner {chance} 17:00" in cover
    assert chance in section(html, "The day")


def test_the_slack_stands_before_each_fixed_time(html):
    assert re.search(
        r"\d+ minutes to spare since Vows, shared by all between", section(html, "The day")
    )


def test_leaving_home_names_both_rules_where_they_differ(plan):
    (day,) = plan.days
    answer = replace(day.answer, leaving=Leaving(at=425, rule=427, simulated=425))
    told = replace(day, answer=answer, leave_home=day.problem.hours.at(425))
    assert leaving_words(told) == (
        "Leave home 07:05: with a third on top of the map it would be 07:07, to be in time on "
        "95 of 100 simulated days 07:05. The earlier one counts."
    )
    alike = replace(day, answer=replace(day.answer, leaving=Leaving(425, 425, 425)))
    assert leaving_words(replace(alike, leave_home=told.leave_home)) == "Leave home 07:05."
    assert leaving_words(replace(day, leave_home=None)) == ""


def test_the_wet_plan_shows_only_what_differs_and_when_to_decide(html, plan):
    rain = section(html, "If it rains")
    (day,) = pack_days(plan)
    assert day.parting
    assert f"Decide by {day.parting.decide_by:%H:%M}" in rain
    told = {(side.fair or side.wet).key for side in day.differs}
    assert "ceremony-1400" not in told
    assert "Vows" not in rain
    assert told
    assert not any((side.fair or side.wet).kind == "travel" for side in day.differs)


def test_a_day_that_does_not_fit_has_its_verdict_and_says_why_it_has_no_late_plans():
    plan = plan_of(USUAL[0], moment("meal", "14:40", title="Dinner"))
    html = html_of(plan, STUDIO)
    assert "minutes short" in words(html.split("<section")[1])
    late = section(html, "Running late")
    assert "does not fit as it is planned, so no cut can be worked out" in late
    assert "simulated days" not in late


def test_a_drive_that_nobody_timed_has_no_length():
    plan = plan_of(legs=())
    assert any(block.untimed for block in plan.days[0].blocks)
    assert "not timed yet" in section(html_of(plan, STUDIO), "The day")


def test_long_days_and_late_drives_are_cautioned():
    plan = plan_of(*USUAL, hours="07:00-23:30", legs=(Leg(None, "barn", 90),))
    assert {finding.code for finding in cautions(plan)} >= {"long_day", "tired_drive"}
    day = section(html_of(plan, STUDIO), "The day")
    assert "do not drive tired" in day
    assert "asleep at the wheel" in day


def test_ever_later_times_share_a_row_and_what_to_keep_is_as_planned():
    day = make_day(*USUAL, hours="10:00-23:00")
    settled = (Settled("d1-golden", left_out=True),)
    plan = plan_wedding(make_brief(replace(day, settled=settled)))
    late = section(html_of(plan, STUDIO), "Running late")
    first = pack_days(plan)[0].late[0]
    assert first.keeps == "Vows at 14:00"
    assert "To keep: Vows at 14:00" in late
    shared = [row for row in rows_of(plan) if row.advice.moved_to and "–" in row.late]
    assert shared
    for row in shared:
        assert re.search(r"\d\d:\d\d–\d\d:\d\d\.$", row.ask)
        assert row.ask in late


def rows_of(plan):
    return [row for table in pack_days(plan)[0].late for row in table.rows]
