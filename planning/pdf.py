"""A paper of a wedding becomes HTML, and that a PDF."""

from __future__ import annotations

from django.conf import settings
from django.template.loader import render_to_string
from django.utils.safestring import SafeString

from intake.languages import in_language_of

from .paper.part import NOBODY, Part
from .paper.parts import parts_of
from .paper.printing import Printing
from .paper.sheets import Sheet
from .paper.subject import Reader, Subject
from .press.apart import draw_apart
from .press.draw import Job

STATIC = settings.BASE_DIR / "static"
AS_USUAL = Printing()


def to_print(subject: Subject, sheet: Sheet, how: Printing = AS_USUAL) -> list[Part]:
    """The parts of a paper that are wanted, and have anything to say."""
    wanted = [p for p in parts_of(sheet.key) if not sheet.choosable or p.key in how.parts]
    return [part for part in wanted if part.needs(subject)]


def paper_html(
    subject: Subject, sheet: Sheet, reader: Reader = NOBODY, how: Printing = AS_USUAL
) -> str:
    """The finished HTML; a couple's own paper is in their language."""
    if sheet.couples and subject.wedding:
        with in_language_of(subject.wedding):
            return _html(subject, sheet, reader, how)
    return _html(subject, sheet, reader, how)


def _html(subject: Subject, sheet: Sheet, reader: Reader, how: Printing) -> str:
    parts = to_print(subject, sheet, how)
    names = subject.brief.names
    page = {
        "sheet": sheet.key,
        "title": f"{sheet.heading}, {names}",
        "heading": "" if any(part.key == "cover" for part in parts) else sheet.heading,
        "names": names,
        "reader": reader.name,
        "dates": [day.brief.date for day in subject.plan.days],
        "studio": subject.studio.name,
        "version": _version(subject, sheet),
        "pocket": how.pocket,
        "parts": [(part, _drawn(part, subject, reader, how)) for part in parts],
    }
    return render_to_string("papers/sheet.html", page)


def _version(subject: Subject, sheet: Sheet) -> str:
    """The couple's own paper names the version that it is itself."""
    if sheet.couples:
        return ""
    return subject.version if sheet.choosable else subject.print_mark


def _drawn(part: Part, subject: Subject, reader: Reader, how: Printing) -> SafeString:
    """Each part for itself, so that it sees nothing but what its own builder gives."""
    context = part.build(subject, reader) | {"pocket": how.pocket}
    return render_to_string(part.template, context)


def paper_pdf(
    subject: Subject, sheet: Sheet, reader: Reader = NOBODY, how: Printing = AS_USUAL
) -> bytes:
    """The PDF/UA-1. Raises PangoMissingError, TooLongError or NotDrawnError."""
    return draw_apart(Job(paper_html(subject, sheet, reader, how), STATIC, how.size, how.grey))
