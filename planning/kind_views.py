"""Kinds of day: the list, one of them, and its removal."""

from __future__ import annotations

import re

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from intake.answers import errors_of
from intake.rows import quiet, quiet_rows, rows_of, typed
from studio.in_turn import in_turn

from .compute.blocks import STYLES, style_of
from .kind_form import KindForm
from .kind_rows import BLOCKS, BlockRows
from .kind_words import PLACES, words_of
from .kinds import copy_kind, listed_kinds, weddings_of
from .models import KindOfDay, new_own_key
from .row_acts import focus_added, rearranged

OWN_KEY = re.compile(r"own-[0-9a-f]{12}")


@require_safe
def kinds(request: HttpRequest) -> HttpResponse:
    built_in, own = listed_kinds()
    return render(request, "planning/kinds.html", {"built_in": built_in, "own": own})


@require_http_methods(["GET", "HEAD", "POST"])
def kind(request: HttpRequest, key: str) -> HttpResponse:
    own = KindOfDay.objects.filter(key=key).first()
    if own is None and key not in STYLES:
        raise Http404("kind of day")
    if request.method == "POST" and request.POST.get("do") == "copy":
        new = request.POST.get("new", "")
        copy = copy_kind(key, new if OWN_KEY.fullmatch(new) else new_own_key())
        messages.success(request, _("This copy is yours to change."))
        return redirect("kind", copy.key)
    return _edit(request, own) if own else _built_in(request, key)


def _built_in(request: HttpRequest, key: str) -> HttpResponse:
    style = STYLES[key]
    rows = [(block, PLACES[block.use], words_of(block)) for block in style.blocks]
    page = {"key": key, "style": style, "rows": rows, "new": new_own_key()}
    return render(request, "planning/kind.html", page)


def _edit(request: HttpRequest, own: KindOfDay) -> HttpResponse:
    data = typed(request.POST, [BLOCKS.prefix]) if request.method == "POST" else None
    do, row, errors = data.get("do", "save") if data else "", None, []
    if do == "save":
        form, rows, errors = _keep(own, data)
        if not errors:
            messages.success(request, _("Kept."))
            return redirect("kind", own.key)
    else:
        if data:
            data, row = rearranged(data, BLOCKS, do, BLOCKS.form.begins_with())
        form, rows = _forms(own, data)
        quiet(form), quiet_rows(rows)
        focus_added(rows, row, do, "title")
    page = {"kind": own, "form": form, "rows": rows, "part": BLOCKS, "errors": errors}
    page |= {"weddings": weddings_of(own.key), "new": new_own_key()}
    page |= {"focus": row, "pressed": do.partition(":")[0], "unkept": bool(data)}
    return render(request, "planning/own_kind.html", page)


def _forms(own: KindOfDay, data: QueryDict | None) -> tuple[KindForm, BlockRows]:
    return KindForm(data, prefix="kind", instance=own), rows_of(BLOCKS, own, data, BlockRows)


@in_turn()  # what another page keeps meanwhile is told, not undone
def _keep(own: KindOfDay, data: QueryDict) -> tuple[KindForm, BlockRows, list[tuple[str, str]]]:
    form, rows = _forms(own, data)
    errors = [*errors_of(form), *errors_of(rows, str(BLOCKS.one))]
    if not errors:
        KindOfDay.objects.filter(pk=own.pk).update(**form.answers())
        rows.save()
    return form, rows, errors


@require_http_methods(["GET", "HEAD", "POST"])
def remove_kind(request: HttpRequest, key: str) -> HttpResponse:
    own = get_object_or_404(KindOfDay, key=key)
    if request.method == "POST":
        own.delete()
        messages.success(request, _("Removed: %(kind)s.") % {"kind": own.title})
        return redirect("kinds")
    page = {"kind": own, "weddings": weddings_of(key), "instead": _(style_of(key).title)}
    return render(request, "planning/remove_kind.html", page)
