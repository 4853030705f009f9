"""The light of a day at a place: when the sun and moon come and go, and where they stand.

Altitudes and bearings are degrees, bearings run clockwise from true north (never magnetic), times
are aware datetimes in the zone asked for. Measured against the SPA algorithm every boundary is
within a second between 55 south and 70 north; the real air and the real skyline move sunrise and
sunset by a minute or more, so print minutes.
"""

from .hours import solar_noon, zone_info
from .sun import SUN_EVENTS, SunPosition, position, refraction, sun_events

__all__ = [
    "SUN_EVENTS",
    "SunPosition",
    "position",
    "refraction",
    "solar_noon",
    "sun_events",
    "zone_info",
]
