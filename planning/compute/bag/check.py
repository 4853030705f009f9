"""No single failure ends the day: each thing is taken out in turn, and every job asked again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from .cards import Filled, fill_cards
from .items import KINDS, Item
from .jobs import JOBS, Job, Things, cards_by_body
from .need import Need


@dataclass(frozen=True, slots=True)
class Cure:
    """What else to take. `item` is of the studio's own kit, or None: then borrow or hire."""

    item: Item | None
    hire: str = ""


@dataclass(frozen=True, slots=True)
class Hole:
    """`jobs` are not done once `lost` is gone; the `cure` would do the first of them.

    `cause` is "missing" (not done with all there is), "one" (one thing fails) or "shared" (all
    that `lost` names travels together; its `where` says in what).
    """

    cause: str
    lost: tuple[Item, ...]
    jobs: tuple[Job, ...]
    cure: Cure
    where: str = ""


@dataclass(frozen=True, slots=True)
class Bag:
    """What goes, what is not covered, and the arithmetic. `spare` is the kit that stays."""

    items: tuple[Item, ...] = ()
    spare: tuple[Item, ...] = ()
    need: Need = field(default_factory=Need)
    missing: tuple[Hole, ...] = ()
    holes: tuple[Hole, ...] = ()
    shared: tuple[Hole, ...] = ()
    filled: tuple[Filled, ...] = ()

    @property
    def is_sound(self) -> bool:
        return bool(self.items) and not (self.missing or self.holes or self.shared)


def check_bag(kit: Things, need: Need) -> Bag:
    """The bag of one wedding; an empty kit has nothing to say."""
    items = tuple(item for item in kit if item.taken)
    spare = tuple(item for item in kit if not item.taken)
    if not items:
        return Bag(spare=spare, need=need)
    lacking = undone(items, need)
    missing = tuple(
        Hole("missing", (), (job,), cure_of(job, items, spare, need)) for job in lacking
    )
    done = [job for job in JOBS if job not in lacking]
    return Bag(
        items=items,
        spare=spare,
        need=need,
        missing=missing,
        holes=tuple(_holes(items, spare, need, done)),
        shared=tuple(_shared(items, spare, need, done)),
        filled=fill_cards(cards_by_body(items), need),
    )


def undone(items: Things, need: Need, jobs: Iterable[Job] = JOBS) -> tuple[Job, ...]:
    return tuple(job for job in jobs if not job.done(items, need))


def _holes(items: Things, spare: Things, need: Need, jobs: list[Job]) -> Iterator[Hole]:
    """Things that are alike fail alike: one of them is tried."""
    for item in {item.key: item for item in items}.values():
        left = _without(items, item)
        lost = undone(left, need, jobs)
        if lost:
            yield Hole("one", (item,), lost, cure_of(lost[0], left, spare, need))


def _shared(items: Things, spare: Things, need: Need, jobs: list[Job]) -> Iterator[Hole]:
    """What travels together is stolen, soaked or left behind together.

    Asked of the camera alone: with what is elsewhere one can go on. Nothing is said where all
    travels in one bag and nothing else is named, but that itself, once.
    """
    camera = [job for job in jobs if job.key == "camera"]
    for where in dict.fromkeys(item.carried for item in items):
        gone = tuple(item for item in items if item.carried == where)
        left = tuple(item for item in items if item.carried != where)
        lost = undone(left, need, camera)
        if lost:
            yield Hole("shared", gone, lost, Cure(None), where)


def _without(items: Things, item: Item) -> Things:
    at = items.index(item)
    return items[:at] + items[at + 1 :]


def cure_of(job: Job, items: Things, spare: Things, need: Need) -> Cure:
    """The cheapest one thing of the kit that would do it, else what to borrow or hire."""
    for item in sorted(spare, key=lambda each: KINDS.index(each.kind)):
        if job.done((*items, item), need):
            return Cure(item)
    return Cure(None, job.hire)
