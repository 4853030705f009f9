"""Typed text becomes names, one a line."""

import re
import unicodedata

NUMBERED = re.compile(r"^\W*\d+[.)]\s+")  # "1. Ana", but not "2 cousins"
BETWEEN = re.compile(r"[,;،、，；]")


def split_names(text: str) -> list[str]:
    """The names in a text, one a line, tidied; the order and the spelling stay as typed.

    A line with commas is a list as well: people type "Mum, Dad, Gran".
    """
    pieces = (piece for line in text.splitlines() for piece in BETWEEN.split(line))
    return [name for piece in pieces if (name := tidy(piece))]


def tidy(name: str) -> str:
    """Fold white space and take off list marks; "" where no letter or figure is left.

    Right-to-left marks and the joiners inside emoji and some scripts stay: they are spelling.
    """
    folded = NUMBERED.sub("", " ".join(name.split())).strip(" ,;.•*–—-")
    return folded if any(unicodedata.category(c)[0] in "LNS" for c in folded) else ""
