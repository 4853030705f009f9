"""Who is the same person, when all we have is what somebody typed."""

from __future__ import annotations

import unicodedata
from collections import defaultdict
from collections.abc import Iterable
from difflib import SequenceMatcher
from itertools import combinations

# Letters that Unicode does not decompose into a plain letter and an accent.
PLAIN = str.maketrans({"ł": "l", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe"})
NEAR = 0.84  # own choice: "Aunt Jo" and "Auntie Jo" are near, "Maria" and "Marta" are not


def person_key(name: str) -> str:
    """One key for a name however it was typed: case, accents and spaces do not count."""
    folded = unicodedata.normalize("NFKD", name.casefold().translate(PLAIN))
    letters = "".join(c for c in folded if not unicodedata.combining(c))
    return " ".join(letters.replace("’", "'").split())


def near_matches(names: Iterable[str]) -> list[tuple[str, str]]:
    """Pairs of different people whose names look like one name in two spellings.

    They are for the photographer to look at; nothing merges them.
    """
    spelled = {person_key(name): name for name in reversed(list(names))}
    buckets: dict[str, list[str]] = defaultdict(list)
    for key in spelled:
        buckets[f"{key[:2]}*"].append(key)
        buckets[f"*{key[-4:]}"].append(key)
    pairs = {
        tuple(sorted(pair))
        for bucket in buckets.values()
        for pair in combinations(bucket, 2)
        if _look_alike(*pair)
    }
    return [(spelled[first], spelled[second]) for first, second in sorted(pairs)]


def _look_alike(first: str, second: str) -> bool:
    if min(len(first), len(second)) < 4 or _digits(first) != _digits(second):
        return False
    matcher = SequenceMatcher(None, first, second, autojunk=False)
    return matcher.real_quick_ratio() >= NEAR and matcher.ratio() >= NEAR


def _digits(name: str) -> str:
    return "".join(c for c in name if c.isdigit())
