"""One block as a template of a day has it, before any wedding fills it."""

from __future__ import annotations

from dataclasses import dataclass

Minutes = tuple[int, int, int]  # least, likely, most


@dataclass(frozen=True, slots=True)
class Template:
    """One block of a template; lengths are whole minutes.

    `use` is what its place is used for ("next" and "previous": where its neighbour is, "home");
    `moment` the couple's moment that fixes its time. A block that `fills` takes what time is left
    and gives way: she joins the drinks when the groups are done, however long they have been
    going on. One that `leads` to a kind ends when that begins. `once` marks what a wedding has on
    its main day only.

    `short` is its short form for a day that runs late, `droppable` whether it may go then,
    `importance` (1 to 10) what lateness and cuts weigh. Where its time is fixed, `delay` is how
    late it tends to begin by itself, and `movable` whether its time can be asked to move at all.
    In the rain it lasts `wet` minutes, or goes where that is all nought. `key` tells blocks of one
    kind apart where a template has several; without one its kind does.
    """

    kind: str
    title: str
    minutes: Minutes
    use: str
    moment: str = ""
    fills: bool = False
    leads: str = ""
    once: bool = False
    short: int | None = None
    droppable: bool = False
    importance: int = 5
    delay: Minutes | None = None
    movable: bool = True
    wet: Minutes | None = None
    key: str = ""
