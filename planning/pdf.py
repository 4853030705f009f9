"""A plan becomes a PDF. Nothing is fetched but our own style sheet and fonts."""

from __future__ import annotations

import base64
from functools import cache
from typing import Any

from django.conf import settings
from django.template.loader import render_to_string

from .compute.planned import Plan
from .contact_sheet import JPEG, contact_sheets
from .light_page import light_of
from .pack_page import cautions, pack_days
from .ribbon_spare import ribbon_words
from .second_page import second_sheet

STATIC = settings.BASE_DIR / "static"
PANGO_MISSING = (
    "The day pack needs Pango, which WeasyPrint draws with. "
    "On Debian or Ubuntu: apt-get install libpango-1.0-0 libpangoft2-1.0-0"
)


class PangoMissingError(Exception):
    """A system part is missing; the text says which package to install."""

    def __init__(self) -> None:
        super().__init__(PANGO_MISSING)


def weasyprint() -> Any:
    """WeasyPrint, or PangoMissingError; it is imported late since it takes a second to load."""
    try:
        import weasyprint
    except OSError as error:
        raise PangoMissingError from error
    return weasyprint


@cache
def _fetcher() -> Any:
    from weasyprint.urls import URLFetcher

    allowed = {(STATIC / "pack.css").as_uri()}
    allowed |= {path.as_uri() for path in (STATIC / "fonts").glob("*.ttf")}
    drawn_here = ("data:image/svg+xml;base64,", JPEG)

    class OnlyOurs(URLFetcher):
        """WeasyPrint's own fetcher would embed any local file an answer could name."""

        def fetch(self, url: str, headers: dict | None = None) -> Any:
            if url not in allowed and not url.startswith(drawn_here):
                raise ValueError("not on the list of what a day pack may load")
            return super().fetch(url, headers)

    return OnlyOurs(allowed_protocols={"file", "data"}, allow_redirects=False)


def day_pack_html(plan: Plan, studio: object, state: str = "") -> str:
    """`state` is how the agreed summary stands, in one line."""
    lights = light_of(plan)
    ribbons = [
        (day, _as_image(light.ribbon), ribbon_words(light.day))
        for day, light in zip(pack_days(plan), lights, strict=True)
    ]
    skies = [(light.day, [(p, _as_image(p.path.svg if p.path else "")) for p in light.places])
             for light in lights]  # fmt: skip
    page = {"plan": plan, "brief": plan.brief, "ribbons": ribbons, "skies": skies}
    page |= {"studio": studio, "cautions": cautions(plan), "state": state}
    page |= {"sheets": contact_sheets(plan.brief.pictures)}
    return render_to_string("papers/day_pack.html", page)


def day_pack_pdf(plan: Plan, studio: object, state: str = "") -> bytes:
    """The day pack as PDF/UA-1. Raises PangoMissingError."""
    return _write(day_pack_html(plan, studio, state))


def agenda_pdf(page: dict[str, Any], studio: object) -> bytes:
    """The planning meeting on paper, of what its page shows. Raises PangoMissingError."""
    return _write(render_to_string("papers/agenda.html", page | {"studio": studio}))


def calling_list_pdf(plan: Plan, studio: object) -> bytes:
    """Who to fetch next, for a helper: no phones, no care notes. Raises PangoMissingError."""
    page = {"plan": plan, "brief": plan.brief, "studio": studio}
    return _write(render_to_string("papers/calling_list.html", page))


def second_photographer_html(plan: Plan, studio: object) -> str:
    page = {"sheet": second_sheet(plan), "studio": studio}
    return render_to_string("papers/second_photographer.html", page)


def second_photographer_pdf(plan: Plan, studio: object) -> bytes:
    """Their own part, for the second photographer: nothing private. Raises PangoMissingError."""
    return _write(second_photographer_html(plan, studio))


def _write(html: str) -> bytes:
    document = weasyprint().HTML(
        string=html, base_url=STATIC.as_uri() + "/", url_fetcher=_fetcher()
    )
    return document.write_pdf(pdf_variant="pdf/ua-1")


def _as_image(svg: str) -> str:
    """As an image, so that it carries alternative text (an inline drawing would not)."""
    ink = svg.replace("currentColor", "#22262B")
    return "data:image/svg+xml;base64," + base64.b64encode(ink.encode()).decode() if svg else ""
