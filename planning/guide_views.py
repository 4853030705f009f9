"""First weddings: the guide, and the experience that is gained beforehand."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_safe

from intake.models import Wedding

from .experience_form import EXPERIENCES, ExperienceRows
from .guide import STAGES, told
from .models import Experience
from .row_page import row_page
from .taken_out import FIRST, LAST

ENOUGH = 3  # weddings beside somebody before the first alone: common practice, no source


@require_safe
def first_weddings(request: HttpRequest) -> HttpResponse:
    """Its links lead to the screens of the wedding that comes next."""
    wedding = _next_wedding()
    stages = [(stage, list(told(stage, wedding))) for stage in STAGES]
    page = {"stages": stages, "next_wedding": wedding, "experience": experience_words()}
    return render(request, "planning/first_weddings.html", page | {"screen": "first_weddings"})


def _next_wedding() -> Wedding | None:
    ahead = Wedding.objects.annotate(first=FIRST, last=LAST)
    return ahead.filter(last__gte=timezone.localdate()).order_by("first", "pk").first()


def experience_words() -> str:
    """What is noted so far, and whether that is what is usually advised."""
    seconds = Experience.objects.filter(role=Experience.Role.SECOND).count()
    if not seconds:
        return _("No wedding as second photographer is noted yet.")
    words = ngettext(
        "One wedding as second photographer is noted.",
        "%(count)s weddings as second photographer are noted.",
        seconds,
    ) % {"count": seconds}
    return words if seconds >= ENOUGH else f"{words} {_('Three or more are usually advised.')}"


@require_http_methods(["GET", "HEAD", "POST"])
def experience(request: HttpRequest) -> HttpResponse:
    page = row_page(request, EXPERIENCES, rows=ExperienceRows)
    if page.kept:
        messages.success(request, _("Kept."))
        return redirect("first_weddings")
    context = page.context() | {"screen": "first_weddings"}
    return render(request, "planning/experience.html", context)
