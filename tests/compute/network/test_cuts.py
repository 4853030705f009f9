from itertools import pairwise, product

import pytest

from planning.compute.network.course import build_course
from planning.compute.network.cuts import LATE, all_cuts, cut_plans, cuts_after
from planning.compute.network.draws import DAYS, minutes
from planning.compute.network.laws import drive_law
from planning.compute.network.solve import solve
from planning.compute.network.values import Cut
from tests.compute.network.days import block, day, full_day


def planned(problem):
    course = build_course(problem)
    starts = {one.key: one.start for one in solve(problem, with_advice=False).planned}
    return course, starts


def recounted(course, starts, plan_after, late, cuts):
    """The same lateness walked through day by day in plain loops."""
    by_key = {cut.key: cut.minutes for cut in cuts}
    keys = [b.key for b in course.chain]
    first = keys.index(plan_after)
    kept = 0
    for number in range(DAYS):
        opening = course.chain[first]
        now, fine = starts[opening.key] + opening.law.likely + late, True
        waiting = None
        for b, leg in zip(course.chain[first + 1 :], course.legs[first + 1 :], strict=True):
            leg, waiting = leg or waiting, None
            if b.key in by_key and by_key[b.key] is None:
                waiting = leg  # the drive to what is left out leads to the next block
                continue
            if leg is not None:
                now += minutes(f"drive {b.key}", drive_law(leg.map_minutes))[number]
            if b.fixed is not None:
                fine = fine and now <= b.fixed
                break
            law = b.law.shortened(by_key[b.key]) if b.key in by_key else b.law
            now = max(now, starts[b.key]) + minutes(f"block {b.key}", law)[number]
            fine = fine and (b.window is None or now <= b.window[1])
        kept += fine
    return kept / DAYS


def test_every_chance_is_that_of_the_day_walked_through_again():
    course, starts = planned(full_day())
    for plan in cut_plans(course, starts):
        found = recounted(course, starts, plan.after, plan.late, plan.cuts)
        assert plan.chance == found
        assert plan.reached == (found >= 0.9)


def by_hand(late, **fields):
    problem = day(
        block("a", 60, fixed="14:00"),
        block("b", 30, short=10, importance=2),
        block("c", 40, short=20, droppable=True, importance=1),
        block("d", 30, fixed="16:40", title="Meal"),
        **fields,
    )
    course, starts = planned(problem)
    return next(p for p in cut_plans(course, starts) if (p.after, p.late) == ("a", late))


@pytest.mark.parametrize(
    ("late", "cuts"),
    [
        (15, []),
        (30, []),
        (45, [("c", 20)]),  # 20 x 1 = 20 against 20 x 2
        (60, [("c", None)]),  # 40 x 1.5 = 60 against 20 x 2 + 20 x 1 = 60: of equals, the fewer
        (90, [("b", 10), ("c", None)]),  # 30 of slack, 20 and 40: just enough
    ],
)
def test_the_cheapest_cut_that_is_enough_by_hand(late, cuts):
    """30 minutes of slack; importance x minutes lost, and half more for leaving out."""
    found = [(cut.key, cut.minutes) for cut in by_hand(late).cuts]
    assert found == cuts
    assert by_hand(late).reached


def test_where_no_cut_is_enough_it_says_so():
    late = day(block("a", 60, fixed="14:00"), block("b", 30), block("d", fixed="15:40"))
    for plan in cut_plans(*planned(late)):
        assert plan.reached == (plan.late <= 10)
        assert plan.keeps == "d"
        assert plan.cuts == ()


@pytest.mark.parametrize(("movable", "otherwise"), [(True, "move"), (False, "ask")])
def test_where_no_cut_is_enough_it_says_what_is_left_to_do(movable, otherwise):
    meal = block("d", fixed="15:40", movable=movable)
    problem = day(block("a", 60, fixed="14:00"), block("b", 30), meal)
    for plan in cut_plans(*planned(problem)):
        assert plan.otherwise == (None if plan.reached else otherwise)


def test_no_cheaper_choice_is_enough():
    course, starts = planned(full_day())
    cost = {"confetti": 5, "groups": 5, "portraits": 5, "details": 3}
    likely = {b.key: b.law.likely for b in course.chain}
    shorts = {b.key: b.short for b in course.chain}

    def price(cuts):
        return sum(
            cost[cut.key]
            * (likely[cut.key] - (cut.minutes or 0))
            * (1.5 if cut.minutes is None else 1)
            for cut in cuts
        )

    options = [[None, Cut(key, shorts[key])] for key in ("confetti", "groups", "portraits")]
    options.append([None, Cut("details", 5), Cut("details", None)])
    for plan in cut_plans(course, starts):
        if plan.after != "ceremony":
            continue
        enough = []
        for choice in product(*options):
            cuts = tuple(cut for cut in choice if cut is not None)
            if recounted(course, starts, "ceremony", plan.late, cuts) >= 0.9:
                enough.append(price(cuts))
        assert plan.reached == bool(enough)
        if enough:
            assert price(plan.cuts) == min(enough)


