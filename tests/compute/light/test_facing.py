"""How people are lit; the closed forms stand in evidence/light.json."""

import pytest

from planning.compute.light import facing_light

from .evidence import entries


@pytest.mark.parametrize("entry", [p for p in entries("formula") if p.id.startswith("facing")])
def test_facing_agrees_with_the_closed_form(entry):
    given, out = entry["inputs"], entry["outputs"]
    found = facing_light(given["sun_alt"], given["sun_az"], given["facing_deg"])
    assert found.lit == out["kind"]
    assert found.relative == pytest.approx(out["relative_deg"], abs=0.05)
    assert found.angle == pytest.approx(out["angle_between_deg"], abs=0.05)


@pytest.mark.parametrize(
    ("azimuth", "lit"),
    [
        (45, "front"),
        (46, "side-right"),
        (134, "side-right"),
        (135, "back"),
        (225, "back"),
        (226, "side-left"),
        (314, "side-left"),
        (315, "front"),
    ],
)
def test_the_quarters_meet_without_a_gap(azimuth, lit):
    assert facing_light(20, azimuth, 0).lit == lit


def test_a_high_sun_is_overhead_and_a_sunk_one_lights_nobody():
    assert facing_light(60.1, 180, 0).lit == "overhead"
    assert facing_light(60, 180, 0).lit == "back"
    sunk = facing_light(-1, 0, 0)
    assert (sunk.lit, sunk.sun_near_lens) == (None, False)


def test_the_camera_looks_the_other_way():
    # A camera straight at a back-lit couple has the sun as high above its axis as in the sky.
    low = facing_light(10, 270, 90)
    assert low.camera_angle == pytest.approx(10)
    assert low.sun_near_lens
    assert facing_light(10, 270, 90, pitch=10).camera_angle == pytest.approx(0, abs=1e-5)
    assert not facing_light(10, 90, 90).sun_near_lens


@pytest.mark.parametrize("bearing", [-1, 361, float("nan"), float("inf")])
def test_a_bearing_off_the_compass_is_refused(bearing):
    with pytest.raises(ValueError, match="bearing"):
        facing_light(10, 10, bearing)
