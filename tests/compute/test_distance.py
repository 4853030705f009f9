"""Distances against published figures."""

import pytest

from planning.compute.distance import distance_km
from planning.compute.values import Spot


def test_the_much_used_example_of_the_haversine_formula():
    # Rosetta Code, "Haversine formula": Nashville to Los Angeles airports, 6371.0 km radius.
    far = distance_km(Spot(36.12, -86.67), Spot(33.94, -118.40))
    assert far == pytest.approx(2886.4444, abs=0.01)


def test_a_minute_of_latitude_is_a_nautical_mile():
    # 1 nautical mile = 1.852 km (First International Extraordinary Hydrographic Conference, 1929).
    assert distance_km(Spot(10, 20), Spot(11, 20)) == pytest.approx(60 * 1.852, rel=0.002)


@pytest.mark.parametrize(
    ("one", "other", "km"),
    [
        (Spot(5, 5), Spot(5, 5), 0),
        (Spot(0, 179.5), Spot(0, -179.5), 111.195),  # over the date line, not round the world
        (Spot(90, 10), Spot(90, -150), 0),  # every longitude meets at a pole
        (Spot(0, 0), Spot(0, 180), 20015.1),
    ],
)
def test_the_edges_of_the_map_do_not_part_what_is_near(one, other, km):
    assert distance_km(one, other) == pytest.approx(km, abs=0.1)