def test_nothing_fixed_is_ever_cut_and_each_stretch_has_every_lateness():
    problem = full_day()
    course, starts = planned(problem)
    plans = cut_plans(course, starts)
    fixed = {b.key for b in problem.blocks if b.fixed is not None}
    assert not [cut for plan in plans for cut in plan.cuts if cut.key in fixed]
    assert {(p.after, p.late) for p in plans} == {
        (after, late) for after in ("setup", "ceremony", "call", "speeches") for late in LATE
    }


def test_chances_with_more_cuts_fall_with_lateness_when_cuts_stay():
    plans = [p for p in cut_plans(*planned(full_day())) if not p.reached]
    for one, other in pairwise(plans):
        if (one.after, one.cuts) == (other.after, other.cuts):
            assert one.chance >= other.chance


def test_leaving_out_needs_a_drive_that_is_known():
    problem = day(
        block("a", 60, fixed="14:00", place="church"),
        block("b", 30, droppable=True, place="garden"),
        block("c", 30, place="venue"),
        block("d", fixed="16:20", place="venue"),
        legs=[("church", "garden", 3), ("garden", "venue", 3)],
    )
    assert not any(plan.cuts for plan in cut_plans(*planned(problem)))


def test_after_the_last_fixed_time_a_window_is_kept_but_not_by_leaving_it_out():
    problem = day(
        block("speeches", 30, fixed="19:00"),
        block("cake", 20, droppable=True),
        block("golden", 20, droppable=True, short=10, window=("19:40", "20:20")),
    )
    plans = {p.late: p for p in cut_plans(*planned(problem)) if p.after == "speeches"}
    assert all(plan.keeps == "golden" for plan in plans.values())
    assert not any(c.key == "golden" and c.minutes is None for p in plans.values() for c in p.cuts)
    assert plans[15].reached
    assert (plans[60].reached, plans[60].otherwise) == (False, "miss")


def test_many_cuttable_blocks_are_cut_from_the_least_important_on():
    blocks = [block(f"b{i}", 10, short=5, droppable=True, importance=1 + i % 9) for i in range(14)]
    problem = day(block("a", 30, fixed="14:00"), *blocks, block("z", fixed="17:00"))
    plans = {p.late: p for p in cut_plans(*planned(problem))}
    assert {cut.key for cut in plans[15].cuts} <= {"b0", "b9"}
    assert all(plan.reached for plan in plans.values())


def test_from_any_block_the_chance_is_that_of_the_day_walked_through_again():
    course, starts = planned(full_day())
    plans = all_cuts(course, starts, (15, 60))
    assert {plan.after for plan in plans} > {plan.after for plan in cut_plans(course, starts)}
    for plan in plans:
        assert plan.chance == recounted(course, starts, plan.after, plan.late, plan.cuts)


def test_the_plans_of_all_blocks_hold_those_of_each_one_and_of_each_stretch():
    course, starts = planned(full_day())
    plans = set(all_cuts(course, starts))
    assert set(cut_plans(course, starts)) <= plans
    for block_ in course.chain:
        assert set(cuts_after(course, starts, block_.key)) == {
            plan for plan in plans if plan.after == block_.key
        }


@pytest.mark.parametrize("late", [0, 1, 37, 240])
def test_any_whole_minute_up_to_four_hours_can_be_asked(late):
    course, starts = planned(full_day())
    (plan,) = cuts_after(course, starts, "groups", (late,))
    assert plan.late == late
    assert plan.chance == recounted(course, starts, "groups", late, plan.cuts)


@pytest.mark.parametrize("late", [-1, 241, 7.5])
def test_any_other_lateness_is_refused(late):
    with pytest.raises(ValueError, match="whole minutes from 0 to 240"):
        cuts_after(*planned(full_day()), "groups", (late,))


def test_after_the_last_time_to_keep_there_is_nothing_to_cut():
    course, starts = planned(full_day())
    assert cuts_after(course, starts, course.chain[-1].key) == ()
    assert cuts_after(course, starts, "nobody") == ()
