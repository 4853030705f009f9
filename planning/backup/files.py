"""Which files of the store the rows name."""

from __future__ import annotations

from collections.abc import Iterator

from django.apps.registry import Apps
from django.core.files.storage import Storage

KEPT = {"file", "small", "digest"}  # the fields of a row with a file, as intake/store.py fills them


def named_files(apps: Apps, alias: str = "default", wedding: str = "") -> set[str]:
    """The names of all files that rows hold on to; with `wedding` those of one public id.

    `apps` are the models of any time: django.apps.apps, or those of a point in the migrations.
    """
    names: set[str] = set()
    for model in apps.get_models():
        if {field.name for field in model._meta.concrete_fields} >= KEPT:
            rows = model._base_manager.using(alias)
            rows = rows.filter(wedding__public_id=wedding) if wedding else rows
            for pair in rows.values_list("file", "small"):
                names.update(pair)
    names.update(_answered(apps, alias, wedding))
    return names - {""}


def _answered(apps: Apps, alias: str, wedding: str) -> Iterator[str]:
    """Files that answer one of the studio's own questions."""
    try:
        answers = apps.get_model("intake", "Answer")._base_manager.using(alias).filter(kind="file")
    except LookupError:  # before there were any
        return
    answers = answers.filter(wedding__public_id=wedding) if wedding else answers
    for value in answers.values_list("value", flat=True):
        yield value["file"]
        yield value.get("small", "")


def stored_files(store: Storage, folder: str = "") -> Iterator[str]:
    """The names of all files that lie in the store, with or without a row."""
    try:
        folders, files = store.listdir(folder)
    except FileNotFoundError:
        return
    for file in files:
        yield f"{folder}/{file}" if folder else file
    for each in folders:
        yield from stored_files(store, f"{folder}/{each}" if folder else each)
