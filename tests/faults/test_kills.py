"""kill -9 at any moment: what the server acknowledged is there, and the database is whole.

Eight partners of four couples type against the real server, which is killed at random moments and
comes back at once. The normal run kills five times; a hundred times by

    uv run pytest -m large -n0 -s tests/faults/test_kills.py
    .ci/with-postgres uv run pytest -m large -n0 -s tests/faults/test_kills.py

where every tenth time PostgreSQL dies with all its processes, with the server or without it. The
moments come from a seed, which is printed; FOREDAY_SEED=N takes another's.
"""

import time
from statistics import median

import pytest

from .couples import (
    assert_nothing_is_missing,
    moments,
    place_of_four_couples,
    typists_at,
    wait_for_an_answer,
)
from .killable import killable
from .look import assert_indexes_are_whole, look
from .postgres import crash, throwaway
from .typist import at_work

pytestmark = pytest.mark.xdist_group("kills")
LONGEST = 0.7  # seconds of work between an acknowledged text and the kill
APP, POSTGRES, BOTH = "the server", "PostgreSQL", "both"


def kill_and_look(environment, server, typists, who, rng):
    """One life of the server; gives how many answers were awaited when it ended."""
    if not server.group:
        server.start()
    wait_for_an_answer(typists)
    time.sleep(rng.uniform(0, LONGEST))
    awaited = sum(typist.waiting for typist in typists)
    heard = {typist.name: typist.heard for typist in typists}
    if who != POSTGRES:
        server.kill()
        heard = {typist.name: typist.heard for typist in typists}
    if who != APP:
        crash(throwaway())
    assert_nothing_is_missing(typists, heard, look(environment))
    return awaited


def check_kills(tmp_path, capsys, victims):
    began = time.monotonic()
    environment, links = place_of_four_couples(tmp_path)
    rng, seed = moments()
    with killable(environment) as (server,):
        typists = typists_at(links, [server.address])
        with at_work(typists):
            awaited = [kill_and_look(environment, server, typists, who, rng) for who in victims]
    assert_indexes_are_whole(environment)
    heard, refused = (sum(getattr(each, n) for each in typists) for n in ("heard", "refused"))
    whom = ", ".join(f"{victims.count(who)} of {who}" for who in sorted(set(victims)))
    with capsys.disabled():
        print(
            f"\n{len(victims)} kills ({whom}), seed {seed}: {heard} texts "
            f"acknowledged, none lost; {median(awaited):g} of 8 answers awaited at a kill "
            f"(median), {refused} requests refused; {time.monotonic() - began:.0f} s"
        )
    assert median(awaited) >= 1  # the kills did hit work
    assert refused == 0 or POSTGRES in victims
    return heard


def test_five_kills_lose_no_acknowledged_word(tmp_path, capsys):
    assert check_kills(tmp_path, capsys, [APP] * 5) > 5


@pytest.mark.large
@pytest.mark.timeout(1200)
def test_a_hundred_kills_lose_no_acknowledged_word(tmp_path, capsys):
    tenth = [APP] * 9 + [POSTGRES if throwaway() else APP]
    victims = tenth * 5 + [BOTH if who == POSTGRES else who for who in tenth] * 5
    assert check_kills(tmp_path, capsys, victims) > 100
