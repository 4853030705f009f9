"""No single failure ends the day: each thing is taken out in turn, and every job asked again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from .cards import Filled, fill_cards
from .cures import Cure, Spare
from .items import Item, nature
from .jobs import JOBS, Job
from .need import Need
from .stock import stock_of

Things = tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Hole:
    """`jobs` are not done once `lost` is gone; with all of `cures` they are.

    `cause` is "missing" (not done with all there is), "one" (one thing fails) or "shared" (all
    that `lost` names travels together; its `where` says in what).
    """

    cause: str
    lost: Things
    jobs: tuple[Job, ...]
    cures: tuple[Cure, ...] = ()
    where: str = ""


@dataclass(frozen=True, slots=True)
class Bag:
    """What goes, what is not covered, and the arithmetic. `spare` is the kit that stays."""

    items: Things = ()
    spare: Things = ()
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
    stays = tuple(item for item in kit if not item.taken)
    if not items:
        return Bag(spare=stays, need=need)
    lacking, spare = undone(items, need), Spare(stays, need)
    done = [job for job in JOBS if job not in lacking]
    return Bag(
        items=items,
        spare=stays,
        need=need,
        missing=tuple(Hole("missing", (), (job,), spare.cures((job,), items)) for job in lacking),
        holes=tuple(_holes(items, spare, need, done)),
        shared=tuple(_shared(items, need, done)),
        filled=fill_cards(stock_of(items).cards, need),
    )


def undone(items: Things, need: Need, jobs: Iterable[Job] = JOBS) -> tuple[Job, ...]:
    stock = stock_of(items)
    return tuple(job for job in jobs if not job.done(stock, need))


def _holes(items: Things, spare: Spare, need: Need, jobs: list[Job]) -> Iterator[Hole]:
    """Things of one nature fail alike: one of them is tried, all are named."""
    found: dict[tuple[object, ...], tuple[tuple[Job, ...], tuple[Cure, ...]]] = {}
    first = {item.key: at for at, item in reversed(tuple(enumerate(items)))}
    for at in sorted(first.values()):
        item, alike = items[at], nature(items[at])
        if alike not in found:
            left = items[:at] + items[at + 1 :]
            hang = [job for job in jobs if item.kind in job.asks]
            lost = undone(left, need, hang) if hang else ()
            found[alike] = (lost, spare.cures(lost, left, (item,)))
        lost, cures = found[alike]
        if lost:
            yield Hole("one", (item,), lost, cures)


def _shared(items: Things, need: Need, jobs: list[Job]) -> Iterator[Hole]:
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
            yield Hole("shared", gone, lost, (), where)


def together(holes: Iterable[Hole]) -> list[tuple[Hole, ...]]:
    """Holes that lose the same jobs and are cured by the same, as one each."""
    alike: dict[tuple[object, ...], list[Hole]] = {}
    for hole in holes:
        alike.setdefault((hole.jobs, hole.cures), []).append(hole)
    return [tuple(each) for each in alike.values()]
