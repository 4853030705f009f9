"""What is in a database after something went wrong, read from outside of Foreday."""

import json
import os
import sqlite3

import psycopg

TEXTS = "SELECT text FROM intake_musthave UNION ALL SELECT title FROM intake_group"
DRAFTS = "SELECT draft FROM intake_stepstate WHERE draft IS NOT NULL"
NOTHING = (
    "UPDATE intake_musthave SET text = 'nothing yet'",
    "UPDATE intake_group SET title = 'nothing yet'",
    "UPDATE intake_stepstate SET draft = NULL",
)
INDEXES = (
    "SELECT count(bt_index_check(c.oid, true)) FROM pg_class c JOIN pg_am a ON a.oid = c.relam "
    "JOIN pg_namespace n ON n.oid = c.relnamespace WHERE a.amname = 'btree' AND n.nspname='public'"
)


def reading(environment):
    if url := environment.get("DATABASE_URL"):
        return psycopg.connect(url, autocommit=True, connect_timeout=10)
    return sqlite3.connect(os.path.join(environment["FOREDAY_DATA"], "foreday.sqlite3"), timeout=10)


def look(environment):
    """Every text that is in the database, kept or as a draft; and that the database is whole.

    All of it is of one moment: meanwhile another server may keep what is a draft now.
    """
    connection = reading(environment)
    try:
        is_file = isinstance(connection, sqlite3.Connection)
        connection.execute("BEGIN" if is_file else "BEGIN ISOLATION LEVEL REPEATABLE READ")
        if is_file:
            assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
            assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
        texts = [text for (text,) in connection.execute(TEXTS)]
        for (draft,) in connection.execute(DRAFTS):
            sheets = (json.loads(draft) if isinstance(draft, str) else draft)["sheets"]
            texts += [text for sheet in sheets for (text, *_) in sheet["typed"].values()]
    finally:
        connection.close()
    return texts


def as_if_nothing_was_typed(environment):
    """So that other typists may count from one again."""
    connection = reading(environment)
    try:
        for statement in NOTHING:
            connection.execute(statement)
        connection.commit()
    finally:
        connection.close()


def assert_indexes_are_whole(environment):
    """PostgreSQL's own check of every index against its table; SQLite's is in integrity_check."""
    if environment.get("DATABASE_URL"):
        with reading(environment) as connection:
            connection.execute("CREATE EXTENSION IF NOT EXISTS amcheck")
            assert connection.execute(INDEXES).fetchone()[0] > 50
