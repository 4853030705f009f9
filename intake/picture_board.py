"""A page of pictures, the couple's or the photographer's: shown, added to, kept."""

from __future__ import annotations

from collections.abc import Iterator

from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.db import transaction
from django.db.models import QuerySet
from django.http import HttpRequest, QueryDict
from django.utils.datastructures import MultiValueDict
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from .answers import errors_of
from .models import KeptPicture, Wedding, new_nonce
from .picture_form import MOST_PICTURES, AddForm, PictureForm
from .rows import rows_of, typed
from .steps import Part
from .store import MEGABYTE, MOST_BYTES, BadFileError, digest_of, keeping, read


class AlreadyHereError(Exception):
    """The same file was added before: sent twice, or chosen again."""


class Board:
    """The pictures of one list with the lines beside them, and the form for new ones.

    Good files are kept whatever is wrong with the others, since a browser cannot send them again
    by itself; what was typed beside the bad ones stays on the page.
    """

    most, megabytes = MOST_PICTURES, MOST_BYTES // MEGABYTE

    def __init__(self, part: Part, wedding: Wedding) -> None:
        self.part, self.wedding = part, wedding
        self.model: type[KeptPicture] = part.form._meta.model
        self.rows, self.add = rows_of(part, wedding, None), self._add_form()
        self.added = self.known = 0
        self.gone: list[str] = []  # lines typed beside pictures that were removed meanwhile

    def keep(self, data: QueryDict, files: MultiValueDict) -> bool:
        """Keep what can be kept; whether that was all of it."""
        data = typed(data, [self.part.prefix])
        self.add = self._add_form(data, files)
        with transaction.atomic():
            self._lock()
            rows = rows_of(self.part, self.wedding, data.copy())
            if kept := rows.is_valid():
                self.gone = [form.cleaned_data["line"] for _key, form in rows.keyed if _lost(form)]
                rows.save()
        if self.add.is_valid():
            for upload in self.add.cleaned_data["files"]:
                self._add(upload)
        self.rows = rows_of(self.part, self.wedding, None if kept else data)
        return not self.errors()

    def errors(self) -> list[tuple[str, str]]:
        """Every error as (id of its field, words)."""
        return [*errors_of(self.rows, str(self.part.one)), *errors_of(self.add)]

    def pictures(self) -> Iterator[tuple[KeptPicture, PictureForm]]:
        """Each picture with its form."""
        there = {picture.key: picture for picture in self._stored()}
        for form in self.rows.forms:
            if picture := there.get(form["key"].value()):
                yield picture, form

    def is_full(self) -> bool:
        return len(self.rows.initial) >= MOST_PICTURES

    def tell(self, request: HttpRequest) -> None:
        """What was kept, in words that pass by."""
        if self.added:
            text = ngettext("Added: %(count)s picture.", "Added: %(count)s pictures.", self.added)
            messages.success(request, text % {"count": self.added})
        if self.known:
            messages.info(request, _("Here already, and not added twice: %s.") % self.known)
        for line in self.gone:
            text = _("A picture was removed meanwhile, and with it what you typed: “%(line)s”.")
            messages.info(request, text % {"line": line})

    def _add_form(self, *sent: QueryDict | MultiValueDict) -> AddForm:
        return AddForm(self.part.form.base_fields["line"].label, *sent)

    def _add(self, upload: UploadedFile) -> None:
        try:
            self._look(digest_of(read(upload)))  # before the work of drawing it anew
            with keeping(upload, self.wedding.public_id) as kept, transaction.atomic():
                self._lock()
                self._look(kept.digest)
                self.model.objects.create(
                    wedding=self.wedding,
                    key=new_nonce(),
                    line=self.add.cleaned_data["line"],
                    **kept.as_row(),
                )
            self.added += 1
        except AlreadyHereError:
            self.known += 1
        except BadFileError as wrong:
            self.add.tell(upload.name, wrong)

    def _look(self, digest: str) -> None:
        """Whether there is room for this file, and whether it is here. Raises what stops it."""
        if self._stored().filter(digest=digest).exists():
            raise AlreadyHereError
        if self._stored().count() >= MOST_PICTURES:
            text = _("%(most)s pictures are the most. Remove one to make room.")
            raise BadFileError(text % {"most": MOST_PICTURES})

    def _stored(self) -> QuerySet:
        return self.part.form.stored(self.wedding)

    def _lock(self) -> None:
        """The other partner, or a second tap, waits here."""
        Wedding.objects.select_for_update().get(pk=self.wedding.pk)


def _lost(form: PictureForm) -> bool:
    """A line that was typed beside a picture which is not there any more."""
    is_new = not form.is_stored() and not form.is_removed()
    return is_new and bool(form.cleaned_data.get("line")) and form.is_touched()
