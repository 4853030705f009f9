"""A PostgreSQL of a test's own, with its tables on one small disk and its journal on another."""

import subprocess
import time
from contextlib import contextmanager, suppress
from pathlib import Path
from pwd import getpwnam

import psycopg
import pytest

from tests.server import free_port

PROGRAMS = sorted(Path("/usr/lib/postgresql").glob("*/bin"))  # as Debian has them
MOST = 14  # connections, of which the server may take nine


class Postgres:
    def __init__(self, folder, tables, journal):
        self.folder, self.port = folder, free_port()
        for each in (folder, tables, journal):
            self.give(each)
        self.run("initdb", "-U", "foreday", "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8",
                 "--wal-segsize=1", "-X", journal / "wal", "-D", folder / "db")  # fmt: skip
        self.start()
        with self.connect("postgres") as connection:
            connection.execute(f"CREATE TABLESPACE small LOCATION '{tables}'")
            connection.execute("CREATE DATABASE foreday TABLESPACE small")

    @property
    def url(self):
        return f"postgres://foreday@127.0.0.1:{self.port}/foreday"

    def connect(self, name="foreday"):
        where = {"host": "127.0.0.1", "port": self.port, "user": "foreday", "dbname": name}
        may_write = "-c default_transaction_read_only=off"
        return psycopg.connect(**where, options=may_write, autocommit=True)

    def give(self, folder):
        """To the account that PostgreSQL runs as, which is never root."""
        owner = getpwnam("postgres")
        folder.chmod(0o700)
        subprocess.run(["chown", "-R", f"{owner.pw_uid}:{owner.pw_gid}", str(folder)], check=True)

    def run(self, program, *args, check=True):
        owner = getpwnam("postgres")
        command = [str(PROGRAMS[-1] / program), *map(str, args)]
        quiet = subprocess.DEVNULL
        return subprocess.run(
            command, cwd=self.folder, user=owner.pw_uid, group=owner.pw_gid, extra_groups=[],
            stdout=quiet, stderr=quiet, check=check, timeout=120,
        )  # fmt: skip

    def start(self):
        options = f"-p {self.port} -c listen_addresses=127.0.0.1 -c max_connections={MOST} "
        options += f"-c unix_socket_directories={self.folder} -c min_wal_size=2MB "
        options += "-c max_wal_size=2MB -c superuser_reserved_connections=0"
        self.run("pg_ctl", "-D", self.folder / "db", "-w", "-l", self.folder / "log",
                 "-o", options, "start")  # fmt: skip

    def stop(self):
        self.run("pg_ctl", "-D", self.folder / "db", "-m", "fast", "stop", check=False)

    @contextmanager
    def down(self):
        self.stop()
        try:
            yield
        finally:
            self.start()

    def write_until_it_ends(self):
        """Into the journal, all of which is kept for a standby that never comes."""
        with suppress(psycopg.OperationalError), self.connect() as connection:
            connection.execute("SELECT pg_create_physical_replication_slot('standby', true)")
            while True:
                connection.execute(
                    "SELECT pg_logical_emit_message(false, '', repeat('x', 1000000))"
                )

    def up_again(self):
        """As whoever cares for the machine would: it may have given up on a full disk."""
        if self.run("pg_ctl", "-D", self.folder / "db", "status", check=False).returncode:
            self.start()
        until = time.monotonic() + 60
        while time.monotonic() < until:
            with suppress(psycopg.OperationalError):
                return self.say("SELECT pg_drop_replication_slot('standby')")
            time.sleep(0.2)
        raise AssertionError((self.folder / "log").read_text()[-3000:])

    @contextmanager
    def read_only(self):
        """As a standby is, or where somebody has said so."""
        try:
            self.say("ALTER SYSTEM SET default_transaction_read_only = on")
            yield
        finally:
            self.say("ALTER SYSTEM RESET default_transaction_read_only")

    def say(self, statement):
        with self.connect() as connection:
            connection.execute(statement)
            connection.execute("SELECT pg_reload_conf()")

    @contextmanager
    def crowded(self):
        """Others hold every connection that there is."""
        held, refused = [], 0
        try:
            while refused < 50:
                try:
                    held.append(self.connect())
                except psycopg.OperationalError:
                    refused += 1
            yield
        finally:
            for each in held:
                with suppress(psycopg.Error):
                    each.close()


@contextmanager
def own_postgres(folder, tables, journal):
    if not PROGRAMS:
        pytest.skip("needs Debian's postgresql")
    server = Postgres(folder, tables, journal)
    try:
        yield server
    finally:
        server.stop()
