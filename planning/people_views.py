"""The people of the studio: accounts, roles, and who is second at which wedding."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth import get_user_model
from django.contrib.auth.models import User
from django.contrib.auth.tokens import default_token_generator
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.encoding import force_bytes
from django.utils.http import urlsafe_base64_encode
from django.utils.translation import gettext as _
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_http_methods

from intake.answers import errors_of
from intake.models import Wedding
from studio.member_models import role_of

from .people_form import AssignedForm, NewPersonForm, PersonForm
from .season import PAGE
from .taken_out import FIRST


@require_http_methods(["GET", "HEAD", "POST"])
def people(request: HttpRequest) -> HttpResponse:
    form = NewPersonForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid() and (made := form.save()):
        return redirect("person", made.pk)
    users = get_user_model().objects.select_related("member").order_by("-is_active", "username")
    page = {"people": [(user, role_of(user)) for user in users], "form": form}
    page |= {"errors": list(errors_of(form)), "screen": "people"}
    return render(request, "planning/people.html", page)


@require_http_methods(["GET", "HEAD", "POST"])
@cache_control(private=True, no_store=True)
def person(request: HttpRequest, pk: int) -> HttpResponse:
    """One account; the link with which its owner chooses a password is shown once asked for."""
    user = get_object_or_404(get_user_model(), pk=pk)
    wants_link = request.method == "POST" and request.POST.get("do") == "link"
    keeps = request.method == "POST" and not wants_link
    form = PersonForm(request.POST if keeps else None, user=user)
    if keeps and form.is_valid() and form.save():
        messages.success(request, _("Kept."))
        return redirect("people")
    page = {"person": user, "form": form, "errors": list(errors_of(form)), "screen": "people"}
    page["url"] = choose_password_url(request, user) if wants_link else ""
    return render(request, "planning/person.html", page)


def choose_password_url(request: HttpRequest, user: User) -> str:
    """Works once, and for three days (Django's PASSWORD_RESET_TIMEOUT)."""
    where = [urlsafe_base64_encode(force_bytes(user.pk)), default_token_generator.make_token(user)]
    return request.build_absolute_uri(reverse("choose_password", args=where))


@require_http_methods(["GET", "HEAD", "POST"])
def wedding_people(request: HttpRequest, public_id: str) -> HttpResponse:
    wedding = get_object_or_404(Wedding, public_id=public_id)
    form = AssignedForm(request.POST if request.method == "POST" else None, wedding=wedding)
    if request.method == "POST" and form.is_valid():
        form.save()
        messages.success(request, _("Kept."))
        return redirect("wedding_people", public_id)
    page = {"wedding": wedding, "form": form, "errors": list(errors_of(form)), "screen": "people"}
    return render(request, "planning/wedding_people.html", page)


def their_weddings(request: HttpRequest) -> HttpResponse:
    """A second photographer's season: names, dates, and their own sheet, no more."""
    weddings = Wedding.objects.filter(assigned__user=request.user.pk)
    weddings = weddings.annotate(first=FIRST).order_by("-first", "pk")
    weddings = weddings.prefetch_related("days", "partners")
    page = Paginator(weddings, PAGE).get_page(request.GET.get("page"))
    return render(request, "planning/their_weddings.html", {"page": page, "screen": "season"})
