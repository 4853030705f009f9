"""A backup is one moment of the database, though people write all the while."""

import os
import re
import sqlite3
import threading
import zipfile

import psycopg
import pytest

from .places import place, told

TWO = "from intake.models import Wedding; [Wedding.objects.create(matters='0') for i in range(2)]"
FIRST = "UPDATE intake_wedding SET matters = '?' WHERE id = 1"
SECOND = "UPDATE intake_wedding SET matters = '?' WHERE id = 2"


def connect(environment):
    if url := environment.get("DATABASE_URL"):
        return psycopg.connect(url)
    path = os.path.join(environment["FOREDAY_DATA"], "foreday.sqlite3")
    return sqlite3.connect(path, timeout=30, check_same_thread=False)


def keep_writing(connection, stop, written):
    """Both rows get the same number, in one transaction, as fast as it goes."""
    while not stop.is_set():
        number = len(written) + 1
        for statement in (FIRST, SECOND):
            connection.execute(statement.replace("?", str(number)))
        connection.commit()
        written.append(number)


@pytest.mark.xdist_group("backup")
def test_rows_that_change_together_are_together_in_it(tmp_path):
    here = place(tmp_path / "here")
    told(here, "migrate", "-v0")
    told(here, "shell", "--no-imports", "-c", TWO)
    stop, written, writer = threading.Event(), [], connect(here)
    thread = threading.Thread(target=keep_writing, args=(writer, stop, written))
    thread.start()
    try:
        for number in range(3):
            told(here, "backup", tmp_path / f"{number}.zip")
    finally:
        stop.set()
        thread.join()
        writer.close()
    moments = [moment(tmp_path / f"{number}.zip", tmp_path) for number in range(3)]
    assert all(first == second for first, second in moments)
    numbers = [int(first) for first, _second in moments]
    assert 0 < numbers[0] < numbers[1] < numbers[2] <= len(written)


def moment(archive, tmp_path):
    with zipfile.ZipFile(archive) as file:
        (tmp_path / "d.sqlite3").write_bytes(file.read("database.sqlite3"))
    with sqlite3.connect(tmp_path / "d.sqlite3") as database:
        rows = [text for (text,) in database.execute("SELECT matters FROM intake_wedding")]
    database.close()
    assert all(re.fullmatch(r"\d+", text) for text in rows)
    return rows
