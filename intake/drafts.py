"""What was typed and not kept yet: one sheet for each page opened, so that none overwrites another.

A page sends its whole form under a sheet key of its own. `StepState.draft` holds the sheets of a
step; where it was written as plain fields, by hand or by an earlier version, it is one sheet that
belongs to nobody.
"""

from __future__ import annotations

import re
from dataclasses import asdict, dataclass
from datetime import datetime
from itertools import accumulate

from django.db import transaction
from django.http import QueryDict
from django.utils import timezone

from .merging import mark
from .models import StepState, Wedding

NOT_TYPED = {"csrfmiddlewaretoken", "do", "sheet", "showed", "turn"}
KEY = re.compile(r"[0-9a-zA-Z]{1,40}")
# Of one step, whoever has the link: more than two people leave open, and no way to fill the disk.
MOST_SHEETS = 12
MOST_TYPED = 3_000_000  # characters, in all of them


@dataclass(frozen=True)
class Sheet:
    """`by` is the device it was typed on; `turn` rises with every sending of one page."""

    key: str
    typed: dict[str, list[str]]
    by: str = ""
    turn: int = 0
    at: str = ""  # ISO 8601, UTC

    @property
    def mark(self) -> str:
        return f"{self.key}.{mark(self.typed)}"

    @property
    def when(self) -> datetime | None:
        return datetime.fromisoformat(self.at) if self.at else None


def sheets_of(state: StepState | None) -> list[Sheet]:
    """The sheets of a step, the newest first: as they were put, whatever the clock said then."""
    draft = (state and state.draft) or {}
    if not draft:
        return []
    if "sheets" not in draft:
        return [Sheet("first", draft)]
    return [Sheet(**each) for each in draft["sheets"]]


def sheet_for(sheets: list[Sheet], device: str, wanted: str = "") -> Sheet | None:
    """The sheet asked for, else the newest typed on this device, else the newest of all."""
    if wanted:
        return next((sheet for sheet in sheets if sheet.key == wanted), None)
    own = (sheet for sheet in sheets if sheet.by in ("", device))
    return next(own, sheets[0] if sheets else None)


def sheet_from(data: QueryDict, typed: QueryDict, device: str) -> Sheet:
    """What a page sent. Without a key of its own it writes on its device's one sheet."""
    key, turn = data.get("sheet", ""), data.get("turn", "")
    return Sheet(
        key if KEY.fullmatch(key) else f"d{device}",
        {name: values for name, values in typed.lists() if name not in NOT_TYPED},
        by=device,
        turn=int(turn) if turn.isascii() and turn.isdigit() and len(turn) < 16 else 0,
        at=timezone.now().isoformat(),
    )


@transaction.atomic
def put(wedding: Wedding, slug: str, sheet: Sheet, showed: str, keep: bool = True) -> None:
    """Lay a sheet down, or take it away, with the one that its page had shown.

    A sheet that went on elsewhere since stays, and so does a later turn of the same page.
    """
    if keep:
        StepState.objects.get_or_create(wedding=wedding, slug=slug)
    state = StepState.objects.select_for_update().filter(wedding=wedding, slug=slug).first()
    before = sheets_of(state)
    late = any(each.key == sheet.key and each.turn > sheet.turn for each in before)
    if late or not (keep or before):
        return
    rest = [each for each in before if each.key != sheet.key and each.mark != showed]
    write(state, _newest([sheet, *rest]) if keep else rest)


def _newest(sheets: list[Sheet]) -> list[Sheet]:
    """As many of the first as a step holds, and always the first."""
    sizes = accumulate(len(str(sheet.typed)) for sheet in sheets)
    fit = sum(size <= MOST_TYPED for size in sizes)
    return sheets[: min(max(fit, 1), MOST_SHEETS)]


@transaction.atomic
def take_away(wedding: Wedding, slug: str, marks: set[str]) -> None:
    """The sheets with these marks; one that went on since has another and stays."""
    state = StepState.objects.select_for_update().get(wedding=wedding, slug=slug)
    write(state, [sheet for sheet in sheets_of(state) if sheet.mark not in marks])


def write(state: StepState, sheets: list[Sheet]) -> None:
    state.draft = {"sheets": [asdict(sheet) for sheet in sheets]} if sheets else None
    state.save(update_fields=["draft"])


def draft_data(draft: dict[str, list[str]]) -> QueryDict:
    data = QueryDict(mutable=True)
    for name, values in draft.items():
        data.setlist(name, values)
    return data
