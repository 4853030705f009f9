"""A couple's own copy of all that they entered: a PDF to read, and JSON for a program.

Both open to whoever holds their link, and to the photographer, who may have to send them on.
"""

from __future__ import annotations

import json

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from intake.links import wedding_for_request
from intake.models import Wedding
from intake.views import couples_page
from studio.turns import BusyError, Turns

from .paper.refusal import CANNOT
from .paper.sheets import BY_KEY
from .paper.subject import subject_of
from .pdf import paper_pdf
from .their_words import their_words

DRAWING = Turns(3, each=1)  # the photographer's papers are drawn beside these


@couples_page
@require_safe
def words_json(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    text = json.dumps(their_words(wedding), ensure_ascii=False, indent=1)
    return _saved(text.encode(), "application/json", wedding, "json")


@couples_page
@require_safe
def words_pdf(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    try:
        with DRAWING.one(public_id):
            pdf = paper_pdf(subject_of(wedding), BY_KEY["their-words"])
    except (*CANNOT, BusyError):
        messages.error(
            request,
            _("The PDF could not be made just now. The other file holds the same words."),
        )
        return redirect("read_through", public_id)
    return _saved(pdf, "application/pdf", wedding, "pdf")


def _saved(content: bytes, kind: str, wedding: Wedding, ending: str) -> HttpResponse:
    response = HttpResponse(content, content_type=kind)
    response["Content-Disposition"] = f'attachment; filename="{wedding.public_id}.{ending}"'
    return response
