"""The forms of a page of pictures: the line beside each, and new files."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile
from django.utils.text import Truncator
from django.utils.translation import gettext_lazy as _

from . import models as m
from .answer_form import RowForm, words_for
from .store import MEGABYTE, MOST_BYTES, PICTURE_FILES, BadFileError, forget

MOST_PICTURES = 12


class PictureForm(RowForm):
    """The line beside a picture; the picture itself is added or removed, never changed."""

    first_rows = ()

    class Meta:
        model = m.Picture
        fields = ("key", "line")
        labels = {"line": _("What you like about it")}
        widgets = {"line": forms.Textarea({"rows": 2})}

    def clean_line(self) -> str:
        return " ".join(self.cleaned_data["line"].split())

    def write(self, key: str, values: dict[str, Any]) -> None:
        """One that was removed meanwhile stays removed: its file is gone."""
        self.stored(self.wedding).filter(key=key).update(line=values["line"])

    def remove(self, key: str) -> None:
        for picture in self.stored(self.wedding).filter(key=key):
            picture.delete()
            forget(picture.file, picture.small)


class FilesInput(forms.FileInput):
    allow_multiple_selected = True

    def value_from_datadict(self, data: Any, files: Any, name: str) -> list[UploadedFile]:
        return files.getlist(name) if hasattr(files, "getlist") else []


class AddForm(forms.Form):
    """New files, and the line that goes beside each of them."""

    files = forms.Field(
        label=_("Choose pictures"),
        required=False,
        widget=FilesInput({"multiple": True, "accept": PICTURE_FILES}),
    )
    line = forms.CharField(
        required=False,
        max_length=120,
        help_text=_("Of several at once, each gets this line. You can change it afterwards."),
        widget=forms.Textarea({"rows": 2, "dir": "auto"}),
    )

    def __init__(self, line_label: str, *args: Any) -> None:
        super().__init__(*args)
        self.fields["files"].demanded = True  # a page with nothing on it but "(optional)"
        self.fields["line"].label = line_label
        limits = {"most": MOST_PICTURES, "size": MOST_BYTES // MEGABYTE}
        hint = _("JPEG, PNG, WebP or HEIC, at most %(size)s MB each, %(most)s pictures in all.")
        self.fields["files"].help_text = hint % limits
        self.fields["line"].error_messages |= words_for(self.fields["line"])

    def clean_line(self) -> str:
        return " ".join(self.cleaned_data["line"].split())

    def clean(self) -> None:
        if self.cleaned_data.get("line") and not self.cleaned_data.get("files"):
            text = _("Choose the picture that this line is about, or take the line away.")
            self.add_error("files", text)

    def tell(self, name: str, wrong: BadFileError) -> None:
        """One line about one file."""
        words = {"name": Truncator(name).chars(60), "what": wrong}
        self.add_error("files", _("“%(name)s”: %(what)s") % words)
