"""The couple's page of the agreed summary: read on a phone, confirmed, or objected to.

It is a page of planning, since it compares with the plan; intake knows nothing of it but a link.
"""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import activate
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from intake.answers import errors_of
from intake.languages import is_offered, remember
from intake.links import holds_link, wedding_for_request
from intake.models import Wedding
from intake.rows import typed
from intake.views import couples_page

from .agreed_form import ReplyForm
from .agreements import NotDoneError, Standing, confirm, object_to, read, standing
from .meeting_models import MeetingPoint


@couples_page
@require_http_methods(["GET", "HEAD", "POST"])
def agreed(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    if request.method != "POST":
        return _page(request, wedding, ReplyForm())
    if request.POST.get("do", "").startswith("language-"):
        return _in_another_language(request, wedding)
    if not holds_link(request, wedding):
        messages.error(request, _("Only the couple can answer here, with their own link."))
        return redirect("agreed", public_id)
    return _reply(request, wedding)


def _in_another_language(request: HttpRequest, wedding: Wedding) -> HttpResponse:
    """The same page with what was typed still in it, with JS off too."""
    code = request.POST["do"].removeprefix("language-")
    if not is_offered(code):
        return redirect("agreed", wedding.public_id)
    activate(code)
    page = _page(request, wedding, ReplyForm(typed_before=typed(request.POST, [])))
    return remember(page, wedding.public_id, code)


def _reply(request: HttpRequest, wedding: Wedding) -> HttpResponse:
    form = ReplyForm(typed(request.POST, []), wedding.agreements.first())
    if not form.is_valid():
        return _page(request, wedding, form)
    data = form.cleaned_data
    try:
        if form.confirms:
            done = confirm(wedding, data["number"], data["name"])
            messages.success(request, _("Confirmed by %(name)s.") % {"name": done.confirmed_by})
        else:
            object_to(wedding, data["number"], data["key"], data["text"])
            messages.success(request, _("Sent. Your photographer reads it before you meet again."))
    except NotDoneError as error:
        form.add_error(None, str(error))
        return _page(request, wedding, form)
    return redirect("agreed", wedding.public_id)


def _page(request: HttpRequest, wedding: Wedding, form: ReplyForm) -> HttpResponse:
    stands: Standing | None = standing(wedding) if wedding.agreements.exists() else None
    page = {
        "wedding": wedding,
        "stands": stands,
        "said": read(stands.shared) if stands else None,
        "reply": form,
        "errors": list(errors_of(form)) if form.is_bound else [],
        "can_reply": holds_link(request, wedding),
        "told": wedding.meeting_points.filter(by=MeetingPoint.By.COUPLE),
    }
    return render(request, "intake/agreed.html", page)
