"""The Groups screen: the order, what can be done to it, and what the list costs."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from urllib.parse import quote

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from intake.models import Wedding

from .brief import load_brief
from .compute.day import plan_wedding
from .compute.expectations import minutes_of, room_for_groups, savings, waits
from .compute.order.rounding import more_shown
from .compute.people import near_matches, person_key
from .compute.planned import Plan
from .compute.values import Brief
from .group_acts import ActError, RuleForm, act, typed_minutes
from .waiting import waiting_svg


@require_http_methods(["GET", "HEAD", "POST"])
def groups(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    if request.method == "POST":
        try:
            messages.success(request, act(wedding, request.POST))
        except ActError as error:
            messages.error(request, str(error))
            return render(request, "planning/groups.html", _page(wedding, request.POST))
        return redirect(f"{reverse('groups', args=[public_id])}{_anchor(request.POST['do'])}")
    return render(request, "planning/groups.html", _page(wedding))


def _anchor(do: str) -> str:
    """Where on the page the pressed button was, for a reader without JavaScript."""
    verb, _colon, rest = do.partition(":")
    key = rest.split(":")[-1] if verb == "pin" else rest.split(":")[0]
    if verb in {"up", "down", "to", "back", "pin"}:
        return f"#row-{quote(key)}"
    return {"rule": "#rules", "unrule": "#rules", "nice": "#rules", "join": "#pairs",
            "two": "#pairs", "ask-again": "#pairs"}.get(verb, "")  # fmt: skip


def _page(wedding: Wedding, typed: Mapping[str, str] = MappingProxyType({})) -> dict:
    """What the page shows; what was typed and refused stays in its boxes."""
    plan = plan_wedding(load_brief(wedding))
    brief, order = plan.brief, plan.order
    return {
        "wedding": wedding,
        "screen": "groups",
        "plan": plan,
        "order": order,
        "more": int(more_shown(order.chosen.waiting, order.costs["best"].waiting)),
        "left_out": [group for group in brief.groups if group.left_out],
        "rules": wedding.group_rules.all(),
        "rule_form": RuleForm(typed if typed.get("do") == "rule" else None, wedding=wedding),
        "typed": typed_minutes(typed),
        "refused": bool(typed),
        "pairs": _pairs(brief),
        "joined": wedding.same_people.filter(is_same=True),
        "minutes": {by: minutes_of(brief, keys) for by, keys in order.orders.items()},
        "walking": round(sum(turn.assembling for turn in plan.turns), 1),
        "nice": any(not turn.group.must for turn in plan.turns),
        "asked": plan.brief.groups or "groups" in plan.brief.saved_steps,
        "people": sorted({name for turn in plan.turns for name in turn.group.people}),
        "room": room_for_groups(brief, plan.days),
        "drawing": waiting_svg(waits(brief, plan.turns), plan.turns),
        "savings": _savings(plan),
    }


def _savings(plan: Plan) -> list[tuple]:
    found = savings(plan.brief, plan.order)
    return [(turn, found[turn.group.key]) for turn in plan.turns]


def _pairs(brief: Brief) -> list[tuple[str, str]]:
    """Names that may be one person and about which nobody has decided yet."""
    decided = {frozenset(pair) for pair in (*brief.same_people, *brief.two_people)}
    names = [name for group in brief.groups for name in group.people]
    return [pair for pair in near_matches(names) if frozenset(map(person_key, pair)) not in decided]
