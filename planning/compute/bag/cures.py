"""What else to take from the studio's own kit, the least first; else what to borrow or hire.

Nothing is said to cure that was not tried: with all of it in the bag every job is asked again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations

from .hire import modest, proposals
from .items import KINDS, Item, several, tidy
from .jobs import Job
from .need import Need
from .stock import stock_of

Things = tuple[Item, ...]
MOST_TRIED = 2000  # combinations of one bag; after that what to hire is named, so nobody waits


@dataclass(frozen=True, slots=True)
class Cure:
    """`count` alike: of the studio's own kit, or such as to be borrowed or hired."""

    item: Item
    count: int = 1
    is_own: bool = True


@dataclass(frozen=True)
class Case:
    """`jobs` are to be done with what is `left`, and `must` all of these; `lost` is gone."""

    jobs: tuple[Job, ...]
    must: tuple[Job, ...]
    left: Things
    lost: Things = ()

    def is_cured(self, more: Things, need: Need) -> bool:
        stock = stock_of((*self.left, *more))
        return all(job.done(stock, need) for job in (*self.jobs, *self.must))


class Spare:
    """The kit that stays at home, in the order of what it costs to take or double."""

    def __init__(self, stays: Things, need: Need) -> None:
        self.need, self.tried = need, 0
        self.items = sorted(stays, key=lambda i: (KINDS.index(i.kind), i.old, -i.gb))

    def cures(self, case: Case, used: Things = ()) -> tuple[Cure, ...]:
        """Proven; empty where nothing of the kit and nothing simple to hire cures it."""
        own = self._own(case, used)
        if own:
            return counted(own, ())
        for job in case.jobs:
            for hired in proposals(job.key, case.left, self.need):
                if case.is_cured(hired, self.need):
                    return counted((), hired)
        again = tuple(modest(item) for item in case.lost)
        if again and case.is_cured(again, self.need):
            return counted((), again)
        return self._job_by_job(case, used)

    def own(self, case: Case) -> tuple[Cure, ...]:
        return counted(self._own(case, ()), ())

    def _own(self, case: Case, used: Things) -> Things:
        """The cheapest one thing that does it, else few and cheap ones that do it together."""
        kinds = {kind for job in case.jobs for kind in job.asks}
        pool = [item for item in _without(self.items, used) if item.kind in kinds]
        for item in best_of(pool):
            if case.is_cured((item,), self.need):
                return (item,)
        for some in self._pools(pool):
            self.tried += 1
            if self.tried > MOST_TRIED:
                break
            if case.is_cured(tuple(some), self.need):
                return self._pruned(case, self._shortest(case, some))
        return ()

    def _pools(self, pool: list[Item]) -> Iterator[list[Item]]:
        """All that stays at home; then without the things of one fitting, since a body that those
        wake may lack what else it needs; then the things of one fitting alone, and of two."""
        yield pool
        fittings = {each: _fitting(each) for each in pool}
        alike = list(dict.fromkeys(fittings.values()))
        if len(alike) < 2:
            return
        for one in alike:
            yield [each for each in pool if fittings[each] != one]
        for some in (*((one,) for one in alike), *combinations(alike, 2)):
            yield [each for each in pool if fittings[each] in some]

    def _shortest(self, case: Case, pool: list[Item]) -> Things:
        """The first of them that are enough, by halving."""
        low, high = 0, len(pool)
        while low < high:
            middle, self.tried = (low + high) // 2, self.tried + 1
            if case.is_cured(tuple(pool[:middle]), self.need):
                high = middle
            else:
                low = middle + 1
        return tuple(pool[:high])

    def _pruned(self, case: Case, things: Things) -> Things:
        """Without what is not needed, the dearest left out first, many at once where it can be."""
        size = max(1, len(things) // 2)
        while things:
            before = len(things)
            for end in range(len(things), 0, -size):
                fewer = things[: max(0, end - size)] + things[end:]
                self.tried += 1
                if case.is_cured(fewer, self.need):
                    things = fewer
            if size == 1 and len(things) == before:
                break
            size = max(1, size // 2)
        return things

    def _job_by_job(self, case: Case, used: Things) -> tuple[Cure, ...]:
        """Each job with what those before were given, of the kit or hired, then pruned."""
        have: Things = ()
        own: list[Item] = []
        for job in case.jobs:
            now = Case((job,), (), (*case.left, *have))
            if now.is_cured((), self.need):
                continue
            more = self._own(now, (*used, *own))
            own += more
            hired = () if more else next(self._hired(now), ())
            if not more and not hired:
                return ()
            have += (*more, *hired)
        have = self._pruned(case, have) if case.is_cured(have, self.need) else ()
        mine = [item for item in have if item in own]
        return counted(tuple(mine), tuple(item for item in have if item not in own))

    def _hired(self, case: Case) -> Iterator[Things]:
        for job in case.jobs:
            for hired in proposals(job.key, case.left, self.need):
                if case.is_cured(hired, self.need):
                    yield hired


def counted(own: Things, hired: Things) -> tuple[Cure, ...]:
    cures = [Cure(item, own.count(item)) for item in dict.fromkeys(own)]
    return (*cures, *(Cure(item, hired.count(item), False) for item in dict.fromkeys(hired)))


def best_of(pool: Iterable[Item]) -> Iterator[Item]:
    """Of things that differ in size or age alone, only the one that does most need be tried."""
    seen = set()
    for item in pool:
        sizes = (item.wide, item.long, item.aperture) if item.kind == "lens" else ()
        body = (item,) if item.kind == "body" else ()
        alike = (*_fitting(item), *sizes, *body)
        if alike not in seen:
            seen.add(alike)
            yield item


def _fitting(item: Item) -> tuple[object, ...]:
    return (item.kind, tidy(item.mount), several(item.card_form), several(item.power))


def _without(items: list[Item], used: Things) -> list[Item]:
    left = list(items)
    for item in used:
        left.remove(item)
    return left
