"""Checks of the bag: what nothing in it does, and what it no longer does once one thing fails."""

from __future__ import annotations

from collections.abc import Iterator

from .bag.check import Hole
from .planned import Finding, Plan
from .values import N_


def bag_lacks(plan: Plan) -> Iterator[Finding]:
    for hole in plan.bag.missing if plan.bag else ():
        own = N_("The bag lacks %(job)s. Take “%(cure)s” too.")
        hire = N_("The bag lacks %(job)s. Borrow or hire %(cure)s.")
        yield _finding("bag_lacks", "missing", hole, own, hire)


def bag_fails(plan: Plan) -> Iterator[Finding]:
    for hole in plan.bag.holes if plan.bag else ():
        own = N_("If “%(item)s” fails, the bag lacks %(job)s. Take “%(cure)s” too.")
        hire = N_("If “%(item)s” fails, the bag lacks %(job)s. Borrow or hire %(cure)s.")
        yield _finding("bag_fails", "look", hole, own, hire, item=hole.lost[0].title)


def _finding(code: str, weight: str, hole: Hole, own: str, hire: str, **more: str) -> Finding:
    cure = hole.cure.item.title if hole.cure.item else hole.cure.hire
    values = {"job": hole.jobs[0].title, "cure": cure} | more
    return Finding(code, weight, own if hole.cure.item else hire, values, "bag")
