"""Walking ground with a phone, held against pyproj's geodesics (C. F. F. Karney 2013) and its own projection."""

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from pyproj import Geod, Proj

from lawn.engine.ground.plane import east_north
from tests.properties.asking import error, value

EARTH = Geod(ellps="WGS84")
LAT = st.floats(-75, 75)
LON = st.one_of(st.floats(-180, 180), st.floats(179.999, 180), st.floats(-180, -179.999))
METRES = st.floats(-1000, 1000)
Places = list[tuple[float, float]]


def moved(lat: float, lon: float, x: float, y: float) -> tuple[float, float]:
    """The place some metres east and north, by a geodesic."""
    far = math.hypot(x, y)
    there_lon, there_lat, _ = EARTH.fwd(lon, lat, math.degrees(math.atan2(x, y)), far)
    return there_lat, there_lon


def ring(size: float, count: int, uneven: list[float]) -> Places:
    """A star-shaped ring about a point, in metres."""
    found = []
    for at in range(count):
        reach = size * (0.5 + 0.5 * uneven[at % len(uneven)])
        found.append((reach * math.sin(2 * math.pi * at / count), reach * math.cos(2 * math.pi * at / count)))
    return found


def fixes(lat: float, lon: float, places: Places, accuracy_m: float = 2.0) -> list[dict[str, float]]:
    """A spreading job round places given in metres from one point of the earth."""
    found = [moved(lat, lon, x, y) for x, y in places]
    return [{"lat": there[0], "lon": there[1], "accuracy_m": accuracy_m} for there in found]


RINGS = st.builds(ring, st.floats(5, 1000), st.integers(4, 30), st.lists(st.floats(0, 1), min_size=1, max_size=30))


@given(lat=LAT, lon=LON, places=RINGS)
@example(lat=41.6, lon=180.0, places=ring(15, 12, [1.0]))
@example(lat=-75.0, lon=-180.0, places=ring(900, 7, [1.0, 0.2]))
def test_the_area_is_what_the_geodesics_enclose(lat: float, lon: float, places: Places) -> None:
    walk = fixes(lat, lon, places)
    got = value("area.gps", fixes=walk)
    assume(not got["left_out"])
    lons, lats = [fix["lon"] for fix in walk], [fix["lat"] for fix in walk]
    area_m2, perimeter_m = EARTH.polygon_area_perimeter(lons, lats)
    assert math.isclose(got["area_m2"], abs(area_m2), rel_tol=1e-5)
    assert math.isclose(got["perimeter_m"], perimeter_m, rel_tol=1e-6)


@given(lat=LAT, lon=LON, x=METRES, y=METRES)
def test_the_plane_is_the_ellipsoidal_orthographic_of_proj(lat: float, lon: float, x: float, y: float) -> None:
    there_lat, there_lon = moved(lat, lon, x, y)
    got = east_north(lat=there_lat, lon=there_lon, origin_lat=lat, origin_lon=lon)
    wanted = Proj(proj="ortho", ellps="WGS84", lat_0=lat, lon_0=lon)(there_lon, there_lat)
    assert got == pytest.approx(wanted, abs=1e-6)  # Proj's own form keeps a nanometre of six thousand kilometres
    _, _, far = EARTH.inv(lon, lat, there_lon, there_lat)
    assert math.hypot(*got) == pytest.approx(far, rel=1e-6, abs=1e-6)


@given(lat=LAT, places=RINGS, shift=st.tuples(st.floats(-20, 20), st.floats(-20, 20)))
def test_an_error_all_fixes_share_leaves_the_area_alone(lat: float, places: Places, shift: Any) -> None:
    there = value("area.gps", fixes=fixes(lat, 10.0, places))
    off = value("area.gps", fixes=fixes(lat, 10.0, [(x + shift[0], y + shift[1]) for x, y in places]))
    assert math.isclose(off["area_m2"], there["area_m2"], rel_tol=1e-5)


@given(lat=LAT, lon=LON, places=RINGS, back=st.booleans(), first=st.integers(0, 29))
def test_direction_and_starting_corner_do_not_matter(
    lat: float, lon: float, places: Places, back: bool, first: int
) -> None:
    walk = fixes(lat, lon, places)
    turned = walk[first % len(walk) :] + walk[: first % len(walk)]
    one, other = value("area.gps", fixes=walk), value("area.gps", fixes=turned[::-1] if back else turned)
    assume(not one["left_out"] and not other["left_out"])
    assert math.isclose(one["area_m2"], other["area_m2"], rel_tol=1e-6)


@given(
    places=RINGS,
    accuracies=st.lists(st.floats(0.5, 40), min_size=30, max_size=30),
    still=st.lists(st.integers(0, 3), min_size=30, max_size=30),
)
def test_every_fix_is_either_a_corner_or_left_out_with_a_reason(
    places: Places, accuracies: list[float], still: list[int]
) -> None:
    walk = []
    for at, fix in enumerate(fixes(48.0, 11.0, places)):
        walk += [fix | {"accuracy_m": accuracies[at]}] * (1 + still[at])
    got = value("area.track", fixes=walk)
    out = {row["index"]: row["why"] for row in got["left_out"]}
    assert len(out) + len(got["points_m"]) == len(walk)
    assert {at for at, fix in enumerate(walk) if fix["accuracy_m"] > 10} == {
        at for at, why in out.items() if why == "inaccurate"
    }
    for a, b in zip(got["points_m"], got["points_m"][1:], strict=False):
        assert math.dist(a, b) >= 0.5


