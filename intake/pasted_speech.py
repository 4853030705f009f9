"""The languages of a pasted list: where its items end, and who its words stand for. Pure."""

from __future__ import annotations

import re

from .pasted_words import LANGUAGES, Words

WORD = re.compile(r"[^\W\d_]+(?:[-'’.][^\W\d_]+)*")
OURS = re.compile("[\ue000\ue001]")  # private use: what stands for held text below
HELD = re.compile(r"[(\[][^()\[\]]*[)\]]")
FAMILY = re.compile(r"(?i:the|die|les|los|las|de|i|os|fam\.?)\s+[^\W\d_a-zß-öø-ÿ][\w-]+$")


class Speech:
    """English and whatever else a text seems to be written in."""

    def __init__(self, text: str) -> None:
        spoken = [LANGUAGES["en"], *_spoken(text)]
        joins = sorted({re.escape(word) for words in spoken for word in words.joins.split()})
        self.between = re.compile(
            rf"\s*[,;+&،、，；\n]\s*|\s/\s|(?<=\s)(?:{'|'.join(joins)})(?=\s)"
        )
        self.us = _phrases(spoken, "couple")
        self.everybody = _phrases(spoken, "everybody")
        self.all_of, self.guests = _words(spoken, "all_of"), _words(spoken, "guests")
        self.many, self.some = _words(spoken, "many"), _words(spoken, "some")
        self.heads = _words(spoken, "heads")
        longest = sorted((p for p in self.us if " " in p), key=len, reverse=True)
        us = "|".join(re.escape(phrase) for phrase in sorted(self.us, key=len, reverse=True))
        self.us_z = re.compile(rf"^\s*({us})\s+ze?\s", re.IGNORECASE)  # in Polish "from" as well
        self.long_us = re.compile("|".join(rf"(?<!\w){re.escape(p)}(?!\w)" for p in longest), re.I)

    def items(self, text: str) -> list[str]:
        """Split at commas, plus signs and every "and", but not in brackets or "bride and groom"."""
        kept: list[str] = []

        def hold(found: re.Match[str]) -> str:
            kept.append(found[0])
            return f"\ue000{len(kept) - 1}\ue001"

        text = OURS.sub(" ", text)
        text = self.us_z.sub(r"\1, ", text)
        text = HELD.sub(hold, self.long_us.sub(hold, text))
        pieces = self.between.split(f" {text} ")
        while any("\ue000" in piece for piece in pieces):
            pieces = [re.sub(r"\ue000(\d+)\ue001", lambda m: kept[int(m[1])], p) for p in pieces]
        return [item for piece in pieces if (item := piece.strip(" .:!*-–—\t"))]

    def is_us(self, item: str) -> bool:
        return _plain(item) in self.us

    def is_many(self, item: str) -> bool:
        """Several people whom nobody names: "Anna's parents", "friends from school"."""
        words = WORD.findall(item.casefold())
        return bool(FAMILY.match(item)) or any(word in self.many for word in words)

    def named_after_many(self, item: str) -> str:
        """ "his brothers Ulf", with "and Vidar" behind it, names Ulf."""
        *before, last = item.split()
        is_name = last[:1].isupper() and last.casefold() not in self.many
        return last if is_name and before and before[-1].casefold() in self.many else ""

    def is_everybody(self, item: str) -> bool:
        plain = _plain(item)
        for phrase in self.everybody:
            if plain == phrase:
                return True
            if plain.startswith(f"{phrase} "):
                rest = WORD.findall(plain[len(phrase) :])
                return not rest or not (self.many | self.some) & set(rest)
        first, *rest = WORD.findall(plain) or [""]
        return first in self.all_of and all(word in self.guests for word in rest)


def _plain(item: str) -> str:
    return " ".join(item.casefold().split()).strip(" .!*:")


def _spoken(text: str) -> list[Words]:
    """The languages with most words of theirs in a text; more than one where they tie."""
    said = WORD.findall(text.casefold())
    votes = {name: _votes(words, said, text.casefold()) for name, words in LANGUAGES.items()}
    most = max(votes.values())
    return [LANGUAGES[name] for name in votes if votes[name] == most] if most else []


def _votes(words: Words, said: list[str], text: str) -> int:
    """What a word means weighs more than an "and", which languages share."""
    means = set(f"{words.many} {words.guests} {words.all_of}".split())
    phrases = [
        p for p in f"{words.couple}, {words.everybody}".split(", ") if " " in p or len(p) > 3
    ]
    found = sum(bool(re.search(rf"(?<!\w){re.escape(p)}(?!\w)", text)) for p in phrases)
    joins, some = words.joins.split(), words.some.split()
    return 6 * found + sum(6 * (w in means) + 2 * (w in joins) + (w in some) for w in said)


def _phrases(spoken: list[Words], name: str) -> set[str]:
    return {phrase.strip() for words in spoken for phrase in getattr(words, name).split(",")}


def _words(spoken: list[Words], name: str) -> set[str]:
    return {word for words in spoken for word in getattr(words, name).split()}
