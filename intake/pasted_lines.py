"""The layout of a pasted list: which lines are groups, which belong to one, which are neither."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from .pasted_speech import Speech
from .pasted_words import AFTER_GOODBYES, BEFORE_GOODBYES, COLUMNS, GOODBYES, GREETINGS

BULLET = r"[-*•◦▪▫‣⁃–—·●○■□►▸➤➢→✓✔✗☐☑✅❤♥>»]️?"
BOX = r"\[[ xX]?\]"
ORDINAL = r"\(?\d{1,2}[.):]|\d{1,2}️?⃣|#\d{1,2}[.:]?|\(?[a-z][.)]|[A-Z]\)"
MARK = re.compile(rf"(?:(?:{BULLET}|{BOX})\s*|(?:{ORDINAL})(?:\s+|(?=[^\W\d])))+")
RULE = re.compile(r"[\W_]*")
HEAD = re.compile(r"#{1,6}\s+|\*\*(?=.*\*\*:?$)|=+\s*(?=.*=$)|_(?=.*_$)")
SPLIT = re.compile(r"\s*(?::|=)\s+|\s*:$|\s+(?:->|=>|→|[-–—|])\s+")


@dataclass
class Line:
    text: str
    depth: int = 0
    is_marked: bool = False  # with a bullet or a number
    is_head: bool = False  # with the marks of a heading
    after_gap: bool = False
    cells: tuple[str, ...] = ()
    members: list[Line] = field(default_factory=list)


def read_lines(text: str) -> list[Line]:
    lines, gap = [], True
    for raw in _broken(text):
        if RULE.fullmatch(raw):
            gap = True
            continue
        lines.append(_line(raw, gap))
        gap = False
    return _without_figures(lines)


def _broken(text: str) -> list[str]:
    """The lines of a text; a list that lost its line breaks gets them back."""
    lines = text.splitlines()
    if sum(bool(line.strip()) for line in lines) == 1:
        (only,) = (line for line in lines if line.strip())
        if len(re.findall(r"(?:^|\s)\d{1,2}[.)]\s", only)) > 1:
            return re.split(r"\s+(?=\d{1,2}[.)]\s)", only)
        parts = only.split(";")
        if sum(":" in part for part in parts) > 1:
            return parts
    return lines


def _line(raw: str, gap: bool) -> Line:
    raw = raw.replace("\xa0", " ").rstrip()
    body = re.sub(r"[^\S\t]+", " ", raw.lstrip(" \t"))
    depth = len(raw[: len(raw) - len(body)].expandtabs(4))
    head = HEAD.match(body)
    if head:
        body = body[head.end() :].rstrip("*=_ ").rstrip(":").rstrip("*")
    mark = None if head else MARK.match(body)
    text = body[mark.end() :] if mark else body
    cells = tuple(cell.strip() for cell in text.split("\t")) if "\t" in text else ()
    return Line(text.strip(), depth, bool(mark), bool(head), gap, cells)


def _without_figures(lines: list[Line]) -> list[Line]:
    """ "1 Parents", "2 Cousins": figures that count the lines and not people."""
    first = [re.match(r"(\d{1,2})\s+(?=\D)", line.text) for line in lines]
    figures = [int(found[1]) for found in first if found]
    if (
        len(figures) > 1
        and len(figures) == len(lines)
        and figures == list(range(1, len(lines) + 1))
    ):
        for line, found in zip(lines, first, strict=True):
            line.text = line.text[found.end() :]
            line.cells = line.cells and tuple(line.text.split("\t"))
    return lines


def title_and_people(text: str) -> tuple[str, str]:
    """ "Parents: Maria, Jon" in two; one dash in a line stands for the colon, two do not."""
    found = SPLIT.search(text)
    if not found or (":" not in found[0] and "=" not in found[0] and len(SPLIT.findall(text)) > 1):
        return text, ""
    return text[: found.start()].strip(), text[found.end() :].strip()


def is_chatter(line: Line, speech: Speech, first: bool) -> bool:
    """A greeting, thanks, or what stands above a list."""
    words = re.findall(r"[^\W\d_]+", line.text.casefold())
    if not words:
        return True
    if first and words[0] in GREETINGS.split() and re.search(r"[!,.:]$|,.*\w", line.text):
        return True
    if not first and _is_goodbye(words):
        return True
    if len(words) > 14 and not re.search(r"[,+&:]", line.text):
        return True
    title, people = title_and_people(line.text)
    return not people and is_heading_words(title, speech)


def _is_goodbye(words: list[str]) -> bool:
    phrase = words[0] in BEFORE_GOODBYES.split() and bool(set(words) & set(AFTER_GOODBYES.split()))
    return len(words) < 9 and (phrase or words[0] in GOODBYES.split())


def is_heading_words(title: str, speech: Speech) -> bool:
    """ "Group photos", "Our list": not who is in a photograph."""
    words = set(re.findall(r"[^\W\d_]+(?:['’][^\W\d_]+)*", title.casefold()))
    return bool(words & speech.heads) and not words & speech.many - {"family", "familien"}


def is_column_heads(cells: tuple[str, ...]) -> bool:
    words = [word for cell in cells for word in re.findall(r"[\w#]+", cell.casefold())]
    return bool(words) and all(word in COLUMNS.split() for word in words)
