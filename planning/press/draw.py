"""Finished HTML becomes a PDF. Nothing is fetched but our own style sheets and fonts.

It knows no Django and no plan, so that it can run in a process of its own (apart.py).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from .grey import grey_jpeg, without_colour

MOST_PAGES = {"a4": 40, "a6": 96, "a6-pages": 96}  # our choice; nobody finds anything in more
DRAWN = "data:image/svg+xml;base64,"
JPEG = "data:image/jpeg;base64,"
PANGO_MISSING = (
    "The day pack needs Pango, which WeasyPrint draws with. "
    "On Debian or Ubuntu: apt-get install libpango-1.0-0 libpangoft2-1.0-0"
)


class PangoMissingError(Exception):
    """A system part is missing; the text says which package to install."""

    def __init__(self, text: str = PANGO_MISSING) -> None:
        super().__init__(text)


class TooLongError(Exception):
    """`args` are the pages it would have, the most there may be, and how many each part takes."""

    @property
    def pages(self) -> int:
        return self.args[0]

    @property
    def most(self) -> int:
        return self.args[1]

    @property
    def parts(self) -> dict[str, int]:
        return self.args[2]


@dataclass(frozen=True)
class Job:
    """`static` is the folder of our style sheets and fonts, `size` a key of MOST_PAGES."""

    html: str
    static: Path
    size: str = "a4"
    grey: bool = False


def weasyprint() -> Any:
    """WeasyPrint, or PangoMissingError; it is imported late since it takes a second to load."""
    try:
        import weasyprint
    except OSError as error:
        raise PangoMissingError from error
    return weasyprint


@cache
def fetcher(static: Path, grey: bool = False) -> Any:
    from weasyprint.urls import URLFetcher

    allowed = {path.as_uri() for path in static.glob("*.css") if path.name in STYLES}
    allowed |= {path.as_uri() for path in (static / "fonts").glob("*.ttf")}

    class OnlyOurs(URLFetcher):
        """WeasyPrint's own fetcher would embed any local file an answer could name."""

        def fetch(self, url: str, headers: dict | None = None) -> Any:
            if url not in allowed and not url.startswith((DRAWN, JPEG)):
                raise ValueError("not on the list of what a day pack may load")
            if grey and url.startswith(JPEG):
                url = JPEG + grey_jpeg(url.removeprefix(JPEG))
            return super().fetch(url, headers)

    return OnlyOurs(allowed_protocols={"file", "data"}, allow_redirects=False)


STYLES = {"pack.css", "pocket.css"}


def draw(job: Job) -> bytes:
    """The PDF/UA-1. Raises PangoMissingError, or TooLongError where it would be a book."""
    from .fold import folded

    source = weasyprint().HTML(
        string=job.html,
        base_url=job.static.as_uri() + "/",
        url_fetcher=fetcher(job.static, job.grey),
    )
    document = source.render(pdf_variant="pdf/ua-1")
    most = MOST_PAGES[job.size]
    if len(document.pages) > most:
        raise TooLongError(len(document.pages), most, pages_of_parts(document.pages))
    if job.size == "a6":
        document = folded(document)
    finisher = without_colour if job.grey else None
    return document.write_pdf(pdf_variant="pdf/ua-1", finisher=finisher)


def pages_of_parts(pages: list[Any]) -> dict[str, int]:
    """How many pages each part fills, by the anchor (`part-KEY`) at which it begins."""
    first: dict[str, int] = {}
    for number, page in enumerate(pages):
        for name in page.anchors:  # again on each page that a part goes on over
            if name.startswith("part-"):
                first.setdefault(name.removeprefix("part-"), number)
    begins = list(first.items())
    ends = [number for _key, number in begins[1:]] + [len(pages)]
    return {key: max(until - at, 1) for (key, at), until in zip(begins, ends, strict=True)}
