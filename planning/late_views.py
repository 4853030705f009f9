"""How late are we?"""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils.timezone import now
from django.views.decorators.http import require_safe

from intake.models import Wedding

from .brief import load_brief
from .late_page import late_page


@require_safe
def late(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    brief = load_brief(wedding)
    page = {
        "wedding": wedding,
        "zone": brief.zone,
        "late": late_page(brief, request.GET, now()),
    }
    return render(request, "planning/late.html", page)
