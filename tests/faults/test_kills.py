"""kill -9 at any moment: what the server acknowledged is there, and the database is whole.

Eight partners of four couples type against the real server, which is killed at random moments and
comes back at once. The normal run kills five times; a hundred times by

    uv run pytest -m large -n0 -s tests/faults/test_kills.py
    .ci/with-postgres uv run pytest -m large -n0 -s tests/faults/test_kills.py

where every tenth time PostgreSQL dies with all its processes, with the server or without it. The
moments come from a seed, which is printed; FOREDAY_SEED=N takes another's.
"""

import os
import random
import re
import time
from statistics import median

import pytest

from tests.own_place import environment_for
from tests.server import manage

from .killable import killable
from .look import assert_indexes_are_whole, look
from .postgres import crash, throwaway
from .typist import Typist, at_work

pytestmark = pytest.mark.xdist_group("kills")
COUPLES, PARTNERS = 4, 2
LONGEST = 0.7  # seconds of work between an acknowledged text and the kill
PATIENCE = 60  # seconds until somebody is heard again
APP, POSTGRES, BOTH = "the server", "PostgreSQL", "both"
MAKE = f"""
from datetime import date
from intake.links import link_path
from intake.models import Wedding
for i in range({COUPLES}):
    w = Wedding.objects.create(public_id=f"couple{{i}}")
    w.days.create(date=date(2027, 6, 12))
    for j in range({PARTNERS}):
        w.partners.create(name=f"Partner {{j}}", position=j)
    w.musthaves.create(key=f"c{{i}}p0", text="nothing yet")
    w.groups.create(key=f"c{{i}}p1", title="nothing yet", people="Ada", wish="must")
    print(link_path(w))
"""


def place_of_four_couples(folder):
    environment = environment_for(folder)
    manage(environment, "migrate", "-v0")
    return environment, manage(environment, "shell", "--no-imports", "-c", MAKE).split()


def typists_at(links, addresses):
    """Both partners of each couple; of two addresses each partner has one."""
    return [
        Typist(addresses[j % len(addresses)], link, f"c{i}p{j}", j)
        for i, link in enumerate(links)
        for j in range(PARTNERS)
    ]


def assert_nothing_is_missing(typists, heard, texts):
    """The last text that was acknowledged is there whole, or one that was sent after it is."""
    for typist in typists:
        assert not typist.wrong, typist.wrong[:2]
        found = [
            int(number) for number in re.findall(rf"{typist.name}-(\d+)$", "\n".join(texts), re.M)
        ]
        newest = max(found, default=0)
        assert newest >= heard[typist.name], f"{typist.name} lost words: has {newest}, {heard}"
        assert newest == 0 or typist.sent[newest] in texts, "a text came through in part"


def wait_for_an_answer(typists):
    began, until = sum(typist.heard for typist in typists), time.monotonic() + PATIENCE
    while sum(typist.heard for typist in typists) == began:
        assert time.monotonic() < until, "nothing is acknowledged any more"
        assert not any(typist.wrong for typist in typists), [t.wrong[:2] for t in typists]
        time.sleep(0.002)


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
    seed = int(os.environ.get("FOREDAY_SEED") or random.SystemRandom().randrange(10**6))
    print(f"FOREDAY_SEED={seed}")
    rng = random.Random(seed)  # noqa: S311 - the same moments again
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
@pytest.mark.timeout(600)
def test_a_hundred_kills_lose_no_acknowledged_word(tmp_path, capsys):
    tenth = [APP] * 9 + [POSTGRES if throwaway() else APP]
    victims = tenth * 5 + [BOTH if who == POSTGRES else who for who in tenth] * 5
    assert check_kills(tmp_path, capsys, victims) > 100
