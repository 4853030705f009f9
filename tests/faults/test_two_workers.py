"""Two server processes on one place, as behind a balancer: one partner of each couple at either.

Nobody hears that the database is busy, and nothing is lost, though either of them or both are
killed at random moments. More of it by

    uv run pytest -m large -n0 -s tests/faults/test_two_workers.py
    .ci/with-postgres uv run pytest -m large -n0 -s tests/faults/test_two_workers.py
"""

import time

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
LONGEST = 0.7  # seconds of work between an acknowledged text and a kill


def check_two(tmp_path, capsys, lives, texts):
    """So many kills of one of the two or of both; then so many texts more at each."""
    began = time.monotonic()
    environment, links = place_of_four_couples(tmp_path)
    rng, seed = moments()
    with killable(environment, count=2) as servers:
        for server in servers:
            server.start()
        typists = typists_at(links, [server.address for server in servers])
        with at_work(typists):
            for _ in range(lives):
                kill_some(environment, servers, typists, rng)
            go_on_at_each(servers, typists, texts)
        heard = {typist.name: typist.heard for typist in typists}
        assert_nothing_is_missing(typists, heard, look(environment))
    assert_indexes_are_whole(environment)
    with capsys.disabled():
        print(
            f"\n{lives} kills among two servers, seed {seed}: {sum(heard.values())} texts "
            f"acknowledged, none lost, nobody refused; the slowest answer took "
            f"{max(typist.slowest for typist in typists):.2f} s; {time.monotonic() - began:.0f} s"
        )
    assert not any(typist.refused for typist in typists)  # no 503: "too many were writing"


def kill_some(environment, servers, typists, rng):
    wait_for_an_answer(typists)
    time.sleep(rng.uniform(0, LONGEST))
    gone = rng.choice([servers[:1], servers[1:], servers])
    heard = {typist.name: typist.heard for typist in typists}
    for server in gone:
        server.kill()
    assert_nothing_is_missing(typists, heard, look(environment))
    for server in gone:
        server.start()


def go_on_at_each(servers, typists, texts):
    wanted = {typist.name: typist.heard + texts for typist in typists}
    until = time.monotonic() + 300
    while any(typist.heard < wanted[typist.name] for typist in typists):
        assert time.monotonic() < until, "somebody is not heard any more"
        assert not any(typist.wrong for typist in typists), [t.wrong[:2] for t in typists]
        time.sleep(0.01)
    for server in servers:
        assert any(typist.address == server.address for typist in typists)


def test_two_servers_on_one_place_lose_nothing_and_refuse_nobody(tmp_path, capsys):
    check_two(tmp_path, capsys, lives=3, texts=3)


@pytest.mark.large
@pytest.mark.timeout(900)
def test_two_servers_are_killed_sixty_times(tmp_path, capsys):
    check_two(tmp_path, capsys, lives=60, texts=50)
