"""The machine's clock jumps while people type: 1970, 2000, an hour back, ten years on.

Nothing that was acknowledged is lost, and nobody hears an error. Cookies of couples end after 400
days, so that ten years on they open their link once more, which is no loss. More of it by

    uv run pytest -m large -n0 -s tests/faults/test_clock_jumps.py
"""

import os
import time
from datetime import UTC, datetime

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
from .typist import at_work

pytestmark = pytest.mark.xdist_group("kills")
HOUR, YEAR = 3600, 365 * 24 * 3600
BACK_TO = [datetime(year, 1, 1, tzinfo=UTC).timestamp() for year in (1970, 2000)]


def jumps():
    """How far the clock is wrong, one after the other, in seconds; the last time not at all."""
    return [*(to - time.time() for to in BACK_TO), -HOUR, HOUR, 10 * YEAR, -40, 0.0]


def check_jumps(tmp_path, capsys, rounds):
    environment, links = place_of_four_couples(tmp_path)
    clock = tmp_path / "clock"
    set_clock(clock, 0.0)
    rng, seed = moments()
    with killable(environment | {"FOREDAY_TEST_CLOCK": str(clock)}) as (server,):
        server.start()
        typists = typists_at(links, [server.address])
        for typist in typists:
            typist.opens_again = True
        with at_work(typists):
            for _ in range(rounds):
                for wrong in rng.sample(jumps(), k=len(jumps())):
                    wait_for_an_answer(typists)
                    time.sleep(rng.uniform(0, 0.3))  # in the middle of requests
                    set_clock(clock, wrong)
                    wait_for_an_answer(typists)
                    heard = {typist.name: typist.heard for typist in typists}
                    assert_nothing_is_missing(typists, heard, look(environment))
        heard = {typist.name: typist.heard for typist in typists}
        assert_nothing_is_missing(typists, heard, look(environment))
    assert_indexes_are_whole(environment)
    with capsys.disabled():
        print(
            f"\n{rounds * len(jumps())} jumps of the clock, seed {seed}: "
            f"{sum(heard.values())} texts acknowledged, none lost"
        )
    assert not any(typist.refused for typist in typists)


def set_clock(path, wrong):
    """At once, so that no half a number is read."""
    new = f"{wrong:<40.3f}".encode()
    handle = os.open(path, os.O_RDWR | os.O_CREAT)
    os.pwrite(handle, new, 0)
    os.close(handle)


def test_words_survive_a_clock_that_jumps(tmp_path, capsys):
    check_jumps(tmp_path, capsys, rounds=1)


@pytest.mark.large
@pytest.mark.timeout(900)
def test_words_survive_a_clock_that_jumps_a_hundred_times(tmp_path, capsys):
    check_jumps(tmp_path, capsys, rounds=15)
