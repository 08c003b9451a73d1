"""Messages about what was entered: they name the field, what is wrong and what is allowed."""

from typing import Any

import pytest

from lawn.contract import kinds
from tests import pictures

GROUND = {"area_m2": 40, "method": "gps"}
OUTLINE: dict[str, Any] = {
    "points_m": [[0, 0], [4, 0], [4, 3.5]], "holes_m": [[[3, 1], [3.5, 1], [3.5, 2]]],
    "circles_m": [{"x_m": 2, "y_m": 0.5, "radius_m": 0.3}], "north_deg": 12,
}  # fmt: skip
BAD_OUTLINE = {
    "outline": "Outline must be at most 400 corners in metres, holes included, round obstacles and the bearing of up.",
}
HEADING = "Strip direction, clockwise from up on the outline"


@pytest.mark.parametrize(
    ("kind", "group", "value", "wrong"),
    [
        ("zone", "name", {"name": "Verge"}, {}),
        ("zone", "name", {}, {"name": "Zone name is missing."}),
        ("zone", "name", {"name": ""}, {"name": "Zone name is missing."}),
        ("zone", "name", {"name": 7}, {"name": "Zone name must be text of at most 60 characters."}),
        ("zone", "name", {"name": "x" * 61}, {"name": "Zone name has 61 characters; allowed are at most 60."}),
        (
            "zone",
            "ground",
            {"area_m2": 0.4, "method": "typed"},
            {"area_m2": "Area is 0.4; allowed is 0.5 to 100000 m2."},
        ),
        ("zone", "ground", {"area_m2": 0.5, "method": "typed"}, {}),
        (
            "zone",
            "ground",
            {"area_m2": True, "method": "typed"},
            {"area_m2": "Area is True; allowed is 0.5 to 100000 m2."},
        ),
        (
            "zone",
            "ground",
            {"area_m2": "40", "method": "typed"},
            {"area_m2": "Area is not a number; allowed is 0.5 to 100000 m2."},
        ),
        (
            "zone",
            "ground",
            {"area_m2": float("nan"), "method": "typed"},
            {"area_m2": "Area is nan; allowed is 0.5 to 100000 m2."},
        ),
        (
            "zone",
            "ground",
            {"area_m2": 40, "method": "guess"},
            {"method": "How it was measured must be one of: shapes, offsets, radii, outline, gps, trace, typed."},
        ),
        ("zone", "ground", {**GROUND, "outline": None}, {}),
        ("zone", "ground", {**GROUND, "outline": OUTLINE}, {}),
        ("zone", "ground", {**GROUND, "outline": {"points_m": OUTLINE["points_m"]}}, {}),
        ("zone", "ground", {**GROUND, "outline": {**OUTLINE, "points_m": [[0, 0], [4, 0]]}}, BAD_OUTLINE),
        ("zone", "ground", {**GROUND, "outline": {**OUTLINE, "points_m": [[0, 0], [4, 0], [4]]}}, BAD_OUTLINE),
        ("zone", "ground", {**GROUND, "outline": {**OUTLINE, "holes_m": [[[1, 1], [2, "1"], [2, 2]]]}}, BAD_OUTLINE),
        ("zone", "ground", {**GROUND, "outline": {**OUTLINE, "circles_m": [{"x_m": 1, "y_m": 1}]}}, BAD_OUTLINE),
        ("zone", "ground", {**GROUND, "outline": {**OUTLINE, "north_deg": "up"}}, BAD_OUTLINE),
        ("zone", "ground", {**GROUND, "outline": OUTLINE["points_m"]}, BAD_OUTLINE),
        ("zone", "strips", {"heading_deg": 360}, {}),
        (
            "zone",
            "strips",
            {"heading_deg": 361},
            {"heading_deg": f"{HEADING} is 361; allowed is 0 to 360 deg."},
        ),
        ("zone", "site", {"near_water": "yes"}, {"near_water": "Runs down to water must be yes or no."}),
        ("zone", "site", {"sun": None}, {}),
        ("zone", "deleted", {"deleted": None}, {"deleted": "Removed is missing."}),
        ("zone", "name", ["Verge"], {"name": "“name” must be a set of named fields."}),
        ("zone", "drainage", {"tiles": 4}, {}),
        ("spreader", "dial", {"lowest": 1, "highest": 24, "step": 0.5}, {}),
        (
            "spreader",
            "dial",
            {"lowest": 5, "highest": 5, "step": 1},
            {"highest": "Highest number on the dial (fully open) must be more than the lowest, 5."},
        ),
        ("product", "analysis", {"n_percent": 101}, {"n_percent": "Nitrogen, N is 101; allowed is 0 to 100 %."}),
        (
            "product",
            "analysis",
            {"n_percent": 60, "p2o5_percent": 60, "k2o_percent": 0},
            {
                "n_percent": "Nitrogen, N; Phosphate, P2O5 and Potash, K2O are 120% together; "
                "allowed is 0 to 100% together."
            },
        ),
        ("product", "analysis", {"n_percent": 33.4, "p2o5_percent": 33.3, "k2o_percent": 33.3}, {}),
        (
            "product",
            "analysis",
            {"n_percent": 10, "p2o5_percent": None, "k2o_percent": 90.5},
            {"n_percent": "Nitrogen, N and Potash, K2O are 100.5% together; allowed is 0 to 100% together."},
        ),
        (
            "product",
            "analysis",
            {"slow_n_share": 1.5},
            {"slow_n_share": "Share of the nitrogen that is slow-release is 150%; allowed is 0 to 100%."},
        ),
    ],
)
def test_groups(kind: str, group: str, value: Any, wrong: dict[str, str]) -> None:
    assert kinds.check_group(kind, group, value) == wrong


