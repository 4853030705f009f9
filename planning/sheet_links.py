"""Who may open which sheet on a phone, by which secret link, and until when."""

from __future__ import annotations

import logging
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from django.conf import settings
from django.core import signing
from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.utils import timezone
from django.utils.crypto import constant_time_compare

from intake.keys import new_key, new_nonce, token_of, without_tail
from intake.models import Contact, Wedding

from .paper.part import NOBODY
from .paper.subject import Reader
from .sheet_models import SheetLink

DAYS_AFTER = 7  # whole days after the last one: time to hand in what was taken
FARTHEST = date(9999, 12, 20)  # the calendar of Python ends with that month
COOKIE = "__Secure-sheet" if settings.ONLINE else "sheet"
SALT = "planning.sheet-cookie"
log = logging.getLogger("foreday.access")


def sheet_token(link: SheetLink) -> str:
    """Derived from the secret key, so that the database alone reveals no link."""
    return token_of("planning.sheet", f"{link.key}:{link.nonce}")


def sheet_path(link: SheetLink) -> str:
    return reverse("open_sheet", args=[link.key, sheet_token(link)])


def last_day(wedding: Wedding) -> date | None:
    """The last one on which links of a wedding open anything; None without a date."""
    dates = wedding.dates
    last = min(max(dates), FARTHEST) if dates else None
    return last and last + timedelta(days=DAYS_AFTER)


def ends_at(wedding: Wedding) -> datetime | None:
    """The midnight at which they stop, on the wedding's own clocks."""
    last = last_day(wedding)
    return last and datetime.combine(last + timedelta(days=1), time(), ZoneInfo(wedding.zone))


def is_over(wedding: Wedding) -> bool:
    ends = ends_at(wedding)
    return ends is None or ends <= timezone.now()


@transaction.atomic
def make_link(wedding: Wedding, sheet: str, person: str, by: int) -> None:
    """A new one; the one before, if any, opens nothing any more, on any phone."""
    new = {"key": new_key(), "nonce": new_nonce(), "made_at": timezone.now()}
    wedding.sheet_links.update_or_create(sheet=sheet, person=person, defaults=new)
    log.info("a link to a %s of %s made by account %s", sheet, wedding.public_id, by)


def revoke_link(wedding: Wedding, sheet: str, person: str, by: int) -> None:
    if wedding.sheet_links.filter(sheet=sheet, person=person).delete()[0]:
        log.info("a link to a %s of %s revoked by account %s", sheet, wedding.public_id, by)


def reader_of(link: SheetLink) -> Reader | None:
    """Whose sheet it is; None where the helper is no longer in the couple's answers."""
    if link.sheet == SheetLink.Sheet.SECOND:
        return NOBODY
    named = helpers_by_key(link.wedding)
    return named.get(link.person) if named else (NOBODY if not link.person else None)


def helpers_by_key(wedding: Wedding) -> dict[str, Reader]:
    """Numbered as in planning/paper/helper.py: by their place in the couple's list."""
    rows = [c for c in wedding.contacts.all() if c.listed_as == Contact.List.HELPER]
    return {row.key: Reader(str(n), row.name) for n, row in enumerate(rows, 1)}


def opened(key: str, token: str) -> tuple[SheetLink, Reader]:
    """The link of a key and its secret, with its reader; Http404 for any that opens nothing."""
    link = SheetLink.objects.select_related("wedding").filter(key=key).first()
    if link is None or not constant_time_compare(sheet_token(link), without_tail(token)):
        raise Http404("sheet")
    reader = reader_of(link)
    if reader is None or is_over(link.wedding):
        raise Http404("sheet")
    return link, reader


def opened_by_cookie(request: HttpRequest, key: str) -> tuple[SheetLink, Reader]:
    try:
        token = signing.loads(request.COOKIES.get(COOKIE, ""), salt=SALT)
    except signing.BadSignature:
        token = ""
    return opened(key, token if isinstance(token, str) else "")


def give_cookie(response: HttpResponse, link: SheetLink) -> HttpResponse:
    """For as long as the link holds, and for its own page alone."""
    left = ends_at(link.wedding) - timezone.now()
    response.set_cookie(
        COOKIE,
        signing.dumps(sheet_token(link), salt=SALT),
        max_age=int(left.total_seconds()),
        path=reverse("sheet", args=[link.key]),
        secure=settings.ONLINE,
        httponly=True,
        samesite="Lax",
    )
    return response
