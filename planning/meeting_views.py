"""The Meeting: the answers walked through, what is open, and the summary that is shared."""

from __future__ import annotations

from urllib.parse import quote

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from intake.models import Wedding

from .meeting_acts import act
from .meeting_page import meeting_page
from .meeting_sheet import Sheet


@require_http_methods(["GET", "HEAD", "POST"])
def meeting(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    if request.method != "POST":
        return render(request, "planning/meeting.html", meeting_page(wedding, Sheet(wedding)))
    done = act(wedding, request.POST)
    if done.errors:
        page = meeting_page(wedding, done.sheet) | {"errors": done.errors}
        return render(request, "planning/meeting.html", page)
    for words in done.said:
        messages.success(request, words)
    if done.refused:
        messages.error(request, done.refused)
    return redirect(f"{reverse('meeting', args=[public_id])}#{quote(done.anchor)}")
