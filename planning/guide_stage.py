"""The shape of the guide for first weddings."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.functional import Promise


@dataclass(frozen=True)
class Point:
    """One thing to do; `page` is the screen on which, `link` its name."""

    text: Promise
    page: str = ""
    link: Promise | str = ""


@dataclass(frozen=True)
class Stage:
    """A stretch of the way; `cautions` are about what could hurt somebody."""

    key: str
    title: Promise
    when: Promise
    intro: Promise
    points: tuple[Point, ...]
    cautions: tuple[Promise, ...] = ()


def point(text: Promise, page: str = "", link: Promise | str = "") -> Point:
    return Point(text, page, link)
