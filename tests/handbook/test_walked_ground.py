"""Ground walked with a phone, held against what is published: a worked projection, a radius, a measured error."""

from typing import Any

import pytest
from scipy import stats

from lawn.engine.door import call
from lawn.engine.ground import gps
from lawn.engine.ground.plane import east_north

METRES_A_DEGREE = 111320.0  # near enough to lay a square out on the equator; its area is then asked, not assumed


def test_the_plane_meets_the_guidance_notes_worked_example() -> None:
    """IOGP 373-7-2, Orthographic (method 9840), WGS 84 from 55 N, 5 E: printed to a millimetre."""
    lat, lon = 53 + 48 / 60 + 33.82 / 3600, 2 + 7 / 60 + 46.38 / 3600
    got = east_north(lat=lat, lon=lon, origin_lat=55.0, origin_lon=5.0)
    assert got == pytest.approx((-189011.711, -128640.567), abs=0.001)


def test_the_accuracy_of_a_fix_is_the_radius_of_95_percent() -> None:
    """W3C Geolocation states accuracy at a 95 % confidence level; errors alike in all directions are Rayleigh's."""
    assert pytest.approx(stats.rayleigh.ppf(0.95), rel=1e-12) == gps.RADIUS_95


def hectare(accuracy_m: float) -> dict[str, Any]:
    """What the engine says of a square of 1 ha walked round with a fix every step or two."""
    side = [float(at) for at in range(0, 100, 2)]
    places = [(x, 0.0) for x in side] + [(100.0, y) for y in side]
    places += [(100.0 - x, 100.0) for x in side] + [(0.0, 100.0 - y) for y in side]
    fixes = [{"lat": y / METRES_A_DEGREE, "lon": x / METRES_A_DEGREE, "accuracy_m": accuracy_m} for x, y in places]
    found: dict[str, Any] = call("area.gps", {"fixes": fixes})
    return found


def own_percent(answer: dict[str, Any]) -> float:
    """The error that follows from the fixes alone, before the engine lays its floor of 1.6 % over it."""
    (own,) = [step["result"] for step in answer["working"] if "own accuracy" in step["what"]]
    return float(100 * own / answer["value"]["area_m2"])


def test_fixes_of_three_to_five_metres_give_the_published_error_of_a_hectare_by_themselves() -> None:
    """Key gps_fr: consumer receivers knew 1 ha in the open to 1.6 %. The floor of that size plays no part here."""
    good, fair = hectare(3), hectare(5)
    assert good["value"]["area_m2"] == pytest.approx(10000, rel=0.01)
    assert own_percent(good) < 1.6 < own_percent(fair)
    assert own_percent(good) > 1.0
    assert own_percent(fair) < 2.4


# Published figures of the same source that are not met: an over-estimate in the open and under trees, and the margin
# under trees, in percent. The first two are shifts and no error; of the third a phone knows too little.
UNMET = {"over-estimate in the open": 1.6, "over-estimate under trees": 4.1, "margin under trees": 12.0}


def test_under_trees_the_published_margin_is_not_reached_by_the_worst_fixes_allowed() -> None:
    """A fix worse than 10 m is left out, and 10 m fixes alone come to a third of it: listed, not met."""
    answer = hectare(10)
    assert 100 * answer["value"]["sd_m2"] / answer["value"]["area_m2"] < UNMET["margin under trees"]
    assert "error" in hectare(15)
