"""The studio's kit: a list, and a page for each thing."""

from __future__ import annotations

from itertools import groupby

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from intake.answers import errors_of
from studio.in_turn import in_turn

from .kit_form import KitForm
from .kit_models import KitItem
from .kit_starter import add_starter_list


@require_http_methods(["GET", "HEAD", "POST"])
def kit(request: HttpRequest) -> HttpResponse:
    if request.method == "POST":
        add_starter_list()
        messages.success(request, _("A first list is here. Change it until it is yours."))
        return redirect("kit")
    order = list(KitItem.Kind.values)
    items = sorted(KitItem.objects.all(), key=lambda item: order.index(item.kind))
    groups = [(kind, list(rows)) for kind, rows in groupby(items, lambda i: i.get_kind_display())]
    page = {"groups": groups, "kinds": KitItem.Kind.choices, "screen": "kit"}
    return render(request, "planning/kit.html", page)


@require_http_methods(["GET", "HEAD", "POST"])
@in_turn()
def new_kit_item(request: HttpRequest, kind: str) -> HttpResponse:
    if kind not in KitItem.Kind.values:
        raise Http404("kind")
    return _edit(request, KitItem(kind=kind))


@require_http_methods(["GET", "HEAD", "POST"])
@in_turn()  # what another page keeps meanwhile is told, not undone
def kit_item(request: HttpRequest, key: str) -> HttpResponse:
    item = get_object_or_404(KitItem, key=key)
    if request.method == "POST" and request.POST.get("do") == "remove":
        item.delete()
        messages.success(request, _("“%(title)s” is removed from the kit.") % {"title": item.title})
        return redirect("kit")
    return _edit(request, item)


def _edit(request: HttpRequest, item: KitItem) -> HttpResponse:
    is_new = item.pk is None
    form = KitForm(request.POST if request.method == "POST" else None, instance=item)
    if request.method == "POST" and form.is_valid():
        form.save()
        messages.success(request, _("Kept."))
        return redirect("kit")
    kind = KitItem.Kind(item.kind).label
    page = {"form": form, "item": item, "kind": kind, "is_new": is_new, "known": form.known()}
    page |= {"errors": list(errors_of(form)), "screen": "kit"}
    return render(request, "planning/kit_item.html", page)
