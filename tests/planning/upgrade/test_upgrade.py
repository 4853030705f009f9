"""A database of every earlier version comes up whole: no row is lost, and every page answers.

Rows are put into every table there was, through the models of that time (filler.py); then the real
`migrate` runs. The version before is tried in the ordinary run, every other point by

    uv run pytest -m large -n 2 tests/planning/upgrade
    .ci/with-postgres uv run pytest -m large -n 2 tests/planning/upgrade
"""

import json
import subprocess
import sys
from copy import deepcopy

import pytest
from django.apps import apps
from django.db.migrations.loader import MigrationLoader

from tests.planning.backup.places import place, told
from tests.server import ROOT

from .filler import ROWS, WEDDINGS
from .kept import LEFT_OUT, TAKEN_AWAY, WRITTEN_ANEW, lost
from .stood import CAME, newest, nodes

EARLIER = range(1, len(CAME))


def season(environment, *args):
    """What season.py finds, in a process on that place."""
    command = [sys.executable, "-m", "tests.planning.upgrade.season", *args]
    done = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr[-3000:]
    return json.loads(done.stdout), done.stderr


def assert_comes_up_whole(tmp_path, count, how, weddings):
    here, there = place(tmp_path / "here"), place(tmp_path / "there")
    made, _ = season(here, "make", *nodes(count))
    assert {len(rows) for rows in made["rows"].values()} == {ROWS}, "a table was left empty"
    told(here, "migrate")
    seen, log = season(here, how, *weddings)
    assert lost(made["rows"], seen["rows"], made["applied"]) == []
    assert "No migrations to apply" in seen["again"]
    wrong = [address for address, status in seen["pages"] if status >= 500]
    assert wrong == [], log[-3000:]
    assert len(seen["pages"]) > 80 * len(weddings)
    (kept,) = (tmp_path / "here" / "backups").iterdir()  # the second `migrate` made none
    told(there, "restore", kept)
    again, _ = season(there, "look")
    carried = {each: made["rows"][each] for each in made["rows"] if not each.startswith(LEFT_OUT)}
    assert lost(carried, again["rows"], made["applied"]) == []


def test_a_database_of_the_version_before_comes_up_whole(tmp_path):
    assert_comes_up_whole(tmp_path, EARLIER[-1], "look", WEDDINGS[:1])


@pytest.mark.large
@pytest.mark.timeout(900)
@pytest.mark.parametrize("count", EARLIER, ids=newest)
def test_a_database_of_every_earlier_point_comes_up_whole(tmp_path, count):
    assert_comes_up_whole(tmp_path, count, "draw", WEDDINGS)


def test_every_migration_is_among_those_that_came():
    """A new one fails here until it is at the end of stood.py, and so is gone through above."""
    came = [node for each in CAME for node in each.items()]
    ours = [node for node in MigrationLoader(None).graph.nodes if node[0] in CAME[0]]
    assert sorted(came) == sorted(ours)
    for app in CAME[0]:
        assert [node for node in came if node[0] == app] == sorted(n for n in ours if n[0] == app)


WAS = {"planning.Hours": {"1": {"starts": "time(9)"}, "2": {"starts": "None"}}}


@pytest.mark.parametrize(
    ("harm", "words"),
    [
        (lambda tables: tables.pop("planning.Hours"), "planning.Hours: there is no such table"),
        (lambda tables: tables["planning.Hours"].pop("2"), "planning.Hours 2: is lost"),
        (lambda tables: tables["planning.Hours"]["1"].pop("starts"), "starts of 1: None, and was"),
        (lambda tables: tables["planning.Hours"]["1"].update(starts="None"), "starts of 1: None"),
        (lambda tables: tables["planning.Hours"].update({"3": {}}), "3: came from nowhere"),
    ],
)
def test_what_a_migration_loses_is_named(harm, words):
    now = deepcopy(WAS)
    assert lost(WAS, now, []) == []
    harm(now)
    (sentence,) = lost(WAS, now, [])
    assert words in sentence


def test_what_may_be_lost_is_named_with_its_migration():
    names = {".".join(node) for node in MigrationLoader(None).graph.nodes}
    assert {migration for migration, _become in WRITTEN_ANEW.values()} <= names
    assert {migration for migration, _why in TAKEN_AWAY.values()} <= names
    tables = {model._meta.label for model in apps.get_models()}
    assert all(name.rpartition(".")[0] in tables for name in WRITTEN_ANEW)
