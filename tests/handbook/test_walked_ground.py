"""Ground walked with a phone, held against what is published: a worked projection, a radius, a measured error."""

import pytest
from scipy import stats

from lawn.engine import gps
from lawn.engine.door import call
from lawn.engine.plane import east_north

METRES_A_DEGREE = 111320.0  # near enough to lay a square out on the equator; its area is then asked, not assumed


def test_the_plane_meets_the_guidance_notes_worked_example() -> None:
    """IOGP 373-7-2, Orthographic (method 9840), WGS 84 from 55 N, 5 E: printed to a millimetre."""
    lat, lon = 53 + 48 / 60 + 33.82 / 3600, 2 + 7 / 60 + 46.38 / 3600
    got = east_north(lat=lat, lon=lon, origin_lat=55.0, origin_lon=5.0)
    assert got == pytest.approx((-189011.711, -128640.567), abs=0.001)


def test_the_accuracy_of_a_fix_is_the_radius_of_95_percent() -> None:
    """W3C Geolocation states accuracy at a 95 % confidence level; errors alike in all directions are Rayleigh's."""
    assert pytest.approx(stats.rayleigh.ppf(0.95), rel=1e-12) == gps.RADIUS_95


@pytest.mark.parametrize(("accuracy_m", "most_percent"), [(3, 1.6), (5, 2.5)])
def test_a_hectare_under_open_sky_is_as_sure_as_published(accuracy_m: float, most_percent: float) -> None:
    """Key gps_fr: consumer receivers know 1 ha in the open to some 1.6 %. A fix every step or two, 3 and 5 m."""
    side = [float(at) for at in range(0, 100, 2)]
    places = [(x, 0.0) for x in side] + [(100.0, y) for y in side]
    places += [(100.0 - x, 100.0) for x in side] + [(0.0, 100.0 - y) for y in side]
    fixes = [{"lat": y / METRES_A_DEGREE, "lon": x / METRES_A_DEGREE, "accuracy_m": accuracy_m} for x, y in places]
    got = call("area.gps", {"fixes": fixes})["value"]
    assert got["area_m2"] == pytest.approx(10000, rel=0.01)
    assert 1.6 - 1e-9 <= 100 * got["sd_m2"] / got["area_m2"] <= most_percent + 1e-9
