"""What to cut, in sentences."""

from dataclasses import replace

import pytest

from planning.compute.late import Ending, endings, running_days
from planning.compute.network import CutPlan
from planning.compute.network.course import build_course
from planning.compute.network.values import Cut
from planning.compute.wake import Wake, Waking
from planning.cut_words import advice, advice_for, late_by
from tests.compute.briefs import group, make_brief, make_day, moment

VOWS, DINNER = moment("ceremony", "14:00", title="Vows"), moment("meal", "17:30", title="Dinner")


@pytest.fixture(scope="module")
def day():
    brief = make_brief(make_day(VOWS, DINNER, hours="10:00-23:00"), groups=(group("All", extra=9),))
    return next(iter(running_days(brief)))


def plan_of(*cuts, reached=True, otherwise=None, keeps="meal-1730", chance=0.934):
    return CutPlan("ceremony-1400", 30, keeps, cuts, chance, reached, otherwise)


def waking(day):
    return Waking(build_course(day.problem), {one.key: one.start for one in day.answer.planned})


def test_a_cut_says_what_it_was_and_what_is_left_out_is_said_so(day):
    told = advice(day, plan_of(Cut("d1-confetti", 10), Cut("d1-details", None)))
    assert told.cuts == [
        "Congratulations in 10 minutes instead of 20",
        "Leave out The room, before guests",
    ]
    assert (told.keeps, told.chance, told.ask) == ("Dinner at 17:30", "93 in 100", "")


def test_when_it_then_ends_is_the_plan_and_the_lateness(day):
    told = advice(day, plan_of())
    assert f"{told.ends:%H:%M}" == "14:55"  # 25 minutes of ceremony, 30 late
    assert told.by == "30 minutes late"
    assert (late_by(0), late_by(1)) == ("In time", "1 minute late")


@pytest.mark.parametrize(
    ("otherwise", "words"),
    [
        ("move", "No cut reaches it: ask to move “Dinner”."),
        ("ask", "No cut reaches it, and others hold its time: ask if “Dinner” can wait."),
        ("miss", "No cut reaches it: “Dinner” will miss its time."),
    ],
)
def test_where_no_cut_reaches_it_that_is_said(day, otherwise, words):
    told = advice(day, plan_of(reached=False, otherwise=otherwise, chance=0))
    assert told.ask == words
    assert told.hopeless
    assert told.chance == "under 1 in 100"


def test_the_cuts_that_help_most_stay_where_they_are_not_enough(day):
    told = advice(day, plan_of(Cut("d1-details", 5), reached=False, otherwise="move"))
    assert told.ask
    assert not told.hopeless


def test_a_window_is_kept_by_the_end_of_it(day):
    problem = replace(
        day.problem,
        blocks=tuple(
            replace(b, window=(1160, 1230)) if b.key == "d1-portraits" else b
            for b in day.problem.blocks
        ),
    )
    told = advice(replace(day, problem=problem), plan_of(keeps="d1-portraits"))
    assert told.keeps == "Portraits of the two done by 20:30"


def test_every_plan_of_a_real_day_has_its_sentence(day):
    for ending in endings(day):
        told = advice_for(day, ending)
        assert [each.late for each in told] == [0, 15, 30, 45, 60, 90]
        assert all(each.keeps and "in 100" in each.chance for each in told)
        assert [not each.ask for each in told] == [plan.reached for plan in ending.plans]


def test_a_title_of_ours_is_in_the_readers_words(day, monkeypatch):
    monkeypatch.setattr(
        "studio.templatetags.clock.gettext",
        lambda text: text.replace("Congratulations", "Gratulation"),
    )
    told = advice_for(day, Ending(day.block("ceremony-1400"), (plan_of(Cut("d1-confetti", 10)),)))
    assert told[0].cuts == ["Gratulation in 10 minutes instead of 20"]


@pytest.mark.parametrize(
    ("otherwise", "words"),
    [
        ("move", "No cut reaches it: ask to move “Dinner” to 17:40."),
        (
            "ask",
            "No cut reaches it, and others hold its time: ask if “Dinner” can wait until 17:40.",
        ),
    ],
)
def test_where_a_later_time_would_do_it_is_named_with_the_cuts_for_it(day, otherwise, words):
    most = replace(plan_of(Cut("d1-details", None), chance=0.93), late=22)
    told = advice(day, plan_of(reached=False, otherwise=otherwise, chance=0.2), most, Wake(1060))
    assert told.ask == words
    assert told.cuts == ["Leave out The room, before guests"]
    assert (told.keeps, told.chance) == ("Dinner at 17:40", "at least 93 in 100")
    assert told.moved_to == "17:40"
    assert not told.hopeless


def test_a_window_that_is_missed_cannot_be_asked_to_wait(day):
    assert waking(day).wake_of(plan_of(reached=False, otherwise="miss"), plan_of()) is None


def test_a_title_with_a_percent_sign_breaks_no_sentence(day):
    odd = replace(day.block("meal-1730"), title="100 %(at)s dinner %")
    blocks = tuple(odd if b.key == odd.key else b for b in day.blocks)
    most = replace(plan_of(), late=22)
    told = advice(
        replace(day, blocks=blocks), plan_of(reached=False, otherwise="move"), most, Wake(1060)
    )
    assert told.ask == "No cut reaches it: ask to move “100 %(at)s dinner %” to 17:40."


@pytest.mark.parametrize(
    ("cuts", "words"),
    [
        ((), "Dinner at 17:30 still holds: 93 in 100."),
        (
            (Cut("d1-details", None),),
            "To keep Dinner at 17:30 as well: Leave out The room, before guests (93 in 100).",
        ),
    ],
)
def test_a_time_that_waits_tells_what_becomes_of_the_next_one(day, cuts, words):
    late = plan_of(reached=False, otherwise="move", keeps="ceremony-1400", chance=0)
    told = advice(day, late, plan_of(keeps="ceremony-1400"), Wake(855, plan_of(*cuts)))
    assert told.then == (words,)


def test_where_the_next_time_has_to_wait_too_that_is_said(day):
    late = plan_of(reached=False, otherwise="move", keeps="ceremony-1400", chance=0)
    onward = Wake(855, plan_of(Cut("d1-confetti", 10), reached=False), Wake(1060))
    told = advice(day, late, plan_of(keeps="ceremony-1400"), onward)
    assert told.then == (
        "Has to wait too: Dinner at 17:40, with Congratulations in 10 minutes instead of 20 "
        "(93 in 100).",
    )
    told = advice(day, late, plan_of(keeps="ceremony-1400"), Wake(855, plan_of(reached=False)))
    assert told.then == ("Dinner at 17:30 is missed then.",)


def test_the_time_to_wait_for_is_the_next_five_minutes_on_the_clock(day):
    most = replace(plan_of(chance=0.93), late=22)
    found = waking(day).wake_of(plan_of(reached=False, otherwise="move", chance=0.2), most)
    assert found.at == 1060  # 17:30 and eight minutes beyond the most: 17:40
