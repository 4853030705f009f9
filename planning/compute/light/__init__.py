"""The light of a day at a place: when the sun and moon come and go, and where they stand.

Altitudes and bearings are degrees, bearings run clockwise from true north (never magnetic), times
are aware datetimes in the zone asked for. Every boundary of 2025 to 2030 between 55 south and 70
north was within a second of the SPA algorithm's (or, where the sun grazes a height, within 0.0001
degrees of it). The real air and the real skyline move sunrise and sunset by a minute or more
(from memory), so print minutes.
"""

from .course import Band, light_bands, sun_course
from .facing import Facing, facing_light
from .hours import solar_noon, zone_info
from .moon import Moon, moon, moon_events, moon_phases
from .report import light_report
from .second import SecondOpinion, second_opinion
from .sheet import light_sheet, sun_then, with_blocks
from .skyline import Skyline, skyline_events, sunlit_stretches
from .sun import SUN_EVENTS, SunPosition, position, refraction, sun_events
from .visit import VisitMatch, match_visit, same_altitude, same_azimuth, visit_days
from .windows import Window, light_windows

__all__ = [
    "SUN_EVENTS",
    "Band",
    "Facing",
    "Moon",
    "SecondOpinion",
    "Skyline",
    "SunPosition",
    "VisitMatch",
    "Window",
    "facing_light",
    "light_bands",
    "light_report",
    "light_sheet",
    "light_windows",
    "match_visit",
    "moon",
    "moon_events",
    "moon_phases",
    "position",
    "refraction",
    "same_altitude",
    "same_azimuth",
    "second_opinion",
    "skyline_events",
    "solar_noon",
    "sun_course",
    "sun_events",
    "sun_then",
    "sunlit_stretches",
    "visit_days",
    "with_blocks",
    "zone_info",
]
