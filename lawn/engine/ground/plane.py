"""A local plane for places on the earth: metres east and north of an origin.

The ellipsoidal orthographic projection looks straight down on the plane that touches the ellipsoid at the origin. A
length d out it is short by (d / earth's radius) squared over two: 0.05 millionths at 2 km. It is written here by
differences of angles, since the printed form subtracts numbers of millions of metres and loses the digits of a yard.
"""

import math

from lawn.engine.core.numeric import number

# WGS 84, the ellipsoid the positions of phones refer to (W3C-GEOLOCATION).
EARTH_AXIS = 6378137.0
FLATTENING = 1.0 / 298.257223563
ECCENTRICITY_SQUARED = FLATTENING * (2.0 - FLATTENING)


def east_north(*, lat: float, lon: float, origin_lat: float, origin_lon: float) -> tuple[float, float]:
    """Metres east and north of an origin.

    Args:
        lat: latitude, north positive [deg; -90 to 90]
        lon: longitude, east positive [deg; -180 to 180]
        origin_lat: latitude of the origin [deg; -90 to 90]
        origin_lon: longitude of the origin [deg; -180 to 180]
    Returns:
        place: east and north [m]
    Raises:
        out_of_range: an angle is outside its range
    Source: IOGP-373-7-2
    Checked: 53 48 33.82 N, 2 07 46.38 E from 55 N, 5 E: -189,011.711 m, -128,640.567 m (IOGP-373-7-2)
    """
    here, there = _radians("lat", lat), _radians("lat", origin_lat)
    number("lon", lon)
    number("lon", origin_lon)
    turn = lon - origin_lon
    turn = math.pi / 180.0 * (turn - 360.0 if turn > 180.0 else (turn + 360.0 if turn < -180.0 else turn))
    sine, origin_sine = math.sin(here), math.sin(there)
    root, origin_root = _root(sine), _root(origin_sine)
    radius = EARTH_AXIS / root  # of curvature across the meridian
    east = radius * math.cos(here) * math.sin(turn)
    half = math.sin(0.5 * turn)
    north = radius * (math.sin(here - there) + 2.0 * math.cos(here) * origin_sine * half * half)
    # The printed e2 (v0 sin(lat0) - v sin(lat)) cos(lat0), with the difference of the sines taken first.
    apart = 2.0 * math.cos(0.5 * (there + here)) * math.sin(0.5 * (there - here))
    both = root + sine * ECCENTRICITY_SQUARED * (origin_sine + sine) / (root + origin_root)
    lifted = EARTH_AXIS * apart * both / (root * origin_root)
    return east, north + ECCENTRICITY_SQUARED * lifted * math.cos(there)


def in_sight(*, lat: float, lon: float, origin_lat: float, origin_lon: float) -> bool:
    """Tell whether a place is on the origin's half of the earth: the far half falls on the same plane."""
    here, there = _radians("lat", lat), _radians("lat", origin_lat)
    turn = (lon - origin_lon) * math.pi / 180.0
    return math.sin(here) * math.sin(there) + math.cos(here) * math.cos(there) * math.cos(turn) > 0.0


def _radians(name: str, angle_deg: float) -> float:
    return number(name, angle_deg) * math.pi / 180.0


def _root(sine: float) -> float:
    return math.sqrt(1.0 - ECCENTRICITY_SQUARED * sine * sine)
