"""The owner's page on which a wedding is erased: what goes, what stays, and a word to be typed."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_http_methods

from intake.answers import errors_of
from intake.models import Wedding

from .erase_form import EraseForm
from .erasing import NotErasedError, erase, overwrite_deleted, survey
from .erasing_words import gone_lines, stays_lines


@require_http_methods(["GET", "HEAD", "POST"])
@cache_control(private=True, no_store=True)
def erase_wedding(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    form = EraseForm(request.POST if request.method == "POST" else None, wedding=wedding)
    if request.method == "POST" and form.is_valid():
        try:
            return _erased(request, wedding)
        except NotErasedError as error:
            form.add_error(None, str(error))
    found = survey(wedding)
    page = {"wedding": wedding, "form": form, "screen": "booking"}
    page |= {"errors": list(errors_of(form)) if form.is_bound else []}
    page |= {"goes": list(gone_lines(found)), "stays": list(stays_lines(found))}
    return render(request, "planning/erase.html", page)


def _erased(request: HttpRequest, wedding: Wedding) -> HttpResponse:
    found = erase(wedding)
    goes = " · ".join(gone_lines(found))
    messages.success(request, _("Erased: %(what)s.") % {"what": goes})
    messages.info(request, _("What stays: %(what)s") % {"what": " ".join(stays_lines(found))})
    if not overwrite_deleted():
        words = _("The file of the database could not be written anew: run “retention --erase”.")
        messages.warning(request, words)
    return redirect("season")
