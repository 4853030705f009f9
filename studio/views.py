"""Pages that stand before or beside the work: what went wrong, and what to do."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render


def form_too_old(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Django's CSRF refusal in words that help: what was typed is still in the other page."""
    return render(request, "too_old.html", status=403)
