"""Files that somebody sends: checked, drawn anew, kept in private, and sent back.

A picture (JPEG, PNG, WebP, HEIC) becomes two JPEGs without metadata, one for looking at and a small
one for pages. A PDF is kept as it came. Either is at most MOST_BYTES.

    with keeping(upload, wedding.public_id) as kept:  # may raise BadFileError: str() is one line
        with transaction.atomic():
            SomeRow.objects.create(file=kept.name, small=kept.small, digest=kept.digest)

The files are on the disk before the row is written, and go again where that fails. Where a row is
removed, `forget(name, small)` inside its transaction takes its files away once that is committed.
A view that has checked who asks answers with `sent(name, "Picture 3")`.

What a kill can leave behind is a file without a row, never a row without its file.
"""

from __future__ import annotations

import hashlib
import json
import logging
import secrets
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from django.core.files.base import ContentFile
from django.core.files.storage import Storage, storages
from django.core.files.uploadedfile import UploadedFile
from django.db import transaction
from django.http import Http404, HttpResponse
from django.template.defaultfilters import filesizeformat
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _

from studio.turns import BusyError, Turns

from . import reencode

MEGABYTE = 1024 * 1024
MOST_BYTES = 20 * MEGABYTE
PATIENCE = 40  # seconds for one picture on a busy machine
PICTURE_FILES = "image/jpeg,image/png,image/webp,image/heic,image/heif,.heic,.heif"  # for `accept`
PDF_FILES = "application/pdf,.pdf"
NO_PAGE = "sandbox; default-src 'none'; base-uri 'none'; frame-ancestors 'none'"
log = logging.getLogger("foreday.files")
ONE_AT_A_TIME = threading.Lock()  # a picture being drawn may take reencode.MEMORY
WAITING = Turns(4, each=2)  # both partners may send at once


Drawn = tuple[bytes, bytes, tuple[int, int]]  # as reencode.reencode gives it


class BadFileError(Exception):
    """What is wrong with a file, and what to do, in one line."""


@dataclass(frozen=True)
class Kept:
    """A file in the store. `digest` is the SHA-256, in hex, of what was sent.

    `small`, `width` and `height` (px) are of pictures only.
    """

    name: str
    digest: str
    small: str = ""
    width: int = 0
    height: int = 0

    @property
    def is_picture(self) -> bool:
        return bool(self.small)

    def as_row(self) -> dict[str, str | int]:
        """The fields of a row of models.KeptPicture."""
        return {
            "file": self.name,
            "small": self.small,
            "width": self.width,
            "height": self.height,
            "digest": self.digest,
        }


def store() -> Storage:
    return storages["pictures"]


@contextmanager
def keeping(upload: UploadedFile, folder: str, pdf: bool = False) -> Iterator[Kept]:
    """Keep a picture, or with `pdf` a picture or a PDF, as long as the block does not fail."""
    kept = keep(upload, folder, pdf)
    try:
        yield kept
    except BaseException:
        _undo(kept.name, kept.small)
        raise


def keep(upload: UploadedFile, folder: str, pdf: bool = False) -> Kept:
    """Check a file and write it down under a name nobody can guess. Raises BadFileError."""
    content = read(upload)
    digest = digest_of(content)
    if pdf and content.startswith(b"%PDF-"):
        return Kept(_write(content, folder, "pdf"), digest)
    try:
        with WAITING.one(folder):
            drawn = redrawn(content, pdf)
    except BusyError:
        raise BadFileError(_in_words("busy", pdf)) from None
    return put(drawn, folder, digest)


def put(drawn: Drawn, folder: str, digest: str) -> Kept:
    """Write a picture that was drawn anew to the disk."""
    large, small, (width, height) = drawn
    name = _write(large, folder, "jpg")
    try:
        return Kept(name, digest, _write(small, folder, "jpg"), width, height)
    except BaseException:
        _undo(name)
        raise