AT = "2026-05-01T18:30:00+02:00"
ID = "0190aaaa-0000-7000-8000-000000000001"
PASS = {
    "kind": "pass", "occurred_at": AT, "spread_id": ID, "product_id": ID, "spreader_id": ID, "number": 1, "dial": 10,
    "area_m2": 100, "used_kg": 2.5, "measured": "scale",
}  # fmt: skip
PART = {"dial": 10, "area_m2": 50, "used_kg": 1.25, "measured": "level"}
TRAYS = {
    "kind": "tray_test", "occurred_at": AT, "spreader_id": ID, "catches_g": [3, 8.5, 12, 8, 3.5], "tray_spacing_m": 0.3,
    "pattern": "back_and_forth",
}  # fmt: skip


@pytest.mark.parametrize(
    ("body", "wrong"),
    [
        (PASS, []),
        ({**PASS, "number": 1.5}, ["number"]),
        ({**PASS, "number": 21}, ["number"]),
        ({**PASS, "spread_id": ID.upper()}, ["spread_id"]),
        ({**PASS, "used_kg": None}, ["used_kg"]),
        ({**PASS, "something_newer": {"kept": True}}, []),
        ({**PASS, "damp": True, "added_kg": 1.5, "pattern": "offset", "checks": [{"row": 4}]}, []),
        ({**PASS, "damp": "very", "added_kg": -1, "pattern": "spiral"}, ["added_kg", "damp", "pattern"]),
        ({**PASS, "parts": [PART, {**PART, "dial": 9.5, "left_kg": 1}]}, []),
        ({**PASS, "parts": PART}, ["parts"]),
        ({**PASS, "parts": [{**PART, "used_kg": "1"}]}, ["parts"]),
        ({**PASS, "parts": [{**PART, "measured": "by eye"}]}, ["parts"]),
        ({**PASS, "parts": [{**PART, "left_kg": -1}]}, ["parts"]),
        ({**PASS, "parts": [7]}, ["parts"]),
        (TRAYS, []),
        ({**TRAYS, "product_id": ID, "cv_limit_share": 0.15, "widest_m": 2.4, "dial": 9}, []),
        ({**TRAYS, "catches_g": None}, ["catches_g"]),
        ({**TRAYS, "catches_g": [12, 3]}, ["catches_g"]),
        ({**TRAYS, "catches_g": [12, -1, 12]}, ["catches_g"]),
        ({**TRAYS, "pattern": "spiral", "tray_spacing_m": 0}, ["tray_spacing_m", "pattern"]),
        ({"kind": "mow", "occurred_at": AT, "zone_ids": [ID]}, []),
        ({"kind": "mow", "occurred_at": AT, "zone_ids": ID}, ["zone_ids"]),
        ({"kind": "mow", "occurred_at": AT, "zone_ids": [7]}, ["zone_ids"]),
        ({"kind": "mow", "occurred_at": "2026-02-30T18:30:00Z"}, ["occurred_at"]),
        ({"kind": "mow", "occurred_at": "2026-05-01T18:30:00"}, ["occurred_at"]),
        ({"kind": "mow", "occurred_at": "2026-05-01T18:30:00.123Z"}, []),
        ({"kind": "mow"}, ["occurred_at"]),
        ({"kind": "dance", "occurred_at": AT}, ["kind"]),
        ("nonsense", ["body"]),
    ],
)
def test_bodies(body: Any, wrong: list[str]) -> None:
    assert list(kinds.check_body(body)) == wrong


