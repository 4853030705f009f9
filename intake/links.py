"""The couple's private link: who may open which questionnaire."""

from __future__ import annotations

from django.conf import settings
from django.core import signing
from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.utils.crypto import constant_time_compare

from .keys import new_key, new_nonce, token_of, without_tail
from .models import Wedding

COOKIE = "__Secure-couple" if settings.ONLINE else "couple"
COOKIE_SECONDS = 400 * 24 * 3600  # the longest that browsers keep a cookie (RFC 6265bis)


def link_token(wedding: Wedding) -> str:
    """Derived from the secret key, so that the database alone reveals no link."""
    return token_of("intake.link", f"{wedding.public_id}:{wedding.link_nonce}")


def link_path(wedding: Wedding) -> str:
    return reverse("open_link", args=[wedding.public_id, link_token(wedding)])


def make_new_link(wedding: Wedding) -> None:
    """A new nonce: the old link and every cookie it gave are dead."""
    wedding.link_nonce = new_nonce()
    wedding.save(update_fields=["link_nonce"])


def wedding_for_token(public_id: str, token: str) -> Wedding:
    """The wedding of a link, or Http404 for a wrong, old or cut-off one."""
    wedding = Wedding.objects.filter(public_id=public_id).first()
    if wedding is None or not constant_time_compare(link_token(wedding), without_tail(token)):
        raise Http404("link")
    return wedding


def wedding_for_request(request: HttpRequest, public_id: str) -> Wedding:
    """The wedding if the couple's cookie or the photographer's sign-in opens it, or Http404."""
    wedding = Wedding.objects.filter(public_id=public_id).first()
    if wedding is not None and (plans_weddings(request) or holds_link(request, wedding)):
        return wedding
    raise Http404("link")


def plans_weddings(request: HttpRequest) -> bool:
    """Whether a photographer of the studio is asking, as planning/access.py found out."""
    return bool(getattr(request, "plans_weddings", False))


def holds_link(request: HttpRequest, wedding: Wedding) -> bool:
    """Whether the couple's own link was opened in this browser, signed in or not."""
    return constant_time_compare(_read_cookie(request)[0], link_token(wedding))


def _read_cookie(request: HttpRequest) -> tuple[str, str]:
    """The token and the device that a cookie of ours names, whether it still opens or not."""
    try:
        value = signing.loads(
            request.COOKIES.get(COOKIE, ""), salt="intake.cookie", max_age=COOKIE_SECONDS
        )
    except signing.BadSignature:
        return "", ""
    token, _dot, device = value.partition(".") if isinstance(value, str) else ("", "", "")
    return token, device


def device_of(request: HttpRequest) -> str:
    """Whose typing a draft is: a random name for each browser, one for the photographer's."""
    return _read_cookie(request)[1] or ("desk" if plans_weddings(request) else "")


def give_cookie(request: HttpRequest, response: HttpResponse, wedding: Wedding) -> HttpResponse:
    """A link opened again, old or new, leaves the browser its name."""
    value = f"{link_token(wedding)}.{_read_cookie(request)[1] or new_key()}"
    response.set_cookie(
        COOKIE,
        signing.dumps(value, salt="intake.cookie"),
        max_age=COOKIE_SECONDS,
        path=reverse("steps", args=[wedding.public_id]),
        secure=settings.ONLINE,
        httponly=True,
        samesite="Lax",
    )
    return response
