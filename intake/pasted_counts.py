"""Head-counts as people write them: "x12", "12x", "(12)", "12 people", "about 12". Pure."""

from __future__ import annotations

import re
from dataclasses import dataclass

from .pasted_words import ABOUT, NUMBERED_THINGS, PEOPLE

_ABOUT = "|".join(re.escape(word) for word in sorted(ABOUT.split(), key=len, reverse=True))
_PEOPLE = "|".join(re.escape(word) for word in sorted(PEOPLE.split(), key=len, reverse=True))
_NUMBER = rf"(?:(?:{_ABOUT})\s+|[~≈+]\s*)?(\d{{1,3}})(?!\d)\s*\+?"
MARKED = [
    re.compile(rf"[(\[]\s*(?:[x×]\s*)?{_NUMBER}\s*(?:[x×]|{_PEOPLE})?\s*[)\]]", re.IGNORECASE),
    re.compile(rf"(?<!\w)[x×]\s?{_NUMBER}(?!\w)", re.IGNORECASE),
    re.compile(rf"(?<!\w){_NUMBER}\s?[x×](?!\w)", re.IGNORECASE),
    re.compile(rf"(?<!\w){_NUMBER}\s+(?:{_PEOPLE})(?![\w’'])", re.IGNORECASE),
]
FIRST = re.compile(rf"^{_NUMBER}\s+(?=[^\W\d])", re.IGNORECASE)  # "12 friends"
LAST = re.compile(rf"(?<=\s){_NUMBER}$|^{_NUMBER}$", re.IGNORECASE)


@dataclass(frozen=True)
class Count:
    """`rest` is the text without its number (0 where there is none)."""

    rest: str
    number: int = 0
    is_plain: bool = False  # a bare figure, with nothing to show that people are counted
    is_first: bool = False


def take_count(text: str) -> Count:
    for pattern in MARKED:
        if found := pattern.search(text):
            if not found.start() and found.end() < len(text) and pattern is MARKED[-1]:
                return Count(text, _figure(found), is_first=True)  # "12 people from work"
            return Count(_rest(text, found), _figure(found))
    if found := FIRST.match(text):
        return Count(text, _figure(found), is_plain=True, is_first=True)
    if found := LAST.search(text):
        rest = _rest(text, found)
        if rest.split() and rest.split()[-1].casefold().strip(".") in NUMBERED_THINGS.split():
            return Count(text)
        return Count(rest, _figure(found), is_plain=True)
    return Count(text)


def _rest(text: str, found: re.Match[str]) -> str:
    return " ".join(f"{text[: found.start()]} {text[found.end() :]}".split()).strip(" ,;:-–—")


def _figure(found: re.Match[str]) -> int:
    return int(next(each for each in found.groups() if each))
