"""What a process started by a test works on: a folder, and a database, of its own."""

import hashlib
import os

import psycopg


def environment_for(data, **more):
    """The environment of a process whose data folder is `data`.

    Where the tests run on PostgreSQL (DATABASE_URL), each folder has a database of its own there.
    """
    environment = {**os.environ, "FOREDAY_DATA": str(data), **more}
    if url := os.environ.get("DATABASE_URL"):
        environment["DATABASE_URL"] = own_database(url, data)
    return environment


def own_database(url, data):
    name = "place_" + hashlib.sha256(str(data).encode()).hexdigest()[:16]
    with psycopg.connect(url, autocommit=True) as connection:
        there = connection.execute("SELECT 1 FROM pg_database WHERE datname = %s", [name])
        if there.fetchone() is None:
            connection.execute(f'CREATE DATABASE "{name}"')  # our own digits
    return url.rpartition("/")[0] + "/" + name
