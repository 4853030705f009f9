"""Each migration and the note that it was made, in one transaction.

Django itself notes some of them only afterwards (those with statements that it puts off to their
end). Killed in between, it leaves a database that has the new shape and does not know it: every
later `migrate` fails since the table is there already.
"""

from __future__ import annotations

from typing import Any

from django.db import transaction
from django.db.migrations import Migration
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.state import ProjectState


class NotedAtOnce(MigrationExecutor):
    def apply_migration(
        self, state: ProjectState, migration: Migration, *args: Any, **options: Any
    ) -> ProjectState:
        if not migration.atomic:
            return super().apply_migration(state, migration, *args, **options)
        # SQLite takes this before a transaction only; Django's own editor sees that it is done.
        self.connection.disable_constraint_checking()
        try:
            with transaction.atomic(self.connection.alias):
                return super().apply_migration(state, migration, *args, **options)
        finally:
            self.connection.enable_constraint_checking()
