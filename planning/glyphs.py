"""Which letters our printed fonts cannot draw: to be said before printing, not found on paper."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any

from django.conf import settings
from fontTools.ttLib import TTFont

INVISIBLE = {"Cf", "Cc", "Zs", "Zl", "Zp"}
EMOJI_STYLE = "\ufe0e\ufe0f"  # say how the sign before them is drawn, and are not drawn themselves


@cache
def drawable() -> frozenset[int]:
    with TTFont(settings.BASE_DIR / "static" / "fonts" / "SourceSans3-Regular.ttf") as font:
        return frozenset(font.getBestCmap())


def undrawable(text: str) -> str:
    """The letters of a text that would be printed in another font, or as boxes."""
    composed = unicodedata.normalize("NFC", text)
    letters = dict.fromkeys(
        c for c in composed if ord(c) not in drawable() and c not in EMOJI_STYLE
    )
    return "".join(filter(is_seen, letters))


def is_seen(text: str) -> bool:
    """Whether any of it leaves a trace on a page."""
    return any(unicodedata.category(c) not in INVISIBLE for c in text)


def undrawable_texts(brief: Any) -> list[str]:
    """Every text of a brief that holds such letters."""
    return list(dict.fromkeys(text for text in _texts(brief) if undrawable(text)))


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif is_dataclass(value):
        for field in fields(value):
            yield from _texts(getattr(value, field.name))
    elif isinstance(value, tuple | frozenset):
        for each in value:
            yield from _texts(each)
