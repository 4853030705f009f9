"""Ready: what must be true by when, ticked off by whoever did it."""

from __future__ import annotations

from urllib.parse import quote

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from intake.models import Wedding
from intake.rows import typed
from studio.models import Studio

from .due_page import due_page
from .ready_acts import act
from .ready_page import ready_page

TEMPLATE = "planning/ready.html"


@require_http_methods(["GET", "HEAD", "POST"])
def ready(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    now = timezone.now()
    if request.method != "POST":
        return render(request, TEMPLATE, ready_page(wedding, now))
    data = typed(request.POST, [])
    if data.get("do", "") in {"explain", "hush"}:
        explain(data["do"] == "explain")
        return redirect("ready", public_id)
    done = act(wedding, data, request.user, now)
    if done.said:
        messages.success(request, done.said)
    if done.refused:
        messages.error(request, done.refused)
    if done.notes or done.errors:  # nothing that was typed beside another line is lost
        if done.notes and not done.errors:
            messages.info(request, _("A note is typed and not kept yet: press a button beside it."))
        return render(request, TEMPLATE, ready_page(wedding, now, done.notes, done.errors))
    where = f"#{quote(f'line-{done.anchor}')}" if done.anchor else ""
    return redirect(f"{reverse('ready', args=[public_id])}{where}")


def explain(on: bool) -> None:
    """The studio's first-time mode, on every list."""
    studio = Studio.get()
    studio.explains = on
    studio.save(update_fields=["explains"] if studio.pk else None)


@require_safe
def due(request: HttpRequest) -> HttpResponse:
    """What is due next across all weddings."""
    return render(request, "planning/due.html", due_page(timezone.now()))