def read(upload: UploadedFile) -> bytes:
    """What was sent, if its size allows. Raises BadFileError."""
    if not upload.size:
        raise BadFileError(_("This file is empty. Choose it again, or another."))
    if upload.size > MOST_BYTES:
        sizes = {"size": filesizeformat(upload.size), "most": MOST_BYTES // MEGABYTE}
        raise BadFileError(_("This file has %(size)s; %(most)s MB is the most we take.") % sizes)
    upload.seek(0)
    return upload.read()


def digest_of(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def redrawn(content: bytes, pdf: bool = False) -> Drawn:
    """The large JPEG, the small one, and the large one's size in px. Raises BadFileError."""
    with ONE_AT_A_TIME:
        try:
            run = subprocess.run(  # noqa: S603 - our own script, nothing of the sender's
                [sys.executable, "-P", str(Path(reencode.__file__))],
                input=content,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                timeout=PATIENCE,
                check=False,
            )
        except subprocess.TimeoutExpired:
            raise BadFileError(_in_words("heavy", pdf)) from None
    head, _line, pictures = run.stdout.partition(b"\n")
    if run.returncode or not head:  # stopped by the system, or by a crash in a decoder
        raise BadFileError(_in_words("broken", pdf))
    said = json.loads(head)
    if "refused" in said:
        raise BadFileError(_in_words(said["refused"], pdf))
    return pictures[: said["large"]], pictures[said["large"] :], tuple(said["size"])


def _in_words(reason: str, pdf: bool) -> str:
    kinds = _("This is not a JPEG, PNG, WebP or HEIC picture. Choose another file.")
    if pdf:
        kinds = _("This is neither a PDF nor a JPEG, PNG, WebP or HEIC picture. Choose another.")
    points = _("This picture has more than %(most)s million pixels. Choose a smaller copy.")
    tiny = _("This picture is too small: it needs at least %(least)s pixels each way.")
    return {
        "kind": kinds,
        "moves": _("This picture moves. Choose one that stands still."),
        "points": points % {"most": reencode.MOST_PIXELS // 1_000_000},
        "tiny": tiny % {"least": reencode.LEAST_SIDE},
        "heavy": _("This picture is too heavy to open here. Choose a smaller copy."),
        "busy": _("Too many pictures came at the same moment. Choose this one again in a minute."),
        "broken": _("This picture is damaged, or only a part of it came. Choose it again."),
    }[reason]


def _write(content: bytes, folder: str, ending: str) -> str:
    name = f"{folder}/{secrets.token_hex(16)}.{ending}"
    try:
        return store().save(name, ContentFile(content))
    except BaseException as error:  # no half a file stays
        _undo(name)
        if not isinstance(error, OSError):
            raise
        log.error("a file could not be kept: %s", error.strerror)  # a full disk, say
        text = _("This file could not be kept just now. Choose it again in a few minutes.")
        raise BadFileError(text) from error


def _undo(*names: str) -> None:
    """After a failure, which is the one to tell of."""
    with suppress(OSError):
        drop(*names)


def drop(*names: str) -> None:
    """Take files away now; one that is gone already is no mistake."""
    for name in filter(None, names):
        store().delete(name)


def forget(*names: str) -> None:
    """Take files away when the transaction that removes their row is committed.

    Where that fails the row is gone all the same, and the log says so.
    """
    transaction.on_commit(lambda: drop(*names), robust=True)


def sent(name: str, title: str) -> HttpResponse:
    """A stored file as an answer that no cache keeps and no browser runs, or Http404.

    A picture is shown, a PDF is always saved; `title` names the file, without an ending.
    """
    pdf = name.endswith(".pdf")
    try:
        with store().open(name) as file:
            content = file.read()
    except FileNotFoundError:
        raise Http404("file") from None
    except OSError as error:  # an object store that does not answer
        log.error("a file could not be read: %s", error.strerror)
        return HttpResponse(status=503)
    file_name = f"{title}.{'pdf' if pdf else 'jpg'}"
    return HttpResponse(
        content,
        content_type="application/pdf" if pdf else "image/jpeg",
        headers={
            "Content-Disposition": content_disposition_header(pdf, file_name),
            "Cache-Control": "private, no-store",
            "X-Content-Type-Options": "nosniff",
            "Content-Security-Policy": NO_PAGE,
            "Cross-Origin-Resource-Policy": "same-origin",
        },
    )
