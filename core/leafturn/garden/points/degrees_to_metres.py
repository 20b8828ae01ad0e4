"""Degrees of WGS 84 in metres east and north of a datum, and back.

A place is taken to lie at the datum's height, so that a metre is a metre on the garden's own ground, on the
plane that touches the ground there. Over 5 km the plane and the ground differ by a millimetre.

References
----------
WGS 84: NGA.STND.0036 (2014), table 3.1, semi-major axis and flattening. Degrees to Earth-centred metres, and
those to east and north: Torge and Mueller 2012, Geodesy, 4th edition, sections 4.1.3 and 4.1.4 (recalled).
"""

from __future__ import annotations

import math

from leafturn.garden.model import Place, Point

SEMI_MAJOR_M = 6_378_137.0
FLATTENING = 1 / 298.257223563
ECCENTRICITY_SQUARED = FLATTENING * (2 - FLATTENING)
STEPS = 5  # of Newton; each gains some five digits, so that after three nothing changes within 100 km


def to_metres(latitude: float, longitude: float, datum: Place) -> Point:
    """Where a place lies from the datum [m].

    Parameters
    ----------
    latitude, longitude : float
        WGS 84 [deg], north and east above 0.
    datum : Place
        Its `lat` and `lon` [deg] and `height_m`, 0 where it is not given.
    """
    height = datum.height_m or 0.0
    x, y, z = _from_the_centre(latitude, longitude, height)
    x0, y0, z0 = _from_the_centre(datum.lat, datum.lon, height)
    dx, dy, dz = x - x0, y - y0, z - z0
    phi, lam = math.radians(datum.lat), math.radians(datum.lon)
    outward = math.cos(lam) * dx + math.sin(lam) * dy
    return Point(
        east=-math.sin(lam) * dx + math.cos(lam) * dy,
        north=-math.sin(phi) * outward + math.cos(phi) * dz,
    )


def to_degrees(point: Point, datum: Place) -> tuple[float, float]:
    """Latitude and longitude of a point [deg], WGS 84.

    Parameters
    ----------
    point : Point
        From the datum [m].
    datum : Place
    """
    height = datum.height_m or 0.0
    latitude, longitude = datum.lat, datum.lon
    for _ in range(STEPS):
        phi = math.radians(latitude)
        bent = 1 - ECCENTRICITY_SQUARED * math.sin(phi) ** 2
        along_meridian = SEMI_MAJOR_M * (1 - ECCENTRICITY_SQUARED) / bent**1.5 + height
        along_parallel = (SEMI_MAJOR_M / math.sqrt(bent) + height) * math.cos(phi)
        found = to_metres(latitude, longitude, datum)
        latitude += math.degrees((point.north - found.north) / along_meridian)
        longitude += math.degrees((point.east - found.east) / along_parallel)
    return latitude, (longitude + 180) % 360 - 180


def _from_the_centre(latitude: float, longitude: float, height: float) -> tuple[float, float, float]:
    """Earth-centred, Earth-fixed metres of a place."""
    phi, lam = math.radians(latitude), math.radians(longitude)
    normal = SEMI_MAJOR_M / math.sqrt(1 - ECCENTRICITY_SQUARED * math.sin(phi) ** 2)
    level = (normal + height) * math.cos(phi)
    return (
        level * math.cos(lam),
        level * math.sin(lam),
        (normal * (1 - ECCENTRICITY_SQUARED) + height) * math.sin(phi),
    )
