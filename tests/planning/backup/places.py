"""Places with a season in them, and what can be asked of them from outside."""

import json
import os
import subprocess
import sys

from tests.own_place import environment_for
from tests.server import ROOT


def place(folder, on="here", **more):
    """The environment of a place: on the database of this run, or on SQLite in any case."""
    environment = environment_for(folder, **more) if on == "here" else sqlite(folder, **more)
    environment.pop("DJANGO_SECRET_KEY", None)  # each has a key of its own
    return environment | more


def sqlite(folder, **more):
    kept = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    return kept | {"FOREDAY_DATA": str(folder)} | more


def run(environment, *args):
    """A command; gives the finished process."""
    command = [sys.executable, "manage.py", *map(str, args)]
    return subprocess.run(
        command, cwd=ROOT, env=environment, capture_output=True, text=True, check=False
    )


def told(environment, *args):
    """What a command prints, which must have gone well."""
    done = run(environment, *args)
    assert done.returncode == 0, done.stderr
    return done.stdout


def refused(environment, *args):
    """The one line of a command that refuses."""
    done = run(environment, *args)
    assert done.returncode == 2, (done.stdout, done.stderr)
    (line,) = done.stderr.splitlines()
    return line


def look(environment, wedding):
    """What can be seen of a place: look.py."""
    command = [sys.executable, "-m", "tests.planning.backup.look", wedding]
    done = subprocess.run(
        command, cwd=ROOT, env=environment, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)
