"""One photographer's day: a draft of what follows what, placed by the network where it fits."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from .as_network import NIGHT_LONG, in_any_light, is_ended, minute_of, problem_of
from .chain import Link, leg_between
from .draft import Draft
from .layout import Layout
from .network import Answer, Hours, Problem, solve
from .network import Block as Asked
from .planned import Block, Day, Kept, Slack, Turn
from .shortfalls import as_it_would_run, shortfalls_of
from .travel import planned_minutes
from .values import HOME, N_, Brief, DayBrief

DRIVE_TITLE, HOME_TITLE = N_("Drive to %(place)s"), N_("Drive home")
Times = Sequence[tuple[int, int]]  # start and end of each block, minutes since 00:00 of the day


@dataclass(frozen=True, slots=True)
class Others:
    """What somebody else does meanwhile that blocks wait for: each as the network has it, as a
    page shows it, and by the key of the block that waits."""

    asked: tuple[Asked, ...] = ()
    shown: tuple[Block, ...] = ()
    waits: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def beside(self, problem: Problem) -> Problem:
        own = (
            replace(block, after=(*block.after, *self.waits.get(block.key, ())))
            for block in problem.blocks
        )
        return replace(problem, blocks=(*self.asked, *own)) if self.asked else problem


ALONE = Others()


def plan(
    brief: Brief,
    day: DayBrief,
    turns: tuple[Turn, ...],
    drafted: Draft,
    others: Others = ALONE,
) -> Day:
    """A draft placed by the network; as it would run, where the network finds no place for it."""
    layout = drafted.layout
    gone = tuple((link.key, link.title) for link in drafted.gone)
    if not layout.blocks:
        return Day(day, gone=gone)
    problem = others.beside(problem_of(layout, brief, day, turns))
    answer = solve(problem, with_advice=False)
    if answer.conflicts:  # nobody moves a meal for golden light
        problem = in_any_light(problem)
        answer = solve(problem, with_advice=False)
    times = as_it_would_run(layout, problem.hours)
    if not answer.conflicts:
        times_of = {one.key: (one.start or 0, one.end or 0) for one in answer.planned}
        placed = [times_of[link.key] for link in layout.links]
        times = _filled(layout, problem.hours, placed)
    leaves = _leaves(layout, answer, times)
    blocks = tuple(blocks_at(layout, brief, day, problem.hours, times, leaves))
    day_planned = Day(
        brief=day,
        blocks=blocks,
        leave_home=None if leaves is None or not blocks else problem.hours.at(leaves),
        verdict="unknown" if answer.faults else answer.verdict,
        unknown_drives=layout.unknown,
        gone=gone,
        squeezed=tuple(_squeezed(layout, times)),
        problem=problem,
        answer=answer,
    )
    known = {block.key: block for block in others.shown} | _known(layout, problem.hours, times)
    return _told(day_planned, problem, answer, known)


def _told(day: Day, problem: Problem, answer: Answer, known: Mapping[str, Block]) -> Day:
    """The day with what the network says about its blocks."""
    closing = {
        b.key
        for b in problem.blocks
        if b.window and b.window[1] < NIGHT_LONG and b.kind not in {"drinks", "party"}
    }
    return replace(
        day,
        shortfalls=tuple(shortfalls_of(answer.conflicts, problem.hours, known)),
        promises=tuple(Kept(known[one.key], one.chance) for one in answer.promises),
        windows=tuple(
            Kept(known[one.key], one.chance) for one in answer.windows if one.key in closing
        ),
        slack=tuple(Slack(known[s.origin], known[s.until], s.slack) for s in answer.stretches),
    )


def _filled(layout: Layout, hours: Hours, placed: Times) -> Times:
    """What gives way takes the time around it that nothing else needs."""
    times: list[tuple[int, int]] = []
    for i, (link, (start, end)) in enumerate(zip(layout.links, placed, strict=True)):
        if link.template.fills and link.template.kind != "rest" and is_ended(layout, i):
            if i:
                begins = link.at or link.opens
                opens = minute_of(hours, begins) if begins else 0
                start = max(min(times[-1][1] + (link.drive or 0), start), min(opens, start))
            if i + 1 < len(placed):
                end = placed[i + 1][0] - (layout.links[i + 1].drive or 0)
            elif layout.ends:
                end = minute_of(hours, layout.ends)
            if link.until:
                over = minute_of(hours, link.until)
                end = min(end, over) if i + 1 < len(placed) or layout.ends else over
        times.append((start, max(start, end)))
    return times


def _squeezed(layout: Layout, times: Times) -> Iterator[tuple[str, str]]:
    """What is drafted and gives way until nothing is left of it."""
    for link, (start, end) in zip(layout.links, times, strict=True):
        if end <= start and not link.key.endswith("-on"):
            yield link.key, link.title


def _leaves(layout: Layout, answer: Answer, times: Times) -> int | None:
    """The minute to leave home: the earlier of both rules, where somebody has timed the drive."""
    first = layout.links[0]
    if first.place is None or first.drive is None:
        return None
    return answer.leaving.at if answer.leaving else times[0][0] - first.drive


def blocks_at(
    layout: Layout, brief: Brief, day: DayBrief, hours: Hours, times: Times, leaves: int | None
) -> Iterator[Block]:
    """The blocks that take time, and the drives as blocks of their own, home at the end."""
    for i, (link, (start, end)) in enumerate(zip(layout.links, times, strict=True)):
        if link.drive is None or link.drive:
            sets_out = start - (link.drive or 0)
            if not i and leaves is not None:
                sets_out = min(sets_out, leaves)
            yield _drive(link.key, hours, sets_out, start, link, untimed=link.drive is None)
        if end > start:
            yield _block(link, hours, start, end)
    last, end = layout.links[-1], times[-1][1]
    leg = None if last.place in {None, HOME} else leg_between(brief, last.place, None)
    if leg and leg.map_minutes:
        home = replace(last, place=HOME)
        yield _drive(f"{day.key}-home", hours, end, end + planned_minutes(leg.map_minutes), home)


def _drive(
    key: str, hours: Hours, start: int, end: int, link: Link, untimed: bool = False
) -> Block:
    title = HOME_TITLE if link.place == HOME else DRIVE_TITLE
    return Block(
        key=f"drive-{key}",
        kind="travel",
        title=title,
        start=hours.at(start),
        end=hours.at(end),
        place=link.place,
        untimed=untimed,
        who=link.who,
    )


def _block(link: Link, hours: Hours, start: int, end: int) -> Block:
    return Block(
        key=link.key,
        kind=link.template.kind,
        title=link.title,
        start=hours.at(start),
        end=hours.at(end),
        place=link.place,
        fixed=link.said and link.at is not None and minute_of(hours, link.at) == start,
        note=link.note,
        assumed=link.assumed,
        who=link.who,
        couple=link.couple,
    )


def _known(layout: Layout, hours: Hours, times: Times) -> dict[str, Block]:
    """Every block by its key, where it should be: fixed ones at their time."""
    found = {}
    for link, (start, end) in zip(layout.links, times, strict=True):
        if link.said and link.at and link.holds:
            at = minute_of(hours, link.at)
            start, end = at, at + end - start
        found[link.key] = _block(link, hours, start, end)
    return found
