"""The couple's pictures: their page, and each picture for who may see it."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from .links import wedding_for_request
from .models import KeptPicture, Picture, StepState, Wedding
from .picture_board import Board
from .step_views import WAYS_BACK
from .steps import BY_SLUG
from .store import sent
from .views import couples_page


@couples_page
@require_http_methods(["GET", "HEAD", "POST"])
def pictures(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    this = BY_SLUG["pictures"]
    board = Board(this.parts[0], wedding)
    if request.method == "POST":
        kept = board.keep(request.POST, request.FILES)
        StepState.objects.update_or_create(
            wedding=wedding, slug=this.slug, defaults={"saved_at": timezone.now()}
        )
        board.tell(request)
        if kept and board.added:  # back to the page, where each has a box for its line
            return redirect(request.get_full_path())
        if kept:
            return redirect(WAYS_BACK.get(request.GET.get("from", ""), "steps"), public_id)
    page = {"wedding": wedding, "step": this, "board": board, "errors": board.errors()}
    return render(request, "intake/pictures.html", page)


@couples_page
@require_safe
def picture(request: HttpRequest, public_id: str, key: str, small: bool = False) -> HttpResponse:
    wedding = wedding_for_request(request, public_id)
    return sent_picture(Picture, wedding, key, small)


def sent_picture(model: type[KeptPicture], wedding: Wedding, key: str, small: bool) -> HttpResponse:
    """One picture of a wedding whose reader has been checked, or Http404."""
    for number, each in enumerate(model.objects.filter(wedding=wedding), 1):
        if each.key == key:
            return sent(each.small if small else each.file, _("picture-%s") % number)
    raise Http404("picture")
