"""The dynamic programme against trying every start, with a value counted another way."""

from itertools import pairwise, product
from random import Random

import pytest

from planning.compute.network.course import build_course
from planning.compute.network.placement import IDLE, Step, best_starts, build_steps, gains, total
from planning.compute.network.solve import solve
from planning.compute.network.statements import bounds, build_network
from tests.compute.network.days import block, day, full_day, wrong_with


def random_steps(seed):
    rng = Random(seed)  # noqa: S311 - seeded on purpose
    steps, time = [], 0
    for i in range(rng.randint(1, 4)):
        minutes, lead = rng.randint(0, 6), rng.randint(0, 3) if i else 0
        time += lead
        low = time + rng.randint(0, 2)
        worth = sorted((rng.randint(0, 3 * IDLE) for _ in range(rng.randint(0, 6))), reverse=True)
        room = sorted((rng.randint(1, 3 * IDLE) for _ in range(rng.randint(0, 6))), reverse=True)
        high = low + rng.randint(0, 9)
        closes = high + minutes + rng.randint(0, 3) if rng.random() < 0.4 else None
        steps.append(Step(low, high, minutes, lead, tuple(worth) if i else (), tuple(room), closes))
        time = low + minutes
    return steps


def value(steps, starts):
    """None where a block would start before the one before has ended and people are there."""
    worth = 0
    for i, (step, start) in enumerate(zip(steps, starts, strict=True)):
        if step.closes is not None:
            worth += sum(
                step.room[k]
                for k in range(len(step.room))
                if k < step.closes - step.minutes - start
            )
        if i:
            gap = start - starts[i - 1] - steps[i - 1].minutes - step.lead
            if gap < 0:
                return None
            worth += sum(step.gains[k] for k in range(len(step.gains)) if k < gap) - IDLE * gap
    return worth


def consistent(steps):
    """Bounds as a network gives them: every start has a start of the next that follows it."""
    highs = [step.high for step in steps]
    for i in reversed(range(len(steps) - 1)):
        highs[i] = min(highs[i], highs[i + 1] - steps[i].minutes - steps[i + 1].lead)
    return (
        [
            Step(s.low, high, s.minutes, s.lead, s.gains, s.room, s.closes)
            for s, high in zip(steps, highs, strict=True)
        ]
        if all(high >= step.low for step, high in zip(steps, highs, strict=True))
        else None
    )


@pytest.mark.parametrize("chunk", range(4))
def test_small_days_agree_with_trying_every_start(chunk):
    tried = 0
    for seed in range(60 * chunk, 60 * chunk + 60):
        steps = consistent(random_steps(seed))
        if steps is None:
            continue
        tried += 1
        starts = best_starts(steps)
        spans = (range(step.low, step.high + 1) for step in steps)
        best = max(v for s in product(*spans) if (v := value(steps, s)) is not None)
        assert value(steps, starts) == total(steps, starts) == best
    assert tried > 20


@pytest.mark.parametrize("seed", range(40))
def test_where_nothing_holds_a_block_later_starts_are_no_better(seed):
    """The same day with far bounds, which the programme searches whole."""
    steps = random_steps(seed)
    lows = [steps[0].low]
    for one, other in pairwise(steps):
        lows.append(max(other.low, lows[-1] + one.minutes + other.lead))
    free = [Step(low, None, s.minutes, s.lead, s.gains) for low, s in zip(lows, steps, strict=True)]
    far = [Step(s.low, s.low + 60, s.minutes, s.lead, s.gains) for s in free]
    assert total(free, best_starts(free)) >= total(far, best_starts(consistent(far)))


def test_a_gap_is_worth_less_the_longer_it_is():
    slopes = gains(8.3, 120.0, 1.0)
    assert list(slopes) == sorted(slopes, reverse=True)
    assert slopes[0] > 500_000 > slopes[-1] > 0
    assert gains(3.0, 0.0, 1.0) == (1_000_000,) * 3


@pytest.mark.parametrize("seed", range(30))
def test_a_plan_agrees_with_every_statement(seed):
    rng = Random(seed)  # noqa: S311 - seeded on purpose
    blocks, time = [], 9 * 60
    for i in range(rng.randint(2, 14)):
        minutes = rng.randint(0, 40)
        fields = {"place": rng.choice(["church", "venue", None])}
        time += 25
        if rng.random() < 0.3:
            fields["fixed"] = time
        elif rng.random() < 0.2:
            fields["window"] = "09:00", "23:00"
        blocks.append(block(f"b{i}", (minutes // 2, minutes, 2 * minutes), **fields))
        time += minutes
    problem = day(*blocks, legs=[("church", "venue", 10)])
    answer = solve(problem, with_advice=False)
    assert not answer.conflicts
    starts = {one.key: one.start for one in answer.planned}
    assert not wrong_with(problem, starts)
    for one in answer.planned:
        assert one.earliest <= one.start
        assert one.latest is None or one.start <= one.latest


def test_people_leave_home_no_earlier_than_helps():
    course = build_course(day(block("prep", (60, 90, 120)), block("c", 30, fixed="14:00")))
    held = {key: (low, high) for key, low, high in bounds(build_network(course), course)}
    start, fixed = best_starts(build_steps(course, held))
    assert 11 * 60 < start < 12 * 60 + 30
    assert fixed == 14 * 60


def test_blocks_of_others_are_kept_too():
    problem = full_day()
    starts = {one.key: one.start for one in solve(problem, with_advice=False).planned}
    assert not wrong_with(problem, starts)


def test_blocks_of_others_may_stand_between_hers():
    problem = day(
        block("a", 30, fixed="10:00"),
        block("x", 60, photographer=False, after=("a",)),
        block("b", 30),
        block("c", 30, after=("x",)),
        block("d", fixed="13:00"),
    )
    starts = {one.key: one.start for one in solve(problem, with_advice=False).planned}
    assert not wrong_with(problem, starts)
    assert starts["c"] >= 11 * 60 + 30


def random_day_with_others(rng):
    blocks, time = [], 9 * 60
    for i in range(rng.randint(3, 12)):
        minutes = rng.choice([0, 5, 15, 30])
        time += 40
        fields = {"photographer": rng.random() < 0.6, "place": rng.choice(["church", "venue"])}
        if rng.random() < 0.25:
            fields["fixed"] = time
        elif rng.random() < 0.2:
            fields["window"] = "09:00", "24:00"
        if i and rng.random() < 0.5:
            fields["after"] = tuple({f"b{rng.randrange(i)}" for _ in range(2)})
        law = (minutes // 2, minutes, 2 * minutes)
        blocks.append(block(f"b{i}", law, importance=rng.randint(1, 10), **fields))
        time += minutes
    return day(*blocks, legs=[("church", "venue", 10)])


@pytest.mark.parametrize("chunk", range(4))
def test_a_plan_with_other_people_agrees_with_every_edge(chunk):
    held = 0
    for seed in range(30 * chunk, 30 * chunk + 30):
        problem = random_day_with_others(Random(seed))  # noqa: S311 - seeded on purpose
        answer = solve(problem, with_advice=False)
        if answer.conflicts:
            continue
        held += 1
        at = {"": {"day": 0}}
        for one in answer.planned:
            at[one.key] = {"start": one.start, "end": one.end}
        for edge in build_network(build_course(problem)).edges:
            (a, a_side), (b, b_side) = edge.a, edge.b
            assert at[b][b_side] - at[a][a_side] <= edge.weight
    assert held > 10
