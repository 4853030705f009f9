"""The address for whatever watches over the server."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.db import OperationalError, connection
from django.db.migrations.recorder import MigrationRecorder
from django.test import Client

from studio import disk
from tests.server import ROOT


def ask(client=None):
    response = (client or Client()).get("/health")
    return response.status_code, response.content


def test_all_is_well_and_no_more_is_told(db, wedding):
    response = Client().get("/health")
    assert (response.status_code, response.content) == (200, b"ok\n")
    assert response["Content-Type"] == "text/plain; charset=utf-8"
    assert "no-store" in response["Cache-Control"]
    assert not response.cookies


def test_it_costs_one_query(db, django_assert_num_queries):
    ask()
    with django_assert_num_queries(2):  # the table is there; what is in it
        ask()


def test_a_migration_that_waits(db, caplog):
    MigrationRecorder(connection).record_unapplied("intake", "0001_initial")
    assert ask() == (503, b"not ok\n")
    assert "migrations that wait: 1" in caplog.text


def test_a_database_without_a_table(tmp_path):
    """Before the first `migrate`: asked through the real settings, in a place of its own."""
    code = (
        "import django; django.setup()\n"
        "from django.test import Client\n"
        "r = Client(headers={'host': 'localhost'}).get('/health'); print(r.status_code, r.content)"
    )
    kept = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    own = {"FOREDAY_DATA": str(tmp_path), "DJANGO_SETTINGS_MODULE": "studio.settings"}
    command = [sys.executable, "-c", code]
    run = subprocess.run(command, cwd=ROOT, env=kept | own, capture_output=True, text=True)
    assert run.stdout == "503 b'not ok\\n'\n", run.stderr
    assert "migrations that wait" in run.stderr


def test_a_database_that_does_not_answer(monkeypatch, caplog):
    def fall(_recorder):
        raise OperationalError('no password for user "foreday" at db.example')

    monkeypatch.setattr(MigrationRecorder, "applied_migrations", fall)
    assert ask() == (503, b"not ok\n")
    assert "the database does not answer (OperationalError)" in caplog.text
    assert "db.example" not in caplog.text


@pytest.mark.parametrize("folder", ["gone", "file"])
def test_a_data_folder_that_cannot_be_written(db, tmp_path, settings, folder, caplog):
    (tmp_path / "file").write_text("")
    settings.DATA_DIR = tmp_path / folder
    assert ask() == (503, b"not ok\n")
    assert "the data folder cannot be written" in caplog.text
    assert str(tmp_path) not in caplog.text


def test_a_full_disk(db, monkeypatch, caplog):
    def full(**_where):
        return Path("/dev/full").open("wb")

    monkeypatch.setattr(disk.tempfile, "TemporaryFile", full)
    assert ask() == (503, b"not ok\n")
    assert "No space left on device" in caplog.text


def test_behind_the_proxy_it_is_answered_without_tls(db, settings):
    settings.SECURE_SSL_REDIRECT = True
    settings.SECURE_REDIRECT_EXEMPT = [r"^health$"]
    assert ask() == (200, b"ok\n")
    assert Client().get("/health/").status_code == 301
    assert Client().get("/sign-in").status_code == 301
