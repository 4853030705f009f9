"""The mail that brings the couple their link, in their language."""

from __future__ import annotations

from urllib.parse import quote, urlencode

from django.http import HttpRequest
from django.template.loader import render_to_string
from django.utils.translation import gettext as _

from intake.languages import in_language_of
from intake.models import Wedding
from studio.models import Studio


def mail_draft(wedding: Wedding, url: str, request: HttpRequest) -> str:
    """A mailto address (RFC 6068) that opens a mail to the couple with their link in it."""
    to = [quote(p.email, safe="@") for p in wedding.partners.all() if p.email]
    with in_language_of(wedding):
        lines = render_to_string("planning/mail.txt", {"wedding": wedding, "url": url}, request)
        subject = _("Your wedding day: a few questions from %(studio)s")
        subject %= {"studio": Studio.get().name}
    body = "\r\n".join(lines.strip().splitlines())
    fields = urlencode({"subject": subject, "body": body}, quote_via=quote)
    return f"mailto:{','.join(to)}?{fields}"
