"""Pages that stand before or beside the work: what went wrong, and what to do."""

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template.loader import get_template
from django.utils.translation import get_language, override
from django.views.decorators.http import require_safe

from .trouble import trouble_page
from .versions import VERSIONS


@require_safe
def versions(request: HttpRequest) -> HttpResponse:
    """What each version of this program changed."""
    return render(request, "planning/versions.html", {"versions": VERSIONS, "screen": "studio"})


def form_too_old(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Django's CSRF refusal in words that help: what was typed is still in the other page."""
    return render(request, "too_old.html", status=403)


def unreadable(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Django's own handler reads the form once more, which is what could not be read."""
    return HttpResponse(get_template("400.html").render(), status=400)


def not_yours(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Signed in, and not as somebody whose page it is."""
    with override(settings.LANGUAGE_CODE):
        return render(request, "planning/not_yours.html", status=403)


def not_here(request: HttpRequest, exception: Exception) -> HttpResponse:
    """The photographer's own pages have their language even where none was found."""
    with override(settings.LANGUAGE_CODE if request.user.is_authenticated else get_language()):
        return render(request, "404.html", status=404)


def went_wrong(request: HttpRequest) -> HttpResponse:
    """Django calls this while it handles what went wrong."""
    if found := trouble_page(request):
        return found
    return HttpResponse(get_template("500.html").render(), status=500)
