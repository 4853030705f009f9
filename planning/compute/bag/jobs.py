"""The jobs of a day that must be done whatever fails, each as a question to a set of things.

Frames go on being taken with one card in the camera; that is why a second one there is no job
but a matter of safety (`SAFETY`), told apart. More things may undo a job: a second body whose
cards no reader takes. So what is said to cure is asked again with all of it in the bag.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from ..values import N_
from .cards import hold_once, hold_twice, twice_sets
from .items import Item, several, tidy
from .need import Need, charges, rating_of
from .stock import Stock

WIDE, LONGER, FAST = 35.0, 70.0, 2.0  # mm and f-number; common practice, no source
DRIVES = 2  # two copies that night, on two things


@dataclass(frozen=True)
class Job:
    """`title` says what is done, `asks` the kinds of things that it can hang on."""

    key: str
    title: str
    asks: frozenset[str]
    done: Callable[[Stock, Need], bool]


def _camera(stock: Stock, need: Need) -> bool:
    return bool(stock.bodies)


def _wide(stock: Stock, need: Need) -> bool:
    return any(lens.wide <= WIDE for lens in stock.lenses)


def _longer(stock: Stock, need: Need) -> bool:
    return any(lens.long >= LONGER for lens in stock.lenses)


def _dark(stock: Stock, need: Need) -> bool:
    """A flash with its batteries, or a fast lens; a flash without a fitting has its own."""
    powers = {"", *(tidy(battery.power) for battery in stock.batteries)}
    lit = any(tidy(flash.power) in powers for flash in stock.flashes)
    return bool(stock.bodies) and (lit or any(0 < lens.aperture <= FAST for lens in stock.lenses))


def _charging(stock: Stock, need: Need) -> bool:
    """A charger for every type of battery that a camera works with."""
    return bool(stock.bodies) and not unchargeable(stock)


def unchargeable(stock: Stock) -> list[str]:
    """Types of battery of working bodies, as typed, that no charger takes."""
    taken = {power for charger in stock.chargers for power in several(charger.power)}
    types = {tidy(body.power): body.power for body in stock.bodies}
    return [name for power, name in types.items() if power not in taken]


def _copies(stock: Stock, need: Need) -> bool:
    """A reader for every form of card that a camera writes on, and two drives for the day."""
    return bool(stock.cards) and not unreadable(stock) and len(roomy(stock, need)) >= DRIVES


def unreadable(stock: Stock) -> list[str]:
    """Forms of card that working bodies write on, as typed, that no reader takes."""
    taken = {form for reader in stock.readers for form in several(reader.card_form)}
    forms = {tidy(card.card_form): card.card_form for card in stock.cards}
    return [name for form, name in forms.items() if form not in taken]


def roomy(stock: Stock, need: Need) -> list[Item]:
    return [drive for drive in stock.drives if not drive.gb or drive.gb >= need.gb]


def _space(stock: Stock, need: Need) -> bool:
    """Cards for every frame, with the reserve. Once: the second copy is made that night."""
    return bool(stock.cards) and (not need.gb or hold_once(stock, need))


def _twice(stock: Stock, need: Need) -> bool:
    """Where the bag has a body that records on two cards at once: every frame on two."""
    if need.copies < 2:
        return True
    return hold_twice(stock, need) if need.gb else bool(twice_sets(stock, need))


def _power(stock: Stock, need: Need) -> bool:
    """Charges for every frame. A battery is worth its rating in the best body that takes it."""
    best: dict[str, int] = {}
    for body in stock.bodies:
        power = tidy(body.power)
        best[power] = max(best.get(power, 0), rating_of(body, need))
    fit = [battery for battery in stock.batteries if tidy(battery.power) in best]
    if not all(best[tidy(battery.power)] for battery in fit):
        return True  # nobody knows, which is told apart (`Bag.unknown`)
    return bool(best) and need.frames <= sum(
        charges(battery, best[tidy(battery.power)], need.cold) for battery in fit
    )


WORKING = frozenset({"body", "card", "battery"})  # what a body needs to work at all

JOBS = (
    Job("camera", N_("a working camera"), WORKING, _camera),
    Job("wide", N_("a wide view"), WORKING | {"lens"}, _wide),
    Job("longer", N_("a longer view"), WORKING | {"lens"}, _longer),
    Job("dark", N_("light in a dark room"), WORKING | {"lens", "flash"}, _dark),
    Job("space", N_("room on the cards"), WORKING, _space),
    Job("power", N_("power for the day"), WORKING, _power),
    Job("charging", N_("a way to charge each type of battery"), WORKING | {"charger"}, _charging),
    Job("copies", N_("two copies that night"), WORKING | {"reader", "drive"}, _copies),
)
ALL_HANG = N_("a working camera, and all that hangs on one")


def titles(jobs: tuple[Job, ...]) -> tuple[str, ...]:
    """What is not done, in words: without a camera nothing else is, and need not be listed."""
    if len(jobs) > 1 and any(job.key == "camera" for job in jobs):
        return (ALL_HANG,)
    return tuple(job.title for job in jobs)


SAFETY = (Job("twice", N_("a second card for every frame"), WORKING, _twice),)
