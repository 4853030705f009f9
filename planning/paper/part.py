"""What a part of a paper is: a row of the table in parts.py."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from .subject import Reader, Subject

Build = Callable[[Subject, Reader], dict[str, Any]]
NOBODY = Reader("", "")


def always(subject: Subject) -> bool:
    return True


@dataclass(frozen=True)
class Part:
    """`template` sees what `build` gives, the size of the paper, and nothing else.

    `sheets` are the keys of the papers on which the part stands; `needs` says whether there is
    anything to print, and `lacks` what is missing where there is not. A `fresh` part begins a page;
    all others follow the one before where they fit.
    """

    key: str
    title: Any
    template: str
    sheets: frozenset[str]
    build: Build
    needs: Callable[[Subject], bool] = always
    lacks: Any = ""
    fresh: bool = False
