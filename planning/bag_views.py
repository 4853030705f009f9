"""The Bag screen of a wedding."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from intake.models import Wedding

from .bag_form import BagForm, pack
from .bag_page import fits_of, less_safe, lines, told, unknown
from .brief import load_brief
from .compute.bag.sums import sums_of
from .compute.day import plan_wedding


@require_http_methods(["GET", "HEAD", "POST"])
def bag(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    do = request.POST.get("do", "") if request.method == "POST" else ""
    verb, _colon, key = do.partition(":")
    if verb in {"pack", "unpack"}:
        if not pack(wedding, key, verb == "pack"):
            messages.error(request, _("That thing is not in your kit any more."))
        return redirect(f"{reverse('bag', args=[public_id])}#line-{key}")
    plan = plan_wedding(load_brief(wedding))
    form = BagForm(wedding, request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        form.save(plan)
        messages.success(request, _("Kept."))
        return redirect("bag", public_id)
    errors = form.errors() if request.method == "POST" else []
    goes = [line for line in lines(wedding) if line.count]
    page = {"wedding": wedding, "plan": plan, "form": form, "errors": errors, "goes": goes}
    page |= {"packed": sum(line.packed for line in goes), "screen": "bag"}
    page["chosen"] = wedding.bag_lines.exists()
    if plan.bag:
        page |= {
            "told": told(plan.bag),
            "unknown": unknown(plan.bag),
            "less_safe": less_safe(plan.bag),
            "fits": fits_of(plan.bag),
            "sums": sums_of(plan.bag.items, plan.bag.need),
        }
    return render(request, "planning/bag.html", page)
