"""How the sun falls on people who face a bearing, and on the camera that looks back at them."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, cos, degrees, isfinite, radians, sin

from .sky import half_turn

# Common practice, no source: quarters of the compass, and a high sun lights from above.
FRONT, BACK, OVERHEAD = 45.0, 135.0, 60.0
# Ours: closer than this to the camera's axis the sun may stand in a wide lens's picture.
NEAR_LENS = 50.0


@dataclass(frozen=True, slots=True)
class Facing:
    """The sun on someone who faces a bearing, in degrees.

    `lit` is "front" (the sun in their eyes), "side-left" or "side-right" (their own left or
    right; their left is the camera's right), "back", "overhead", or None with the sun down.
    `relative` is the sun's bearing less theirs (-180 to 180, right positive), `angle` the arc
    between their level gaze and the sun, `camera_angle` that between the sun and a camera which
    looks at them. `sun_near_lens`: never look at the sun through an optical viewfinder.
    """

    lit: str | None
    relative: float
    angle: float
    camera_angle: float
    sun_near_lens: bool


def facing_light(altitude: float, azimuth: float, facing: float, pitch: float = 0.0) -> Facing:
    """Say how a sun at `altitude` and `azimuth` lights people who face the bearing `facing`.

    All in degrees, bearings from true north; `pitch` is how far the camera looks up. Raises
    ValueError for a bearing beyond 0 to 360.
    """
    if not isfinite(facing) or not 0 <= facing <= 360:
        raise ValueError(f"The bearing {facing:g} is not between 0 and 360 degrees.")
    relative = half_turn(azimuth - facing)
    camera_angle = _arc(altitude, relative + 180, pitch)
    up = altitude > 0
    return Facing(
        lit=_side(altitude, relative) if up else None,
        relative=relative,
        angle=_arc(altitude, relative, 0.0),
        camera_angle=camera_angle,
        sun_near_lens=up and camera_angle < NEAR_LENS,
    )


def _side(altitude: float, relative: float) -> str:
    if altitude > OVERHEAD:
        return "overhead"
    if abs(relative) <= FRONT:
        return "front"
    if abs(relative) >= BACK:
        return "back"
    return "side-right" if relative > 0 else "side-left"


def _arc(altitude: float, relative: float, pitch: float) -> float:
    a, p, r = radians(altitude), radians(pitch), radians(relative)
    return degrees(acos(max(-1.0, min(1.0, sin(a) * sin(p) + cos(a) * cos(p) * cos(r)))))
