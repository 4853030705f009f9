"""The day on the photographer's own phone."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils.cache import patch_cache_control
from django.views.decorators.http import require_safe

from intake.models import Wedding
from studio.kept_style import SECONDS

from .paper.part import NOBODY
from .paper.subject import subject_of
from .phone_page import phone_page, seen_at


@require_safe
def phone(request: HttpRequest, public_id: str) -> HttpResponse:
    """Kept by the browser only where the photographer asks for it, so that it opens in a cellar."""
    wedding = get_object_or_404(Wedding, public_id=public_id)
    subject = subject_of(wedding)
    kept = "kept" in request.GET
    page = {
        "wedding": wedding,
        "brief": subject.brief,
        "phone": phone_page(subject, "day-pack", NOBODY),
        "mark": subject.mark,
        "at": seen_at(subject),
        "kept": kept,
    }
    response = render(request, "planning/phone.html", page)
    if kept:
        patch_cache_control(response, private=True, max_age=SECONDS)
    return response
