"""Tops up and compiles the translations of what couples read: uv run python -m studio.catalogues

Only what couples read is collected; the photographer's pages are marked, and English so far.
Babel reads the sources, so that no gettext is needed on the machine.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

from babel.messages import Catalog, Message
from babel.messages.extract import DEFAULT_KEYWORDS, extract
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po
from django.utils.translation.template import templatize

ROOT = Path(__file__).resolve().parent.parent
LOCALE = ROOT / "studio" / "locale"
# Whole files: whoever adds words for couples elsewhere adds the place here.
READ_BY_COUPLES = (
    "intake/**/*.py",
    "planning/agreed_form.py",
    "planning/agreed_views.py",
    "planning/agreed_words.py",
    "planning/agreements.py",
    "planning/change_words.py",
    "planning/compute/agreed_plan.py",
    "planning/compute/blocks.py",
    "planning/expect_words.py",
    "planning/mail.py",
    "planning/their_words_views.py",
    "planning/templatetags/agreement.py",
    "studio/trouble.py",
    "studio/words.py",
    "templates/*.html",
    "templates/bootstrap5/*.html",
    "templates/intake/*.html",
    "templates/papers/summary.html",
    "templates/papers/words.html",
    "templates/planning/mail.txt",
)
KEYWORDS = DEFAULT_KEYWORDS | {
    f"{name}_lazy": DEFAULT_KEYWORDS[name] for name in ("gettext", "ngettext", "pgettext")
}
HEADER = "# What couples read, in {}. Topped up by: uv run python -m studio.catalogues"
UNDATED = datetime(2026, 11, 26, tzinfo=UTC)  # a date of its own would change at every run


def sources() -> list[Path]:
    return sorted(path for pattern in READ_BY_COUPLES for path in ROOT.glob(pattern))


def collect() -> Catalog:
    """Every message of the sources, with the files it stands in."""
    catalog = Catalog()
    for path in sources():
        name = path.relative_to(ROOT).as_posix()
        for _line, message, comments, context in _messages(path):
            catalog.add(message, None, [(name, 0)], auto_comments=comments, context=context)
    return catalog


def _messages(path: Path) -> Iterator[tuple]:
    text = path.read_text()
    code = text
    if path.suffix != ".py":  # Django makes calls of the tags; their indentation means nothing
        code = re.sub(r"(?m)^\s+", "", templatize(text, origin=path.name))
    return extract("python", BytesIO(code.encode()), KEYWORDS, ["Translators:"])


def path_of(language: str) -> Path:
    return LOCALE / language / "LC_MESSAGES" / "django.po"


def read(language: str) -> Catalog:
    path = path_of(language)
    if not path.exists():
        return Catalog(locale=language)
    with path.open("rb") as file:
        return read_po(file, locale=language)


def topped_up(language: str) -> Catalog:
    """The catalogue with every message of the sources, in their order, and no others."""
    there, catalog = read(language), Catalog(language, project="Foreday", version="", fuzzy=False)
    catalog.header_comment = HEADER.format(catalog.locale.english_name)
    catalog.creation_date = catalog.revision_date = UNDATED
    catalog.last_translator = catalog.language_team = "Foreday"
    for message in collect():
        if message.id:
            old = there.get(message.id, message.context)
            string = old.string if old and bool(old.pluralizable) == message.pluralizable else None
            catalog.add(
                message.id, string, message.locations, context=message.context,
                auto_comments=message.auto_comments,
            )  # fmt: skip
    return catalog


def is_whole(message: Message) -> bool:
    strings = message.string if message.pluralizable else [message.string]
    return bool(strings) and all(strings)


def as_po(catalog: Catalog) -> bytes:
    file = BytesIO()
    write_po(file, catalog, width=96, include_lineno=False)
    return re.sub(rb"(?m)^\"Generated-By: .*\n", b"", file.getvalue())


def as_mo(catalog: Catalog) -> bytes:
    file = BytesIO()
    write_mo(file, catalog)
    return file.getvalue()


def main(languages: list[str]) -> None:
    for language in languages or sorted(path.name for path in LOCALE.iterdir()):
        catalog = topped_up(language)
        path = path_of(language)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(as_po(catalog))
        path.with_suffix(".mo").write_bytes(as_mo(catalog))
        left = sum(not is_whole(message) for message in catalog if message.id)
        print(f"{language}: {len(catalog)} messages, {left} to translate")


if __name__ == "__main__":
    main(sys.argv[1:])
