"""Messages about what was entered: they name the field, what is wrong and what is allowed."""

from typing import Any

import pytest

from lawn.book import kinds


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
            {"method": "How it was measured must be one of: shapes, offsets, radii, outline, typed."},
        ),
        ("zone", "site", {"near_water": "yes"}, {"near_water": "Runs down to water must be yes or no."}),
        ("zone", "site", {"sun": None}, {}),
        ("zone", "deleted", {"deleted": None}, {"deleted": "Taken out of the book is missing."}),
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
    ],
)
def test_groups(kind: str, group: str, value: Any, wrong: dict[str, str]) -> None:
    assert kinds.check_group(kind, group, value) == wrong


AT = "2026-05-01T18:30:00+02:00"
ID = "0190aaaa-0000-7000-8000-000000000001"
PASS = {
    "kind": "pass", "occurred_at": AT, "walk_id": ID, "product_id": ID, "spreader_id": ID, "number": 1, "dial": 10,
    "area_m2": 100, "used_kg": 2.5, "measured": "scale",
}  # fmt: skip


@pytest.mark.parametrize(
    ("body", "wrong"),
    [
        (PASS, []),
        ({**PASS, "number": 1.5}, ["number"]),
        ({**PASS, "number": 21}, ["number"]),
        ({**PASS, "walk_id": ID.upper()}, ["walk_id"]),
        ({**PASS, "used_kg": None}, ["used_kg"]),
        ({**PASS, "something_newer": {"kept": True}}, []),
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


def test_server_only_groups_are_known() -> None:
    assert kinds.server_only("member", "role")
    assert not kinds.server_only("member", "units")
    assert not kinds.server_only("zone", "name")
