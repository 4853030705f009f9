"""Free text, as couples send it, becomes groups to look at. Pure; saves and decides nothing.

One group a line, unless the layout says that lines belong together. What is no group is handed
back beside the groups, so that no line vanishes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from .pasted_lines import Line, is_chatter, is_column_heads, read_lines, title_and_people
from .pasted_people import Crowd, Reader
from .pasted_speech import Speech

LONGEST_TITLE = 80
MOST = 120  # characters that a title holds


@dataclass(frozen=True)
class PastedGroup:
    """`extra` people nobody named; with `everyone`, how many they are altogether."""

    title: str
    people: tuple[str, ...] = ()
    extra: int = 0
    everyone: bool = False


@dataclass
class Pasted:
    groups: list[PastedGroup] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)


def read_groups(text: str, couple: tuple[str, ...]) -> Pasted:
    """The groups in `text`; `couple` is what "us" stands for, the partners' names."""
    speech = Speech(text)
    reader, pasted = Reader(speech, couple), Pasted()
    lines: list[Line] = []
    gap = True
    for line in read_lines(text):
        if is_chatter(line, speech, first=not lines) or is_column_heads(line.cells):
            pasted.left_out.append(line.text)
            gap = True
        else:
            line.after_gap |= gap
            lines.append(line)
            gap = False
    for section, line in _gathered(lines, speech):
        if group := _group(reader, section, line):
            pasted.groups.append(group)
        if not group or len(group.title) == MOST:
            pasted.left_out.append(line.text)
    return pasted


def _gathered(lines: list[Line], speech: Speech) -> Iterator[tuple[str, Line]]:
    """Each group's line with the section it stands under; lines of names go to their group."""
    section, is_head, number = "", False, 0
    in_blocks = _is_in_blocks(lines, speech)
    while number < len(lines):
        line = lines[number]
        below = _below(lines, number, in_blocks)
        if below and not _are_groups(below, speech):
            line.members = below
            number += len(below)
        elif below or _heads(lines, number):
            section, is_head = line.text.rstrip(": "), line.is_head
            number += 1
            continue
        elif line.after_gap and not (line.depth or line.is_marked or is_head):
            section = ""
        yield section, line
        number += 1


def _heads(lines: list[Line], number: int) -> bool:
    return lines[number].is_head and number + 1 < len(lines) and not lines[number + 1].is_head


def _below(lines: list[Line], number: int, in_blocks: bool) -> list[Line]:
    """The lines that stand under one: indented, bulleted, or up to the next gap."""
    line, below = lines[number], []
    opens = not title_and_people(line.text)[1] and not line.cells
    colon = line.text.endswith(":")
    for each in lines[number + 1 :]:
        deeper = each.depth > line.depth or (each.is_marked and not line.is_marked)
        loose = (colon or in_blocks or line.is_head) and not each.text.endswith(":")
        if not opens or each.is_head or not (deeper or (loose and not each.after_gap)):
            break
        if each.after_gap and not deeper:
            break
        below.append(each)
    return below


def _are_groups(lines: list[Line], speech: Speech) -> bool:
    def is_group(line: Line) -> bool:
        items = speech.items(line.text)
        return (
            bool(title_and_people(line.text)[1] or line.cells)
            or any(speech.is_us(item) or speech.is_everybody(item) for item in items)
            or any(speech.is_many(item) for item in items)
        )

    return any(is_group(line) for line in lines)


def _is_in_blocks(lines: list[Line], speech: Speech) -> bool:
    """A title and its names, a gap, the next title: at least two such blocks, and nothing else."""
    if not lines:
        return False
    starts = [number for number, line in enumerate(lines) if line.after_gap]
    blocks = [lines[a:b] for a, b in zip(starts, [*starts[1:], len(lines)], strict=True)]
    return len(blocks) > 1 and all(
        len(block) > 1
        and not any(len(speech.items(line.text)) > 1 or line.is_marked for line in block[1:])
        and not _are_groups(block[1:], speech)
        for block in blocks
    )


def _group(reader: Reader, section: str, line: Line) -> PastedGroup | None:
    title, people, total = _parts(line)
    people = "\n".join([people, *(each.text for each in line.members)]).strip()
    crowd = reader.crowd(title, people, total)
    title = _title(crowd) or ", ".join(crowd.people[:3])
    if not title:
        return None
    if section:
        title = f"{section}: {title}"
    if len(title) > MOST:
        title = f"{title[: MOST - 1]}…"
    return PastedGroup(title, tuple(crowd.people), crowd.extra, crowd.everyone)


def _parts(line: Line) -> tuple[str, str, int]:
    """The title, the people, and how many altogether; a row of a spreadsheet has them in cells."""
    if not line.cells:
        return *title_and_people(line.text.rstrip(": ")), 0
    cells = [cell for cell in line.cells if cell]
    if len(cells) > 2 and cells[0].isdigit():
        cells = cells[1:]
    total = next((int(cell) for cell in cells[1:] if cell.isdigit() and len(cell) < 4), 0)
    people = [cell for cell in cells[1:] if not cell.isdigit()]
    return cells[0], "\n".join(people), total


def _title(crowd: Crowd) -> str:
    """A title that is no more than a long list of names is cut where a name ends."""
    title = " ".join(crowd.title.split()).strip(" ,;:-–—+&")
    if len(title) <= LONGEST_TITLE or not crowd.people:
        return title
    cut = title[:LONGEST_TITLE]
    end = max(cut.rfind(mark) for mark in ",;+&")
    return f"{cut[:end].rstrip() if end > 0 else cut} …"
