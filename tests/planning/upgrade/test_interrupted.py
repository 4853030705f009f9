"""`migrate` is killed (SIGKILL) in the middle: the next one goes on, and nothing is lost.

A migration is one transaction on either database, so that it is done or it is not. The statements
at which it is killed come from a seed, which is printed; FOREDAY_SEED=N takes another's.
"""

import signal
import subprocess
import sys

import pytest

from tests.faults.couples import moments
from tests.planning.backup.places import place, told
from tests.server import ROOT

from .kept import lost
from .stood import nodes
from .test_upgrade import season

# Statements to a kill; from the first version on all of it has more than three hundred, and what
# comes before the first change of a table has about forty.
FEWEST, MOST = 30, 100


def killed_at(environment, statement):
    """Whether `migrate` was killed there, and had not come to its end before."""
    command = [sys.executable, "-m", "tests.planning.upgrade.interrupted", str(statement)]
    done = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True)
    assert done.returncode in (0, -signal.SIGKILL), done.stderr[-3000:]
    return done.returncode != 0


def assert_goes_on(tmp_path, most, at_least):
    here = place(tmp_path / "here")
    rng, _seed = moments()
    made, _ = season(here, "make", *nodes(1))
    kills = 0
    while kills < most and killed_at(here, rng.randint(FEWEST, MOST)):
        kills += 1
    assert kills >= at_least
    told(here, "migrate")
    seen, _ = season(here, "look")
    assert lost(made["rows"], seen["rows"], made["applied"]) == []
    assert "No migrations to apply" in seen["again"]


def test_it_goes_on_after_two_kills(tmp_path):
    assert_goes_on(tmp_path, most=2, at_least=2)


@pytest.mark.large
@pytest.mark.timeout(900)
def test_it_goes_on_after_thirty_kills(tmp_path):
    assert_goes_on(tmp_path, most=30, at_least=5)
