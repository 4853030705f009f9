import subprocess
import sys
from hashlib import sha256
from statistics import correlation
from struct import pack

import pytest

from planning.compute.network import Law
from planning.compute.network.draws import DAYS, minutes, scores, shares

# Of this code, on the machine it was written on: any other machine must see the same days.
FINGERPRINT = "69a76ae18f0068e8"


def fingerprint():
    drawn = [*shares("block ceremony"), *minutes("block groups", Law(25, 35, 55))]
    return sha256(pack(f"<{len(drawn)}d", *drawn)).hexdigest()[:16]


def test_the_days_are_the_same_everywhere():
    assert fingerprint() == FINGERPRINT


def test_the_days_are_the_same_in_another_process_whatever_its_hashes():
    code = "from tests.compute.network.test_draws import fingerprint; print(fingerprint())"
    ran = subprocess.run(
        [sys.executable, "-c", code],
        env={"PYTHONHASHSEED": "77"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert ran.stdout.strip() == FINGERPRINT


def test_no_day_stands_on_the_edge_of_rounding():
    """Scores are rounded far above what machines differ by."""
    assert all(score == round(score, 6) for score in scores(DAYS))


def test_each_thing_has_every_share_once():
    assert sorted(shares("anything")) == [(i + 0.5) / DAYS for i in range(DAYS)]


@pytest.mark.parametrize("limit", [26, 30, 35, 40, 50, 54])
def test_one_block_has_exactly_the_chance_of_its_triangular_law(limit):
    """Textbook distribution function of the triangular law, written down here again."""
    a, m, b = 25, 35, 55
    below = (limit - a) ** 2 / ((b - a) * (m - a))
    above = 1 - (b - limit) ** 2 / ((b - a) * (b - m))
    drawn = minutes("groups", Law(a, m, b))
    share = len([one for one in drawn if one <= limit]) / DAYS
    assert share == pytest.approx(below if limit < m else above, abs=1 / DAYS)


def test_what_is_slow_is_slow_together():
    """Correlation 0.3 of the scores; of the shares 6 / pi x asin(0.15) = 0.288."""
    assert correlation(shares("one"), shares("other")) == pytest.approx(0.288, abs=0.05)


def test_another_law_keeps_slow_days_slow():
    quick, slow = minutes("x", Law(10, 20, 30)), minutes("x", Law(20, 40, 60))
    assert all(2 * one == pytest.approx(other) for one, other in zip(quick, slow, strict=True))


def test_what_never_varies_is_the_same_every_day():
    assert set(minutes("x", Law(30, 30, 30))) == {30.0}
    assert set(minutes("x", Law(0, 0, 0))) == {0.0}
    assert min(minutes("x", Law(30, 30, 60))) >= 30
    assert max(minutes("x", Law(10, 30, 30))) <= 30
