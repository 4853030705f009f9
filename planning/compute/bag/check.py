"""No single failure ends the day: each thing is taken out in turn, and every job asked again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from .cards import Filled, fill_cards, once_sets
from .cures import Case, Cure, Spare, best_of, counted
from .items import KINDS, Item, nature, of_kind
from .jobs import JOBS, SAFETY, Job
from .need import Need, rating_of
from .stock import stock_of

Things = tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Hole:
    """`jobs` are not done once `lost` is gone; with all of `cures` they are, which was tried.

    `cause` is "missing" (not done with all there is), "one" (one thing fails) or "shared" (all
    that `lost` names travels together, its `where` says in what, and `cures` name what of it has
    to travel elsewhere). Of "missing" ones each is cured when those before it are.
    """

    cause: str
    lost: Things
    jobs: tuple[Job, ...]
    cures: tuple[Cure, ...] = ()
    where: str = ""


@dataclass(frozen=True, slots=True)
class Bag:
    """What goes, what is not covered, and the arithmetic. `spare` is the kit that stays.

    `safety` is what goes on, but with less safety: the day is covered all the same. `unknown` are
    bodies and what nobody has entered of them ("raw_mb", "shots"), without which room or power is
    not known to be lacking, and not known to be enough.
    """

    items: Things = ()
    spare: Things = ()
    need: Need = field(default_factory=Need)
    missing: tuple[Hole, ...] = ()
    holes: tuple[Hole, ...] = ()
    shared: tuple[Hole, ...] = ()
    safety: tuple[Hole, ...] = ()
    filled: tuple[Filled, ...] = ()
    unknown: tuple[tuple[Item, str], ...] = ()

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
    done = tuple(job for job in JOBS if job not in lacking)
    holes = tuple(_holes(items, spare, need, done))
    return Bag(
        items=items,
        spare=stays,
        need=need,
        missing=tuple(_missing(items, lacking, spare, need)),
        holes=holes,
        shared=tuple(_shared(items, need, done, holes)),
        safety=tuple(_safety(items, spare, need, done)),
        filled=fill_cards(stock_of(items), need),
        unknown=tuple(_unknown(items, need)),
    )


def _unknown(items: Things, need: Need) -> Iterator[tuple[Item, str]]:
    for body in dict.fromkeys(of_kind(items, "body")):
        if not body.raw_mb:
            yield body, "raw_mb"
        if not rating_of(body, need):
            yield body, "shots"


def undone(items: Things, need: Need, jobs: Iterable[Job] = JOBS) -> tuple[Job, ...]:
    stock = stock_of(items)
    return tuple(job for job in jobs if not job.done(stock, need))


def _missing(items: Things, lacking: tuple[Job, ...], spare: Spare, need: Need) -> Iterator[Hole]:
    """Job after job, with what the ones before were given; what that mends too is told with it."""
    left, used, have = list(lacking), (), items
    while left:
        lacks = undone(have, need)
        must = tuple(job for job in JOBS if job not in lacks)
        case = Case((left[0],), must, have)
        cures = spare.cures(case, used)
        more = tuple(cure.item for cure in cures for _each in range(cure.count))
        have += more
        used += tuple(c.item for c in cures if c.is_own for _each in range(c.count))
        still = [job for job in undone(have, need, left) if job != left[0]]
        yield Hole("missing", (), tuple(job for job in left if job not in still), cures)
        left = still


def _holes(items: Things, spare: Spare, need: Need, done: tuple[Job, ...]) -> Iterator[Hole]:
    """Things of one nature fail alike: one of them is tried, all are named."""
    found: dict[tuple[object, ...], tuple[tuple[Job, ...], tuple[Cure, ...]]] = {}
    for at in _first_of_each(items):
        item, alike = items[at], nature(items[at])
        if alike not in found:
            left = items[:at] + items[at + 1 :]
            hang = [job for job in done if item.kind in job.asks]
            lost = undone(left, need, hang) if hang else ()
            cures = spare.cures(Case(lost, done, left, (item,))) if lost else ()
            found[alike] = (lost, cures)
        lost, cures = found[alike]
        if lost:
            yield Hole("one", (item,), lost, cures)


def _first_of_each(items: Things) -> list[int]:
    return sorted({item.key: at for at, item in reversed(tuple(enumerate(items)))}.values())


def _shared(
    items: Things, need: Need, done: tuple[Job, ...], holes: tuple[Hole, ...]
) -> Iterator[Hole]:
    """What travels together is stolen, soaked or left behind together.

    What one thing of it alone ends is told already. Where all travels in one bag, that itself is
    told, once.
    """
    for where in dict.fromkeys(item.carried for item in items):
        gone = tuple(item for item in items if item.carried == where)
        left = tuple(item for item in items if item.carried != where)
        keys = {item.key for item in gone}
        known = {job for hole in holes if hole.lost[0].key in keys for job in hole.jobs}
        lost = tuple(job for job in undone(left, need, done) if job not in known)
        if lost and not left:
            yield Hole(
                "shared", gone, tuple(job for job in lost if job == JOBS[0]) or lost, (), where
            )
        elif lost:
            yield Hole("shared", gone, lost, _apart(gone, left, lost, need), where)


def _apart(gone: Things, left: Things, lost: tuple[Job, ...], need: Need) -> tuple[Cure, ...]:
    """As little of it as has to travel elsewhere, the dearest left in it first."""
    kinds = {kind for job in lost for kind in job.asks}
    moved = sorted((i for i in gone if i.kind in kinds), key=lambda i: KINDS.index(i.kind))
    case = Case(lost, (), left)
    for item in best_of(moved):
        if case.is_cured((item,), need):
            return counted((item,), ())
    for at in reversed(range(len(moved))):
        fewer = moved[:at] + moved[at + 1 :]
        if case.is_cured(tuple(fewer), need):
            moved = fewer
    return counted(tuple(moved), ()) if case.is_cured(tuple(moved), need) else ()


def _safety(items: Things, spare: Spare, need: Need, done: tuple[Job, ...]) -> Iterator[Hole]:
    lacking = undone(items, need, SAFETY)
    if not need.gb:
        return  # nobody knows whether they take the day even once
    if lacking and "space" not in {job.key for job in done}:
        return  # told already, and worse
    if lacking:
        yield Hole("missing", (), lacking, spare.cures(Case(lacking, done, items)))
        return
    for at in _first_of_each(items):
        if items[at].kind in {"body", "card"}:
            left = items[:at] + items[at + 1 :]
            if lost := undone(left, need, SAFETY):
                must = tuple(job for job in done if job not in undone(left, need, done))
                yield Hole("one", (items[at],), lost, spare.own(Case(lost, must, left)))


def frames_left(bag: Bag, hole: Hole) -> int:
    """Frames that the cards take once what is lost is gone, with the reserve."""
    left = list(bag.items)
    for item in hole.lost:
        left.remove(item)
    return sum(frames for _cards, frames in once_sets(stock_of(left), bag.need))


def together(holes: Iterable[Hole]) -> list[tuple[Hole, ...]]:
    """Holes that lose the same jobs and are cured by the same, as one each."""
    alike: dict[tuple[object, ...], list[Hole]] = {}
    for hole in holes:
        alike.setdefault((hole.jobs, hole.cures), []).append(hole)
    return [tuple(each) for each in alike.values()]
