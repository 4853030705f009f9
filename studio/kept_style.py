"""How long a browser may draw pages with the style it has: also where there is no network."""

from __future__ import annotations

from wsgiref.headers import Headers

# What the day on a phone is drawn with (planning/phone_views.py keeps the page itself as long).
DRAWN_WITH = ("/phone.css", "/phone.js", "/site.css", "/bootstrap-reboot.min.css")
SECONDS = 12 * 3600


def keep_style(headers: Headers, path: str, url: str) -> None:
    """Asked for anew after a minute, but behind the page that is drawn (RFC 5861, section 3)."""
    if url.endswith(DRAWN_WITH):
        headers["Cache-Control"] += f", stale-while-revalidate={SECONDS}"
