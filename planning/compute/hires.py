"""What is hired or borrowed and goes to two weddings at once, or outside of its dates."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from .clashes import Clash
from .planned import Finding
from .values import N_


@dataclass(frozen=True, slots=True)
class Use:
    """So many of it go to a wedding, from its first day to its last."""

    wedding: str
    names: str
    first: date
    last: date
    count: int = 1


@dataclass(frozen=True, slots=True)
class Hire:
    """`count` alike, from and until which date (both included; None: nobody said)."""

    title: str
    count: int
    had_from: date | None
    back_by: date | None
    uses: tuple[Use, ...] = ()


def hire_clashes(hires: Iterable[Hire]) -> Iterator[Clash]:
    for hire in hires:
        uses = sorted(hire.uses, key=lambda use: (use.first, use.last))
        yield from _at_once(hire, uses)
        for use in uses:
            yield from _not_there(hire, use)


def _at_once(hire: Hire, uses: list[Use]) -> Iterator[Clash]:
    """At the first day of each wedding: what is out then, beside how many there are."""
    for i, use in enumerate(uses):
        out = [other for other in uses[:i] if other.last >= use.first]
        if out and sum(other.count for other in out) + use.count > hire.count:
            message = N_(
                "“%(item)s” goes to %(one)s and to %(other)s on %(day)s, and there are not so many "
                "of it."
            )
            if hire.count == 1:
                message = N_(
                    "“%(item)s” goes to %(one)s and to %(other)s on %(day)s, and there is only one."
                )
            values = {"item": hire.title, "one": out[-1].names, "other": use.names}
            yield _clash("hired_twice", message, values, use, out[-1].wedding)


def _not_there(hire: Hire, use: Use) -> Iterator[Clash]:
    values = {"item": hire.title, "names": use.names}
    if hire.back_by and hire.back_by < use.last:
        message = N_(
            "“%(item)s” has to be back by %(back)s, and goes to %(names)s on %(day)s: hire it "
            "longer, or take something else."
        )
        yield _clash("hired_away", message, values | {"back": hire.back_by}, use)
    if hire.had_from and hire.had_from > use.first:
        message = N_(
            "“%(item)s” is there from %(from)s only, and goes to %(names)s on %(day)s: hire it "
            "earlier, or take something else."
        )
        yield _clash("hired_away", message, values | {"from": hire.had_from}, use)


def _clash(code: str, message: str, values: dict[str, object], use: Use, *more: str) -> Clash:
    values |= {"day": use.first}
    return Clash(use.last, Finding(code, "clash", message, values, "kit"), (use.wedding, *more))