SMALL = pictures.quarters(40, 30)
THUMB = pictures.base64_of(pictures.jpeg(SMALL))
# Between 8 kB and what 11,000 letters of base64 can hold.
LARGE_THUMB = pictures.base64_of(pictures.jpeg(SMALL, icc_profile=b"x" * (8220 - len(pictures.jpeg(SMALL)) - 18)))
PLACED_THUMB = pictures.base64_of(pictures.jpeg(SMALL, exif=pictures.location()))
CLAIM = {"job": "mow", "day": "2026-05-01"}
SHOWN = {
    "of": "entry", "of_id": ID, "sha256": "0" * 64, "width_px": 1600, "height_px": 1200, "size_bytes": 400000,
    "taken_at": AT, "thumb": THUMB,
}  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "group", "value", "wrong"),
    [
        ("claim", "claim", {**CLAIM, "zone_ids": [ID], "note": "After six"}, []),
        ("claim", "claim", {"job": "dance", "day": "2026-02-30"}, ["job", "day"]),
        ("settlement", "settled", {"clash": "twice:1:2", "entry_ids": [ID, ID], "note": "One was a slip"}, []),
        ("settlement", "settled", {"note": "x" * 401}, ["clash", "note"]),
        ("photo", "photo", SHOWN, []),
        ("photo", "photo", {**SHOWN, "width_px": 1601, "size_bytes": 0}, ["width_px", "size_bytes"]),
        ("photo", "photo", {**SHOWN, "sha256": "A" * 64}, ["sha256"]),
        ("photo", "photo", {**SHOWN, "sha256": 7}, ["sha256"]),
        ("photo", "photo", {**SHOWN, "thumb": "<svg>"}, ["thumb"]),
        ("photo", "photo", {**SHOWN, "thumb": "aGVsbG8="}, ["thumb"]),
        ("photo", "photo", {**SHOWN, "thumb": THUMB[:-8]}, ["thumb"]),
        ("photo", "photo", {**SHOWN, "thumb": PLACED_THUMB}, ["thumb"]),
        ("photo", "photo", {**SHOWN, "thumb": LARGE_THUMB}, ["thumb"]),
        ("photo", "photo", {**SHOWN, "of": "lawn", "of_id": "x"}, ["of", "of_id"]),
    ],
)
def test_what_a_household_does_together(kind: str, group: str, value: Any, wrong: list[str]) -> None:
    assert sorted(kinds.check_group(kind, group, value)) == sorted(wrong)


def test_server_only_groups_are_known() -> None:
    assert kinds.server_only("member", "role")
    assert not kinds.server_only("member", "units")
    assert not kinds.server_only("zone", "name")
