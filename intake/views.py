"""What the couple see: their list of steps, one step, and everything read through."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_http_methods, require_safe

from .answers import Answers, draft_data
from .links import give_cookie, wedding_for_request, wedding_for_token
from .models import Wedding
from .progress import progress
from .read_through import read_steps
from .rows import with_one_more
from .sizes import kept_sizes, typed_sizes
from .steps import BY_SLUG, STEPS, Step

Page = Callable[..., HttpResponse]
WAYS_BACK = {"read-through": "read_through", "answers": "answers"}


def couples_page(view: Page) -> Page:
    """Open to whoever holds the link: never stored, and a calm page where nothing opens."""

    @wraps(view)
    def opened(request: HttpRequest, public_id: str, **kwargs: Any) -> HttpResponse:
        try:
            return view(request, public_id, **kwargs)
        except Http404:
            return render(request, "intake/wrong_link.html", status=404)

    return login_not_required(cache_control(private=True, no_store=True)(opened))


@couples_page
@require_safe
def open_link(request: HttpRequest, public_id: str, token: str) -> HttpResponse:
    """Trade the link for a cookie and go on to an address that holds no secret.

    Who is in already needs no whole link.
    """
    try:
        wedding = wedding_for_token(public_id, token)
    except Http404:
        wedding_for_request(request, public_id)
        return redirect("steps", public_id)
    return give_cookie(redirect("steps", public_id), wedding)


@couples_page
@require_safe
def steps(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    page = {"wedding": wedding, "progress": progress(wedding), "sizes": kept_sizes(wedding)}
    return render(request, "intake/steps.html", page)


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
    if do == "draft":  # sent by the page itself when it is left without "Keep"
        Answers(this, wedding, request.POST).keep_draft()
        return HttpResponse(status=204)
    if do == "forget":
        Answers(this, wedding, request.POST).forget_draft()
        return redirect(request.get_full_path())
    return _keep(request, wedding, this)


def _keep(request: HttpRequest, wedding: Wedding, this: Step) -> HttpResponse:
    with transaction.atomic():  # on SQLite a partner who keeps the same step waits here
        answers = Answers(this, wedding, request.POST)
        errors = answers.errors()
        answers.keep_draft() if errors else answers.save()
    if errors:  # drawn when the others may write again
        return _render(request, wedding, this, answers, errors=errors)
    messages.success(request, _("Kept: %(step)s.") % {"step": this.title})
    return redirect(WAYS_BACK.get(request.GET.get("from", ""), "steps"), wedding.public_id)


def _show(request: HttpRequest, wedding: Wedding, this: Step) -> HttpResponse:
    state = wedding.steps.filter(slug=this.slug).first()
    if state and state.draft:
        answers = Answers(this, wedding, draft_data(state.draft)).quiet()
        return _render(request, wedding, this, answers, is_draft=True)
    return _render(request, wedding, this, Answers(this, wedding))


def _add_row(request: HttpRequest, wedding: Wedding, this: Step, prefix: str) -> HttpResponse:
    data: QueryDict = with_one_more(request.POST, prefix)
    Answers(this, wedding, data).keep_draft()
    row = int(data[f"{prefix}-TOTAL_FORMS"]) - 1
    return redirect(f"{request.get_full_path()}#row-{prefix}-{row}")


def _render(
    request: HttpRequest, wedding: Wedding, this: Step, answers: Answers, **context: Any
) -> HttpResponse:
    number = STEPS.index(this) + 1
    page = {"wedding": wedding, "step": this, "number": number, "count": len(STEPS)}
    page |= {"answers": answers, "sizes": typed_sizes(answers)}
    return render(request, "intake/step.html", page | context)


@couples_page
@require_http_methods(["GET", "HEAD", "POST"])
def read_through(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    marks = progress(wedding)
    drafts = [each.step for each in marks if each.mark == "draft"]
    if request.method == "POST" and not drafts:
        Wedding.objects.filter(pk=wedding.pk).update(sent_at=timezone.now())
        messages.success(request, _("Sent. Thank you, we look forward to reading it."))
        return redirect(reverse("steps", args=[public_id]))
    page = {
        "wedding": wedding,
        "steps": read_steps(wedding),
        "progress": marks,
        "drafts": drafts,
        "refused": request.method == "POST",
        "not_ready": any(each.mark != "done" for each in marks),
    }
    return render(request, "intake/read_through.html", page)
