"""Whether a newer version of this program has been at the database: this one then leaves it alone.

Each version adds migrations and the database keeps their names, so one of ours that is not in this
code came with a newer program, whose tables this one would read and fill as they no longer are.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from django.db import DatabaseError, connection
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder

OURS = {"intake", "planning", "studio"}  # a library may put its own together under a new name
Node = tuple[str, str]


@cache
def wanted() -> frozenset[Node]:
    """The migrations of this code, which does not change while it runs."""
    return frozenset(MigrationLoader(None).disk_migrations)


def applied() -> set[Node]:
    return set(MigrationRecorder(connection).applied_migrations())


def newer(nodes: Iterable[Node]) -> int:
    """How many of these came with a newer program."""
    return sum(node[0] in OURS and node not in wanted() for node in nodes)


def told() -> str:
    """One line for whoever starts something, where a newer program was here; else nothing."""
    found = newer(applied())
    return f"A newer Foreday was here ({found} migrations). Update this one." if found else ""


def is_newer() -> bool:
    """As far as the database tells: asked where it has failed already."""
    try:
        return newer(applied()) > 0
    except DatabaseError:
        return False
