"""The scanner on curves whose roots are known in closed form."""

from math import asin, cos, pi, sin

import pytest

from planning.compute.light.scan import crossings, knots

DAY = 86400.0


def wave(at):
    return sin(2 * pi * at / DAY)


def moments(curve, level, start=0.0, end=DAY, step=900.0):
    return crossings(curve, knots(curve, start, end, step), level, start, end)


@pytest.mark.parametrize("level", [-0.99, -0.5, 0.25, 0.7, 0.999])
def test_crossings_of_a_sine_are_where_the_arcsine_says(level):
    first = asin(level) * DAY / (2 * pi)
    wanted = sorted(x % DAY for x in (first, DAY / 2 - first))
    assert [x.at for x in moments(wave, level)] == pytest.approx(wanted, abs=0.01)


def test_a_grazing_pair_between_two_samples_is_found():
    # The top stands at 07:30:07, between samples; the curve is above the level for 40 s only.
    top = 7.5 * 3600 + 7
    found = moments(lambda at: cos((at - top) / 13000), cos(20 / 13000))
    assert [(x.at, x.rising) for x in found] == [
        (pytest.approx(top - 20, abs=0.5), True),
        (pytest.approx(top + 20, abs=0.5), False),
    ]


def test_a_curve_that_stays_below_never_crosses():
    assert moments(wave, 1.0001) == ()


def test_each_crossing_belongs_to_one_window_only():
    for edge in range(0, 86400, 613):
        both = moments(wave, 0.25, 0, edge) + moments(wave, 0.25, edge, DAY)
        assert len(both) == 2
