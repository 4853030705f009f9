"""Two judges for tests only: the SPA algorithm (pvlib) and a JPL ephemeris (skyfield).

SPA: Reda & Andreas, Solar Position Algorithm, NREL/TP-560-34302; only its position function is
used, never pvlib's rise and set times, which slip a day in the Americas. DE421 comes with the
package skyfield-data.
"""

import warnings

import numpy as np

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from pvlib import spa
    from skyfield.api import Loader, wgs84
    from skyfield_data import get_skyfield_data_path

DELTA_T = 69.2


def spa_sun(spot, moments):
    """True altitude and azimuth in degrees at moments in seconds since 1970 UTC."""
    out = spa.solar_position_numpy(
        np.atleast_1d(np.asarray(moments, dtype=float)),
        spot.latitude,
        spot.longitude,
        0.0,
        1010.0,
        10.0,
        DELTA_T,
        0.5667,
        1,
    )
    return out[3], out[4]


def spa_roots(spot, start, end, heights, step=600.0):
    """Moments in [start, end) at which the sun passes each (height, rising): to 0.005 s.

    Returns {(height, rising): sorted moments}; all are bisected together, for speed.
    """
    grid = np.append(np.arange(start, end, step), end)
    altitude = spa_sun(spot, grid)[0]
    found = []
    for height, rising in heights:
        above = altitude >= height
        changes = np.flatnonzero(above[:-1] != above[1:])
        found += [(grid[i], height, rising) for i in changes if above[i + 1] == rising]
    low = np.array([x[0] for x in found])
    level, rises = (np.array([x[n] for x in found]) for n in (1, 2))
    width = step
    while len(low) and width > 0.005:
        width /= 2
        late = (spa_sun(spot, low + width)[0] >= level) == rises.astype(bool)
        low = np.where(late, low, low + width)
    roots = {key: [] for key in heights}
    for at, (_, height, rising) in zip(low + width / 2, found, strict=True):
        roots[height, rising].append(float(at))
    return roots


def jpl_direction(body, spot, moments):
    """True altitude and azimuth in degrees and distance in km of "sun" or "moon" by DE421."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        loader = Loader(get_skyfield_data_path(), verbose=False)
        scale, bodies = loader.timescale(), loader("de421.bsp")
    try:
        at = scale.ut1_jd(np.asarray(moments) / 86400 + 2440587.5)
        place = bodies["earth"] + wgs84.latlon(spot.latitude, spot.longitude)
        altitude, azimuth, distance = place.at(at).observe(bodies[body]).apparent().altaz()
    finally:
        bodies.close()
    return altitude.degrees, azimuth.degrees, distance.km


def delta_t(moments):
    """Seconds from the earth's clock to even time, as the IERS measured or foresees them."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        scale = Loader(get_skyfield_data_path(), verbose=False).timescale()
    return scale.ut1_jd(np.asarray(moments) / 86400 + 2440587.5).delta_t
