"""The rows of all weddings."""

import json

from django.core.management import call_command

from planning.bench.season import as_line, head, rows_of
from tests.own_place import environment_for
from tests.server import manage


def test_a_row_tells_time_and_queries_for_each_number_of_weddings(db):
    rows = {row["work"]: row for row in rows_of((1, 8, 12), times=1)}
    for row in rows.values():
        assert list(row["weddings"]) == [1, 8, 12]
        assert all(each["median"] > 0 for each in row["weddings"].values())
        assert row["weddings"][8]["queries"] == row["weddings"][12]["queries"]
        assert row["ratio"] == row["weddings"][12]["median"] / row["weddings"][8]["median"]
    assert len(as_line(rows["season pages: ahead"])) == len(head((1, 8, 12)))
    assert rows["season pages: find nothing"]["weddings"][12]["queries"] < 15


CODE = """
from intake.models import Wedding
from planning.bench.many_weddings import add_weddings, own_database
from django.utils import timezone
Wedding.objects.create()
with own_database():
    assert not Wedding.objects.exists()
    add_weddings(0, 3, timezone.localdate())
assert Wedding.objects.count() == 1
"""


def test_the_invented_weddings_lie_in_a_database_of_their_own(tmp_path):
    environment = environment_for(tmp_path)
    manage(environment, "migrate")
    before = {path.name for path in tmp_path.rglob("*")}
    manage(environment, "shell", "-c", CODE)
    assert {path.name for path in tmp_path.rglob("*")} <= before | {
        "foreday.sqlite3-wal", "foreday.sqlite3-shm"
    }  # fmt: skip


def test_the_command_prints_the_seasons_rows(db, capsys, monkeypatch):
    monkeypatch.setattr("planning.bench.season.measured", lambda: rows_of((1, 2, 3), times=1))
    call_command("bench", "--only", "season pages", "--json")
    rows = json.loads(capsys.readouterr().out)["season"]
    assert "season pages: calendar" in {row["work"] for row in rows}
