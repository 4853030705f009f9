"""One step of the questionnaire: shown, written down as a draft, or kept."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse, QueryDict
from django.shortcuts import redirect, render
from django.utils.text import Truncator
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from .answers import Answers, forget_kept
from .drafts import Sheet, draft_data, put, sheet_for, sheet_from, sheets_of
from .known_names import known_names
from .languages import remember
from .links import device_of, wedding_for_request
from .models import Wedding, new_key
from .not_asked import is_asked
from .rows import with_one_more
from .sizes import typed_sizes
from .steps import BY_SLUG, MORE_STEP, Step
from .views import couples_page

MOST_SAID = 500  # characters of names in one message
WAYS_BACK = {"read-through": "read_through", "answers": "answers", "meeting": "meeting"}


@couples_page
@require_http_methods(["GET", "HEAD", "POST"])
def step(request: HttpRequest, public_id: str, slug: str) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    if slug not in BY_SLUG:
        raise Http404("step")
    this = BY_SLUG[slug]
    if request.method != "POST":
        return _show(request, wedding, this)
    do = request.POST.get("do", "save")
    adding = next((p.prefix for p in this.parts if p.add and do == f"add-{p.prefix}"), None)
    if adding:
        return _add_row(request, wedding, this, adding)
    if do == "forget":
        lay_down(request, Answers(this, wedding, request.POST), keep=False)
        return redirect(request.get_full_path())
    if do in ("draft", "paste") or do.startswith("language-"):
        return _set_aside(request, wedding, this, do)
    return _keep(request, wedding, this)


def _set_aside(request: HttpRequest, wedding: Wedding, this: Step, do: str) -> HttpResponse:
    """What is typed stays as a draft, with JS off too, and the browser goes on."""
    answers = Answers(this, wedding, request.POST)
    lay_down(request, answers, keep=answers.is_news())
    if do == "draft":  # sent by the page itself while somebody types
        return JsonResponse({"draft": answers.is_news()})
    if do == "paste" and this.slug == "groups":
        return redirect("paste", wedding.public_id)
    here = redirect(f"{request.path}{_way_back(request)}")
    return remember(here, wedding.public_id, do.removeprefix("language-"))


def lay_down(request: HttpRequest, answers: Answers, keep: bool = True) -> Sheet:
    """Write a page's typing down, or take it away."""
    sheet = sheet_from(request.POST, answers.posted, device_of(request))
    put(answers.wedding, answers.step.slug, sheet, request.POST.get("showed", ""), keep)
    return sheet


def _keep(request: HttpRequest, wedding: Wedding, this: Step) -> HttpResponse:
    answers = Answers(this, wedding, request.POST)
    errors = answers.errors()
    if errors:  # hundreds of rows that cannot be kept make nobody else wait
        shown = lay_down(request, answers)
    else:
        with transaction.atomic():  # a partner who keeps the same step waits here
            wedding = Wedding.objects.select_for_update().get(pk=wedding.pk)
            answers = Answers(this, wedding, request.POST)
            errors = answers.errors()
            shown = lay_down(request, answers, keep=bool(errors))
            if not errors:
                answers.save()
    if errors:  # drawn when the others may write again
        return render_step(request, wedding, this, answers, errors=errors, shown=shown)
    forget_kept(this, wedding)
    text = _("Kept: %(step)s.") % {"step": this.title}
    messages.success(request, text, extra_tags=f"kept-{shown.key}")  # read by unsent.js
    if taken := answers.taken():
        text = _("Kept as it was changed on another phone or computer meanwhile: %(what)s.")
        messages.info(request, text % {"what": _in_short(taken)})
    if back := answers.brought_back():
        text = _("Removed elsewhere meanwhile, and kept because you changed it: %(what)s.")
        messages.info(request, text % {"what": _in_short(back)})
    return redirect(WAYS_BACK.get(request.GET.get("from", ""), "steps"), wedding.public_id)


def _in_short(names: list[str]) -> str:
    """So that it goes in a cookie: what is longer waits in the database until it is read."""
    return Truncator(", ".join(names)).chars(MOST_SAID)


def _show(request: HttpRequest, wedding: Wedding, this: Step) -> HttpResponse:
    sheets = sheets_of(wedding.steps.filter(slug=this.slug).first())
    device, wanted = device_of(request), request.GET.get("sheet", "")
    sheet = sheet_for(sheets, device, wanted)
    if sheet is None:
        return render_step(request, wedding, this, Answers(this, wedding), others=sheets)
    return render_step(
        request,
        wedding,
        this,
        Answers(this, wedding, draft_data(sheet.typed)).quiet(),
        sheet=sheet,
        is_own=sheet.by in ("", device),
        others=[other for other in sheets if other is not sheet],
        shown=sheet,
    )


def _add_row(request: HttpRequest, wedding: Wedding, this: Step, prefix: str) -> HttpResponse:
    data: QueryDict = with_one_more(request.POST, prefix)
    lay_down(request, Answers(this, wedding, data))
    row = int(data[f"{prefix}-TOTAL_FORMS"]) - 1
    return redirect(f"{request.path}{_way_back(request)}#row-{prefix}-{row}")


def _way_back(request: HttpRequest) -> str:
    back = request.GET.get("from", "")
    return f"?from={back}" if back in WAYS_BACK else ""


def render_step(
    request: HttpRequest, wedding: Wedding, this: Step, answers: Answers, **context: Any
) -> HttpResponse:
    page = {"wedding": wedding, "step": this, "answers": answers, "sizes": typed_sizes(answers)}
    if this.slug in ("groups", "care"):
        page["names"] = known_names(wedding, answers)
    page["listed"] = this is MORE_STEP or is_asked(wedding, f"step.{this.slug}")
    page |= {"new_sheet": new_key(), "way_back": _way_back(request)}
    return render(request, "intake/step.html", page | context)
