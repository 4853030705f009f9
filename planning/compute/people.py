"""Who is the same person, when all we have is what somebody typed."""

from __future__ import annotations

import unicodedata
from collections import defaultdict
from collections.abc import Iterable
from difflib import SequenceMatcher
from functools import lru_cache
from itertools import combinations

# Letters that Unicode does not decompose into a plain letter and an accent, and the many shapes
# of an apostrophe and a hyphen.
PLAIN = str.maketrans(
    {"ł": "l", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ı": "i"}
    | dict.fromkeys("’‘ʼ`´ʻ", "'")
    | dict.fromkeys("‐‑–—", "-")
)
NEAR = 0.82  # own choice: "Gethin" and "Gethyn" are near, "Maria" and "Marta" are not


CROWD = 40  # so many names alike are no slip of spelling, and comparing all would take minutes


@lru_cache(maxsize=20_000)  # more than the longest list names, which is gone through in turn
def person_key(name: str) -> str:
    """One key for a name however it was typed: case, accents and spaces do not count.

    Only the accents of U+0300 to U+036F go: the marks of other scripts (a Japanese voicing mark,
    a Hindi vowel sign) are letters, and leaving them out would make one person of two.
    """
    folded = unicodedata.normalize("NFKD", name.casefold().translate(PLAIN)).translate(PLAIN)
    letters = (
        c for c in folded if not "\u0300" <= c <= "\u036f" and unicodedata.category(c) != "Cf"
    )
    return " ".join(unicodedata.normalize("NFC", "".join(letters)).split())


def counted_as_one(names: Iterable[str]) -> list[tuple[str, str]]:
    """Pairs of spellings with one key that differ by more than case and spaces.

    Accents are often left out on a phone, yet Hùng and Hưng may be brothers: nobody is merged
    without the photographer being told.
    """
    spellings: dict[str, dict[str, str]] = defaultdict(dict)
    for name in names:
        spelled = unicodedata.normalize("NFC", " ".join(name.casefold().split()))
        spellings[person_key(name)].setdefault(spelled.translate(PLAIN), name)
    return [
        (first, other)
        for same in spellings.values()
        for first, *others in [tuple(same.values())]
        for other in others
    ]


def near_matches(names: Iterable[str]) -> list[tuple[str, str]]:
    """Pairs of different people whose names look like one name in two spellings.

    Two names are near when they are the same words in another order or run together, or when
    all words but one are the same and that one is nearly so (unless a crowd of names shares the
    rest). They are for the photographer to
    look at; nothing merges them.
    """
    spelled = {person_key(name): name for name in reversed(list(names))}
    buckets: dict[tuple[str, ...], list[str]] = defaultdict(list)
    for key in spelled:
        for bucket in _buckets(key):
            buckets[bucket].append(key)
    pairs = {
        tuple(sorted(pair))
        for bucket, keys in buckets.items()
        if len(keys) <= CROWD
        for pair in combinations(dict.fromkeys(keys), 2)
        if len(bucket) == 1 or _look_alike(*pair)
    }
    return [(spelled[first], spelled[second]) for first, second in sorted(pairs)]


def _buckets(key: str) -> Iterable[tuple[str, ...]]:
    """Names that may be near share one of these; those of one part are near without a look."""
    words = key.replace("-", " ").split()
    joined = "".join(words).replace("'", "")
    if len(joined) >= 4:
        yield (joined,)
        yield ("".join(sorted(words)).replace("'", ""),)
    for i, word in enumerate(words):
        rest = " ".join(words[:i] + words[i + 1 :])
        yield rest, f"{word[:2]}*"
        yield rest, f"*{word[-3:]}"


def _look_alike(first: str, second: str) -> bool:
    """Whether the one word that differs is nearly the same; the bucket vouches for the rest."""
    one, other = first.replace("-", " ").split(), second.replace("-", " ").split()
    a, b = sorted(set(one) - set(other)), sorted(set(other) - set(one))
    if len(a) != 1 or len(b) != 1 or _digits(a[0]) != _digits(b[0]):
        return False
    if min(len(a[0]), len(b[0])) < 4:
        return False
    if a[0].startswith(b[0]) or b[0].startswith(a[0]):
        return True  # "Aunt Jo" and "Auntie Jo"
    matcher = SequenceMatcher(None, a[0], b[0], autojunk=False)
    return matcher.real_quick_ratio() >= NEAR and matcher.ratio() >= NEAR


def _digits(name: str) -> str:
    return "".join(c for c in name if c.isdigit())
