"""Ground that gets no more, such as a scorched strip, in the rows of a later pass; its size by shapely beside."""

from typing import Any

import pytest
import shapely

from tests.properties.asking import error, value

Json = dict[str, Any]
SWATH = 1.5
LAWN: Json = {"id": "back", "area_m2": 240, "outline_m": [[0, 0], [20, 0], [20, 12], [0, 12]], "heading_deg": 0}
BARE: Json = {"id": "side", "area_m2": 60, "strips": 6}


def tour(pattern: str, out: list[Json] | None = None, **more: Any) -> Json:
    asked = {"zones": [LAWN, BARE], "swath_m": SWATH, "pattern": pattern, "header_strips": 1, **more}
    got: Json = value("swath.tour", **asked, **({} if out is None else {"out": out}))
    return got


def taken(numbers: range, pattern: str = "plain") -> list[Json]:
    """Rows of a pass as the phone hands them on."""
    rows = tour(pattern)["rows"]
    found = []
    for number in numbers:
        row, before = rows[number - 1], rows[number - 2]["walked_m2"] if number > 1 else 0
        corners = {} if row["points_m"] is None else {"points_m": row["points_m"]}
        found.append({"zone_id": row["zone_id"], "from_m2": before, "to_m2": row["walked_m2"], **corners})
    return found


def test_rows_walked_again_over_scorched_rows_are_left_out_whole() -> None:
    plain = tour("plain")["rows"]
    again = tour("plain", taken(range(3, 6)))
    ground = [row["walked_m2"] - before["walked_m2"] for row, before in zip(plain[1:], plain, strict=False)]
    outs = [row["out_m2"] for row in again["rows"]]
    assert outs[2:5] == pytest.approx(ground[1:4])
    assert sum(outs[5:]) == 0
    # The round of the edge passes their ends no nearer than its own half swath.
    assert outs[0] == pytest.approx(0, abs=1e-9)
    assert again["rows"][-1]["done_area_m2"] == pytest.approx(300 - again["out_m2"])


@pytest.mark.parametrize("pattern", ["offset", "crossed"])
def test_a_pass_laid_otherwise_leaves_out_what_shapely_finds_under_its_rows(pattern: str) -> None:
    """Bands of a swath round each row, cut with the bands of the rows taken out."""
    out = taken(range(3, 6))
    gone = shapely.union_all([band(row["points_m"]) for row in out])
    rows = tour(pattern, out)["rows"]
    before = 0.0
    for row in rows:
        ground, before = row["walked_m2"] - before, row["walked_m2"]
        if row["kind"] == "strip" and row["points_m"]:
            own = band(row["points_m"])
            assert row["out_m2"] / ground == pytest.approx(own.intersection(gone).area / own.area, abs=0.03)
    assert sum(row["out_m2"] for row in rows) > 0


def band(points: list[list[float]]) -> shapely.Polygon:
    found: shapely.Polygon = shapely.LineString(points).buffer(SWATH / 2, cap_style="flat", join_style="mitre")
    return found


def test_without_corners_ground_is_left_out_by_its_place_in_the_walk() -> None:
    rows = tour("plain")["rows"]
    place = next(row["number"] for row in rows if row["zone_id"] == "side")
    again = tour("offset", taken(range(place + 1, place + 3)))["rows"]
    side = [row["out_m2"] for row in again if row["zone_id"] == "side"]
    assert side == pytest.approx([0, 10, 10, 0, 0, 0])


def test_what_should_be_left_does_not_fall_over_ground_that_gets_no_more() -> None:
    load = {"load_kg": 6.0, "rate_kg_m2": 0.02}
    place = len(tour("plain")["rows"]) - 5
    rows = tour("plain", taken(range(place, place + 6)), **load)["rows"]
    assert [row["left_kg"] for row in rows[-7:]] == pytest.approx([6 - 0.02 * 240] * 7)


def test_nothing_left_out_changes_nothing() -> None:
    assert tour("offset", []) == tour("offset")
    assert tour("offset")["out_m2"] == 0


def test_a_row_taken_out_that_cannot_be_is_refused_by_its_field() -> None:
    row = taken(range(3, 4))[0]
    for wrong, field in (({"from_m2": -1}, "out[0].from_m2"), ({"points_m": [[0, 0]]}, "out[0].points_m")):
        asked = {"zones": [LAWN], "swath_m": SWATH, "out": [row | wrong]}
        assert error("swath.tour", **asked)["name"] == field
