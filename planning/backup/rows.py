"""Rows from one database into another, whatever either of them is.

Models are those of a point in the migrations (Django's project state), so that a database is read
as it is, and not as the newest code would have it.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import Any

from django.apps.registry import Apps
from django.db import connections, models, transaction
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.loader import MigrationLoader

# Who is signed in just now, and who mistyped a password: of no use elsewhere, or later.
LEFT_OUT = {"sessions", "axes"}
BATCH = 500

Node = tuple[str, str]


def applied(alias: str) -> set[Node]:
    return set(MigrationLoader(connections[alias]).applied_migrations)


def unknown(nodes: set[Node]) -> set[Node]:
    """Migrations that this program does not have: a newer one made them."""
    known = MigrationLoader(None)
    return {node for node in nodes if node not in known.graph.nodes} - set(known.replacements)


def models_at(nodes: set[Node]) -> Apps:
    """The models as they were when just these migrations were applied."""
    loader = MigrationLoader(None)
    return loader.project_state([node for node in nodes if node in loader.graph.nodes]).apps


def migrate_to(alias: str, nodes: set[Node]) -> None:
    """Build an empty database up to a point."""
    executor = MigrationExecutor(connections[alias])
    graph = executor.loader.graph
    last = [node for node in nodes if node in graph.nodes and not _followers(graph, node) & nodes]
    executor.migrate(sorted(last))


def _followers(graph: Any, node: Node) -> set[Node]:
    """The next migrations of the same app."""
    return {child.key for child in graph.node_map[node].children if child.key[0] == node[0]}


def kept_models(apps: Apps) -> list[type[models.Model]]:
    every = apps.get_models(include_auto_created=True)
    return [m for m in every if m._meta.app_label not in LEFT_OUT and not m._meta.proxy]


def forget_what_is_left_out(apps: Apps, alias: str) -> None:
    for model in apps.get_models():
        if model._meta.app_label in LEFT_OUT:
            model._base_manager.using(alias).all().delete()


def copy_rows(apps: Apps, source: str, target: str) -> None:
    """All rows of all tables; those of the target must be gone. Exactly as they are, keys too."""
    with transaction.atomic(using=target):
        for model in kept_models(apps):
            for made_by_itself in model._meta.local_concrete_fields:
                if isinstance(made_by_itself, models.DateField):  # and not as of now
                    made_by_itself.auto_now = made_by_itself.auto_now_add = False
            rows = model._base_manager.using(source).order_by("pk").iterator(chunk_size=BATCH)
            for batch in _batches(rows):
                model._base_manager.using(target).bulk_create(batch)


def _batches(rows: Iterator[models.Model]) -> Iterator[list[models.Model]]:
    while batch := list(islice(rows, BATCH)):
        for row in batch:
            row._state.adding, row._state.db = True, None
        yield batch
