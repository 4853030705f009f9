"""Where private files lie: in the data folder, never where the web server looks."""

from __future__ import annotations

import os

from django.core.files.base import File
from django.core.files.storage import FileSystemStorage

from .disk import to_disk


class PrivateFiles(FileSystemStorage):
    """Files that are on the disk before their row is, and that have no address of their own."""

    def url(self, name: str | None) -> str:
        raise ValueError("A private file has no address of its own; a view sends it.")

    def _save(self, name: str, content: File) -> str:
        kept = super()._save(name, content)
        path = self.path(kept)
        for each in (path, os.path.dirname(path)):
            to_disk(each)
        return kept
