"""A list of groups pasted as text: shown as rows to look at, never kept unseen."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from .answers import Answers
from .drafts import Sheet, draft_data, sheet_for, sheets_of
from .links import device_of, wedding_for_request
from .models import Wedding, new_key
from .pasted import Pasted, PastedGroup, read_groups
from .rows import MOST_ROWS
from .step_views import lay_down, render_step
from .steps import BY_SLUG
from .views import couples_page

STEP = BY_SLUG["groups"]
MOST_TEXT = 40_000
ANSWERS = ("title", "people", "extra", "everyone", "was")


@couples_page
@require_http_methods(["GET", "HEAD", "POST"])
def paste(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    text = request.POST.get("text", "")
    sheets = sheets_of(wedding.steps.filter(slug=STEP.slug).first())
    sheet = sheet_for(sheets, device_of(request))
    pasted = read_groups(text[:MOST_TEXT], tuple(p.short for p in wedding.partners.all()))
    errors = _errors(text, pasted) if request.method == "POST" else []
    if request.method != "POST" or errors:
        page = {"wedding": wedding, "step": STEP, "text": text, "errors": errors}
        page |= {"new_sheet": new_key(), "shown": sheet}
        return render(request, "intake/paste.html", page)
    data = _rows_before(wedding, sheet)
    for group in pasted.groups[:MOST_ROWS]:
        _append(data, group)
    left_out = pasted.left_out + [group.title for group in pasted.groups[MOST_ROWS:]]
    answers = Answers(STEP, wedding, data)
    shown = lay_down(request, answers)
    pasted_page = {"pasted": len(pasted.groups[:MOST_ROWS]), "left_out": left_out}
    return render_step(
        request, wedding, STEP, answers.quiet(), sheet=shown, shown=shown, **pasted_page
    )


def _errors(text: str, pasted: Pasted) -> list[tuple[str, str]]:
    if len(text) > MOST_TEXT:
        words = _("Paste it in parts: this is longer than %(most)s characters.")
        return [("id_text", words % {"most": MOST_TEXT})]
    return [] if pasted.groups else [("id_text", _("Paste your list here, one group a line."))]


def _rows_before(wedding: Wedding, sheet: Sheet | None) -> QueryDict:
    """What the step holds already, typed or kept, without rows that say nothing."""
    data = Answers(STEP, wedding, draft_data(sheet.typed if sheet else {})).data
    for number in range(int(data["groups-TOTAL_FORMS"])):
        row = f"groups-{number}-"
        if not any(data.get(row + name, "").strip() for name in ANSWERS):
            for name in [name for name in data if name.startswith(row)]:
                del data[name]
    return Answers(STEP, wedding, data).data


def _append(data: QueryDict, group: PastedGroup) -> None:
    number = int(data["groups-TOTAL_FORMS"])
    row = {
        "key": new_key(),
        "title": group.title,
        "people": "\n".join(group.people),
        "wish": "must",
    }
    row |= {"extra": str(group.extra or "")} | ({"everyone": "on"} if group.everyone else {})
    for name, value in row.items():
        data[f"groups-{number}-{name}"] = value
    data["groups-TOTAL_FORMS"] = str(number + 1)
