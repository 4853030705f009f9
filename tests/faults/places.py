"""Places that are put back as they were between two kills, and all that is in them."""

import os
import shutil
import sqlite3
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path
from urllib.parse import urlsplit

import psycopg

from planning.backup.archive import DATABASE, PICTURES, opened
from tests.planning.backup.places import place

from .command import Commands
from .killable import forking, wait_until
from .look import reading

# Who is signed in is not kept; when a migration was applied is a place's own.
NOT_KEPT = ("django_session", "axes_", "django_migrations", "sqlite_")
NAMES = {
    sqlite3.Connection: "SELECT name FROM sqlite_master WHERE type = 'table'",
    psycopg.Connection: "SELECT tablename FROM pg_tables WHERE schemaname = 'public'",
}
OTHERS = (
    "SELECT count(*) FROM pg_stat_activity "
    "WHERE datname = current_database() AND pid <> pg_backend_pid()"
)
KEY, FILE = "secret_key", "foreday.sqlite3"


@contextmanager
def place_in(folder):
    """A place of its own, empty, with a process that has loaded the commands."""
    environment = place(folder / "place")
    with forking(environment, "commands") as process:
        yield Place(folder, environment, Commands(process, folder))


class Place:
    """A data folder and its database, each state of which can be kept under a name."""

    def __init__(self, folder, environment, commands):
        self.folder, self.states = folder / "place", folder / "states"
        self.environment, self.commands = environment, commands
        self.states.mkdir()
        self.database = urlsplit(environment.get("DATABASE_URL", "")).path[1:]

    def keep(self, name):
        shutil.copytree(self.folder, self.states / name)
        self._copy_database(self.database, f"{self.database}_{name}")

    def put_back(self, name):
        shutil.rmtree(self.folder)
        shutil.copytree(self.states / name, self.folder)
        self._copy_database(f"{self.database}_{name}", self.database)

    def _copy_database(self, source, target):
        if not self.database:
            return
        url = os.environ["DATABASE_URL"]
        with psycopg.connect(url, autocommit=True) as connection:
            connection.execute(f'DROP DATABASE IF EXISTS "{target}" WITH (FORCE)')
            connection.execute(f'CREATE DATABASE "{target}" TEMPLATE "{source}"')

    def rows(self):
        connection = reading(self.environment)
        try:
            if self.database:  # which goes on for a moment with what the dead had asked for
                wait_until(lambda: connection.execute(OTHERS).fetchone() == (0,), "at work still")
            return rows_in(connection)
        finally:
            connection.close()

    def pictures(self):
        home = self.folder / "pictures"
        return {
            path.relative_to(home).as_posix(): sha256(path.read_bytes()).hexdigest()
            for path in home.rglob("*")
            if path.is_file()
        }

    def key(self):
        return (self.folder / KEY).read_text()

    def left_over(self):
        """Whatever lies in the data folder that a command should have taken away again."""
        ours = {KEY, FILE, f"{FILE}-wal", f"{FILE}-shm", "pictures", "backups"}
        beside = [path.name for path in self.folder.iterdir() if path.name not in ours]
        return beside + [path.name for path in self.folder.glob("backups/.*")]

    def own_backups(self):
        return sorted(self.folder.glob("backups/*.zip"))


def rows_in(connection):
    """Every row that is worth keeping, by its table."""
    if isinstance(connection, sqlite3.Connection):
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    names = [name for (name,) in connection.execute(NAMES[type(connection)])]
    rows = {
        name: sorted(map(repr, connection.execute(f'SELECT * FROM "{name}"')))  # noqa: S608 - ours
        for name in names
        if not name.startswith(NOT_KEPT)
    }
    return {name: found for name, found in rows.items() if found}


def inside(archive, folder):
    """The rows, the pictures and the key of a backup, which must be whole."""
    with opened(archive, str(archive)) as file:
        file.check()
        members = {
            name: sha256(b"".join(file.chunks(name))).hexdigest() for name in file.manifest.members
        }
        copy = Path(folder) / "inside.sqlite3"
        copy.write_bytes(b"".join(file.chunks(DATABASE)))
    connection = sqlite3.connect(copy)
    try:
        rows = rows_in(connection)
    finally:
        connection.close()
    pictures = {
        name.removeprefix(PICTURES): digest
        for name, digest in members.items()
        if name.startswith(PICTURES)
    }
    return rows, pictures
