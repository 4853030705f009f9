"""The photographer's pictures of a wedding, beside those of the couple."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext_lazy as _
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_http_methods, require_safe

from intake.models import Wedding
from intake.picture_board import Board
from intake.picture_form import PictureForm
from intake.picture_views import sent_picture
from intake.steps import Part

from .models import StudioPicture


class StudioPictureForm(PictureForm):
    class Meta(PictureForm.Meta):
        model = StudioPicture
        labels = {"line": _("What it is for")}


PART = Part("pictures", StudioPictureForm, _("Picture"), add=_("Add pictures"))


@require_http_methods(["GET", "HEAD", "POST"])
@cache_control(private=True, no_store=True)
def pictures(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    board = Board(PART, wedding)
    if request.method == "POST":
        kept = board.keep(request.POST, request.FILES)
        board.tell(request)
        if kept:
            return redirect("studio_pictures", public_id)
    page = {"wedding": wedding, "screen": "pictures", "board": board, "errors": board.errors()}
    return render(request, "planning/pictures.html", page)


@require_safe
def picture(request: HttpRequest, public_id: str, key: str, small: bool = False) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    return sent_picture(StudioPicture, wedding, key, small)
