"""Eight partners of four couples, and what must be there of all they typed."""

import os
import random
import re
import time

from tests.own_place import environment_for
from tests.server import manage

from .typist import Typist

COUPLES, PARTNERS = 4, 2
PATIENCE = 60  # seconds until somebody is heard again
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


def moments():
    """A source of random moments, and its seed, by which FOREDAY_SEED gives the same again."""
    seed = int(os.environ.get("FOREDAY_SEED") or random.SystemRandom().randrange(10**6))
    print(f"FOREDAY_SEED={seed}")
    return random.Random(seed), seed  # noqa: S311 - the same moments again
