"""What else to take from the studio's own kit, the least first; else what to borrow or hire."""

from __future__ import annotations

from dataclasses import dataclass

from ..values import N_
from .items import KINDS, Item, nature
from .jobs import Job
from .need import Need
from .stock import stock_of

# Where nothing of the kit stands in for one of these, another of what was lost does.
SAME = {"card": N_("another card"), "battery": N_("another battery")}


@dataclass(frozen=True, slots=True)
class Cure:
    """`item` is of the studio's own kit, or None: then borrow or hire what `hire` says."""

    item: Item | None
    hire: str = ""


class Spare:
    """The kit that stays at home, in the order of what it costs to take or double."""

    def __init__(self, stays: tuple[Item, ...], need: Need) -> None:
        self.need = need
        self.items = sorted(stays, key=lambda i: (KINDS.index(i.kind), i.old, -i.gb))

    def cures(
        self, jobs: tuple[Job, ...], left: tuple[Item, ...], lost: tuple[Item, ...] = ()
    ) -> tuple[Cure, ...]:
        """Job after job, with what the ones before were given; all of them together suffice.

        What is borrowed in the place of a lost card or battery, or of the one body that worked,
        is taken to be as good: what hangs on having one at all is not asked for again.
        """
        found: list[Cure] = []
        have, free = left, list(self.items)
        for job in jobs:
            if self._done(job, have):
                continue
            if more := self._least(job, have, free):
                found += [Cure(item) for item in more]
                have += more
                for item in more:
                    free.remove(item)
            else:
                kind = lost[0].kind if lost else ""
                found.append(Cure(None, SAME.get(kind, job.hire)))
                have += lost if kind in SAME or job.key == "camera" else ()
        return tuple(found)

    def _least(self, job: Job, have: tuple[Item, ...], free: list[Item]) -> tuple[Item, ...]:
        """The cheapest one thing that does it, else as few and cheap ones as do it together.

        As jobs are monotone, what all of them together cannot do none of them can, and a thing
        without which the job is still done is not needed.
        """
        useful = [item for item in free if item.kind in job.asks]
        if not self._done(job, (*have, *useful)):
            return ()
        unlike: dict[tuple[object, ...], Item] = {}
        for item in useful:
            unlike.setdefault(nature(item), item)
        for item in unlike.values():
            if self._done(job, (*have, item)):
                return (item,)
        at = len(useful)
        while at:
            at -= 1
            fewer = useful[:at] + useful[at + 1 :]
            if self._done(job, (*have, *fewer)):
                useful = fewer
        return tuple(useful)

    def _done(self, job: Job, items: tuple[Item, ...]) -> bool:
        return job.done(stock_of(items), self.need)