@given(st.floats(10, 60), st.floats(0.5, 9), st.floats(1.1, 3))
def test_worse_fixes_make_the_area_less_sure_and_never_surer_than_published(
    size: float, accuracy: float, by: float
) -> None:
    assume(accuracy * by <= 10)
    places = ring(size, 16, [1.0])
    good = value("area.gps", fixes=fixes(48.0, 11.0, places, accuracy))
    worse = value("area.gps", fixes=fixes(48.0, 11.0, places, accuracy * by))
    assert worse["sd_m2"] >= good["sd_m2"] >= 0.016 * good["area_m2"]


@given(st.floats(2, 9), st.floats(2, 9), st.floats(3, 9))
def test_far_corners_are_off_on_their_own(width: float, length: float, accuracy: float) -> None:
    """Four corners far further apart than errors stay alike: each moves the area by half its diagonal, by hand."""
    width, length = 100 * width, 100 * length
    places = [(0.0, 0.0), (width, 0.0), (width, length), (0.0, length)]
    got = value("area.gps", fixes=fixes(10.0, 11.0, places, accuracy))
    by_hand = accuracy / math.sqrt(-2 * math.log(0.05)) * math.hypot(width, length)
    assert got["sd_m2"] == pytest.approx(max(by_hand, 0.016 * width * length), rel=0.01)


@given(lat=LAT, places=RINGS, accuracies=st.lists(st.floats(0.1, 9.9), min_size=30, max_size=30))
def test_the_error_is_that_of_the_whole_covariance(lat: float, places: Places, accuracies: list[float]) -> None:
    """Carried along from fix to fix, or as one matrix: slopes of the area times the covariance of all fixes (numpy)."""
    walk = [fix | {"accuracy_m": accuracies[at]} for at, fix in enumerate(fixes(lat, 11.0, places))]
    got = value("area.gps", fixes=walk)
    corners = np.array(got["points_m"])
    out = {row["index"] for row in got["left_out"]}
    sd = np.array([accuracies[at] for at in range(len(walk)) if at not in out]) / math.sqrt(-2 * math.log(0.05))
    along = np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(corners, axis=0), axis=1))])
    alike = np.exp(-np.abs(along[:, None] - along[None, :]) / 15.0)
    half = 0.5 * (np.roll(corners, -1, axis=0) - np.roll(corners, 1, axis=0))
    slopes = sd[:, None] * np.column_stack([half[:, 1], -half[:, 0]])
    wanted = math.sqrt(max(0.0, sum(float(part @ alike @ part) for part in slopes.T)))
    assert got["sd_m2"] == pytest.approx(max(wanted, 0.016 * got["area_m2"]), rel=1e-6)


@pytest.mark.parametrize("count", [401, 3000])
def test_a_long_walk_is_thinned_to_what_a_phone_can_check(count: int) -> None:
    got = value("area.gps", fixes=fixes(48.0, 2.0, ring(300, count, [1.0]), 2.0))
    assert 200 <= len(got["points_m"]) <= 400
    assert got["area_m2"] == pytest.approx(math.pi * 300**2, rel=1e-3)
    assert {row["why"] for row in got["left_out"]} == {"too_close"}


@given(LAT, LON, st.floats(5, 200))
def test_a_figure_of_eight_is_refused_with_the_edges_that_cross(lat: float, lon: float, size: float) -> None:
    walk = fixes(lat, lon, [(0, 0), (size, size), (size, 0), (0, size)])
    found = error("area.gps", fixes=walk)
    assert (found["code"], found["value"]) == ("crossing", "edges 1 and 3")


@given(st.floats(10, 40), st.floats(3, 8), st.floats(0.2, 2))
def test_walking_a_little_past_the_start_is_forgiven_and_said(size: float, accuracy: float, past: float) -> None:
    places = ring(size, 24, [1.0])
    over = [(places[0][0] + past, places[0][1] - 0.4 * past - 0.7)]  # inside the first edge
    got = value("area.gps", fixes=fixes(48.0, 2.0, [*places, *over], accuracy))
    assert {row["why"] for row in got["left_out"] if row["index"] == 24} <= {"past_start", "too_close"}
    plain = value("area.gps", fixes=fixes(48.0, 2.0, places, accuracy))
    assert got["area_m2"] == pytest.approx(plain["area_m2"], rel=0.05)


@given(LAT, st.integers(8, 20))
def test_the_date_line_costs_no_digit(lat: float, power: int) -> None:
    """The same step across it and far from it; powers of two, so that both are written without rounding."""
    for half in (2.0**-power, -(2.0**-power)):
        side = 180.0 if half > 0 else -180.0
        across = east_north(lat=lat, lon=half - side, origin_lat=lat, origin_lon=side - half)
        far = east_north(lat=lat, lon=half, origin_lat=lat, origin_lon=-half)
        assert across == pytest.approx(far, rel=1e-15, abs=1e-15)
