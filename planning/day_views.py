"""The Day screen and what is done on it."""

from __future__ import annotations

from urllib.parse import quote, urlencode

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from intake.models import Wedding

from .brief import load_brief
from .compute.day import plan_wedding
from .day_acts import ActError, act
from .day_page import day_views


@require_http_methods(["GET", "HEAD", "POST"])
def day(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    if request.method != "POST":
        return _page(request, wedding)
    try:
        messages.success(request, act(wedding, request.POST))
    except ActError as error:
        messages.error(request, str(error))
        typed = {"day": request.POST.get("day"), "do": request.POST.get("do"), "form": error.form}
        return _page(request, wedding, typed)
    return redirect(f"{reverse('day', args=[public_id])}{_opened(request)}{_anchor(request.POST)}")


def _page(request: HttpRequest, wedding: Wedding, refused: dict | None = None) -> HttpResponse:
    plan = plan_wedding(load_brief(wedding))
    page = {
        "wedding": wedding,
        "screen": "day",
        "plan": plan,
        "days": day_views(wedding, plan, refused, request.GET.get("change", "")),
        "refused": bool(refused),
    }
    return render(request, "planning/day.html", page)


def _opened(request: HttpRequest) -> str:
    """The block whose boxes stay open: another one than was just settled."""
    key = request.GET.get("change", "")
    done = request.POST["do"] in {f"keep:{key}", f"usual:{key}"}
    return "" if done or not key else f"?{urlencode({'change': key})}"


def _anchor(data: dict) -> str:
    """Where on the page the pressed button was, for a reader without JavaScript."""
    verb, _colon, rest = data.get("do", "").partition(":")
    if verb in {"up", "down", "to", "back", "keep"}:
        return f"#row-{quote(rest.split(':')[0])}"
    return f"#day-{quote(data.get('day', ''))}"
