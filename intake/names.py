"""Typed text becomes names, one a line."""

import unicodedata


def split_names(text: str) -> list[str]:
    """The names in a text, one a line, tidied; the order and the spelling stay as typed."""
    return [name for line in text.splitlines() if (name := tidy(line))]


def tidy(name: str) -> str:
    """Fold white space and take off list marks; "" where no letter or figure is left.

    Right-to-left marks and the joiners inside emoji and some scripts stay: they are spelling.
    """
    folded = " ".join(name.split()).strip(" ,;.•*–—-")
    return folded if any(unicodedata.category(c)[0] in "LNS" for c in folded) else ""
