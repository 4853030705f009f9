"""Who is in one line of a pasted list: names, the couple, head-counts, everybody. Pure."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from .pasted_counts import Count, take_count
from .pasted_speech import Speech

BRACKET = re.compile(r"^(.*?)\s*[(\[]([^()\[\]]*)[)\]]\s*$")
NAMES = re.compile(r"[^\W\d_a-zß-öø-ÿ]\w+|[,&+]")  # a capital, or a list
# Characters of a title that is tidied for each of its items, thousands of which would take seconds;
# a longer one stays as it was typed, and is cut where it is shown (intake/pasted.py).
LONGEST = 2_000
NOTHING = {"etc", "usw", "itd", "ecc", "enz", "osv", "…", "co"}


@dataclass
class Crowd:
    """`title` as it will stand; people once each, in the order they were named."""

    title: str
    people: list[str] = field(default_factory=list)
    extra: int = 0
    everyone: bool = False
    _named: set[str] = field(default_factory=set)

    def add(self, *names: str) -> None:
        for name in names:
            if name.casefold() not in self._named:
                self._named.add(name.casefold())
                self.people.append(name)


class Reader:
    """Reads lines for one couple, in the languages that the whole text is written in."""

    def __init__(self, speech: Speech, couple: tuple[str, ...]) -> None:
        self.speech, self.couple = speech, couple

    def crowd(self, title: str, people: str = "", total: int = 0) -> Crowd:
        """`people` are listed apart from the title; `total` is how many they are altogether."""
        crowd = Crowd(title)
        items = self.speech.items(title)
        count = sum(self._from_title(crowd, item, len(items), bool(people)) for item in items)
        before = len(crowd.people)
        for item in self.speech.items(people):
            self._from_list(crowd, item)
        if people:  # "Cousins (6): Ada, Bo" are six
            count -= len(crowd.people) - before
        crowd.extra += max(0, count)
        if total:
            crowd.extra = max(crowd.extra, total - (0 if crowd.everyone else len(crowd.people)))
        return crowd

    def _known(self, crowd: Crowd, item: str) -> bool:
        """The couple, one of them, or everybody."""
        if self.speech.is_us(item):
            crowd.add(*self.couple)
        elif item.casefold() in (names := {name.casefold(): name for name in self.couple}):
            crowd.add(names[item.casefold()])
        elif self.speech.is_everybody(item):
            crowd.everyone = True
        else:
            return False
        return True

    def _from_title(self, crowd: Crowd, item: str, of: int, has_list: bool) -> int:
        """Take one item of a title into the crowd; returns a head-count in it."""
        title, count = crowd.title, take_count(item)
        if count.number and len(title) <= LONGEST:
            crowd.title = self._without(crowd.title, item, count)
        if not count.rest and f", {item}" in title and crowd.people and not crowd.everyone:
            return max(0, count.number - len(crowd.people))  # "Leo, Mia, x5" are five
        known = self._known(crowd, count.rest)
        if known or not count.rest or (count.number and of == 1):
            return self._altogether(crowd, count) if known else count.number
        if has_list or (self._opened(crowd, item) and not count.number):
            return count.number
        if self.speech.is_many(count.rest):
            if of > 1 and (named := self.speech.named_after_many(count.rest)):
                crowd.add(named)
            return count.number
        return self._person(crowd, item, count)

    def _altogether(self, crowd: Crowd, count: Count) -> int:
        """ "Us (4)" are four altogether; "everybody (80)" are eighty."""
        return count.number if crowd.everyone else max(0, count.number - len(crowd.people))

    def _without(self, title: str, item: str, count: Count) -> str:
        if not count.rest:
            return re.sub(rf"\s*[,;]\s*{re.escape(item)}", "", title)
        return title.replace(item, count.rest).strip(" ,;+&:")

    def _opened(self, crowd: Crowd, item: str) -> bool:
        """ "Anna's parents (Maria and Jon)" names them; "Maria (mum)" does not."""
        found = BRACKET.match(item)
        if not found or not found[1] or not NAMES.search(found[2]):
            return False
        if not self.speech.is_many(found[1]) and not re.search(r"[,&+]", found[2]):
            return False
        crowd.title = crowd.title.replace(item, found[1])
        for each in self.speech.items(found[2]):
            self._from_list(crowd, each)
        return True

    def _person(self, crowd: Crowd, item: str, count: Count) -> int:
        if count.number and not count.is_plain and count.number > len(crowd.people):
            crowd.add(count.rest)  # the last of a list: how many they all are
            return count.number - len(crowd.people)
        crowd.add(item)
        return 0

    def _from_list(self, crowd: Crowd, item: str) -> None:
        count = take_count(item)
        if self._known(crowd, item) or item.casefold().strip(".") in NOTHING:
            return
        if count.number and not count.rest:
            crowd.extra += count.number
        elif count.number and (self.speech.is_many(count.rest) or count.is_first):
            crowd.extra += count.number
            crowd.title += f", {item}"  # "12 friends" name nobody, and say who they are
        elif count.number and count.rest and not count.is_plain and "+" in item:
            crowd.add(count.rest)
            crowd.extra += count.number
        elif not self._opened(crowd, item):
            crowd.add(item)
