"""The pictures of a wedding as a contact sheet in the day pack: twelve on a page at most."""

from __future__ import annotations

import base64
from dataclasses import dataclass

from django.utils.translation import gettext as _

from intake.store import store

from .compute.values import Picture

FEW_ROWS = 3  # as many rows of two larger prints fill a page
JPEG = "data:image/jpeg;base64,"


@dataclass(frozen=True)
class Print:
    """`image` is the whole small picture as an address; "" where its file is not there."""

    number: int
    image: str
    alt: str
    line: str


@dataclass(frozen=True)
class Sheet:
    """Prints in rows; `few` where there is room for larger ones."""

    title: str
    rows: list[list[Print]]
    few: bool


def contact_sheets(pictures: tuple[Picture, ...]) -> list[Sheet]:
    """The couple's pictures, then the photographer's own; none where there are none."""
    prints = {own: _prints(pictures, own) for own in (False, True)}
    few = sum(len(_rows(each, 2)) for each in prints.values()) <= FEW_ROWS
    titles = {False: _("Pictures they like"), True: _("Pictures of ours")}
    across = 2 if few else 3
    return [Sheet(titles[own], _rows(each, across), few) for own, each in prints.items() if each]


def _rows(prints: list[Print], across: int) -> list[list[Print]]:
    return [prints[i : i + across] for i in range(0, len(prints), across)]


def _prints(pictures: tuple[Picture, ...], own: bool) -> list[Print]:
    chosen = [picture for picture in pictures if picture.own == own]
    return [_print(picture, number) for number, picture in enumerate(chosen, 1)]


def _print(picture: Picture, number: int) -> Print:
    words = _("Our picture %s") if picture.own else _("Picture %s from the couple")
    return Print(number, small_image(picture.small), picture.line or words % number, picture.line)


def small_image(name: str) -> str:
    """A small picture as an address that a paper carries in itself; "" where it is not there."""
    try:
        with store().open(name) as file:
            return JPEG + base64.b64encode(file.read()).decode()
    except OSError:  # gone, or the store does not answer: a pack without it beats none
        return ""
