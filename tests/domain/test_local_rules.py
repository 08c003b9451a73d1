"""Where a household says its rules come from, and those it entered itself: what the engine would refuse is refused."""

import json
from pathlib import Path
from typing import Any

import pytest

from lawn.contract import kinds
from lawn.engine.door import call

PLACES = json.loads((Path(__file__).resolve().parents[2] / "fixtures" / "published" / "places.json").read_text())
OWN = {"kind": "closed", "from": "12-01", "to": "01-31", "date": "2026-03-01"}


def refused(own: Any) -> bool:
    return "own_rules" in kinds.check_group("household", "rules", {"rules_place": "us_nj", "own_rules": own})


def test_a_place_with_rules_of_ones_own_is_taken_and_read_by_the_engine() -> None:
    own = [OWN, {"kind": "quick_once", "off": True, "date": "2026-03-01"}]
    assert not refused(own)
    args = {"rules": PLACES["rules"], "places": PLACES["places"], "place": "us_nj", "own_rules": own}
    rules = call("limits.rules", args)["value"]["rules"]
    assert [row["source"] for row in rules if row["kind"] == "closed"] == ["entered by you"]


@pytest.mark.parametrize(
    "wrong",
    [
        {"kind": "manners"},
        {"from": "13-01"},
        {"to": "02-30"},
        {"to": None},
        {"date": None},
        {"date": "soon"},
        {"over_days": -1},
        {"most_kg_m2": "much"},
        {"colour": "red"},
    ],
    ids=lambda one: next(iter(one.items())).__repr__(),
)
def test_a_rule_that_the_engine_cannot_read_is_refused(wrong: dict[str, Any]) -> None:
    assert refused([OWN | wrong])


@pytest.mark.parametrize("wrong", ["rules", {"kind": "closed"}, 3, [3], [[]]])
def test_what_is_no_list_of_rules_is_refused(wrong: Any) -> None:
    assert refused(wrong)


def test_every_place_that_the_table_names_can_be_said() -> None:
    for place in PLACES["places"]:
        assert kinds.check_group("household", "rules", {"rules_place": place["key"]}) == {}
