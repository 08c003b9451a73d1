"""Looks at a plan's steps, never at the model: by limits.check with the strictest rules, and what it does not hold."""

from datetime import date
from typing import Any

from lawn.engine.door import call
from tests.handbook.test_limits import rules

Json = dict[str, Any]
SORTS = {"feed": "fertilizer", "overseed": "seed", "lime": "lime", "pre_emergent": "pre_emergent"}
SLACK = 1 - 1e-9
RULES = [one for one in rules() if one["kind"] != "closed"]
CLOSED = {"kind": "closed", "from": "11-16", "to": "02-28"}


def breaches(yard: Json, plan: Json) -> list[str]:
    """Everything that a plan breaks, together with what was done."""
    zones = [{"id": of["id"], "turf": of["turf"], "grass": "tall_fescue", "watered": True} for of in yard["groups"]]
    years = [{"kind": "year", "most_kg_m2": of["n_year_kg_m2"], "grass": "tall_fescue"} for of in yard["groups"]][:1]
    held = [one for one in RULES if one["kind"] != "year"] + years + [CLOSED]
    steps = [_job(yard, at, one) for at, one in enumerate(plan["steps"]) if one["sort"] in SORTS]
    answer = call(
        "limits.check", {"jobs": steps + _done(yard), "zones": zones, "rules": held, "products": _labels(yard)}
    )
    ours = {one["id"] for one in steps}
    found = [
        f"{one['kind']} {one['job']} {one['zone']} {one['date']}"
        for one in answer["value"]["breaches"]
        if one["job"] in ours
    ]
    return found + _aerated(yard, plan) + _evenings(yard, plan)


def _product(yard: Json, name: str) -> Json:
    return next(one for one in yard["products"] if one["id"] == name)


def _job(yard: Json, at: int, one: Json) -> Json:
    bag = _product(yard, one["product"]) if one["product"] else {}
    rate = one["rate_kg_m2"]
    found = {
        "id": f"s{at}",
        "date": one["date"],
        "zone": one["group"],
        "sort": SORTS[one["sort"]],
        "n_kg_m2": rate * bag.get("n_percent", 0) / 100 * SLACK,
        "p2o5_kg_m2": rate * bag.get("p2o5_percent", 0) / 100,
        "slow_n_share": bag.get("slow_n_share", 0),
        "watered_in": True,
    }
    return found | ({"product": one["product"], "rate_kg_m2": rate * SLACK} if one["product"] else {})


def _done(yard: Json) -> list[Json]:
    return [
        {
            "id": f"d{at}",
            "date": one["date"],
            "zone": one["group"],
            "sort": "fertilizer",
            "product": one["product"],
            "n_kg_m2": one["n_kg_m2"],
            "slow_n_share": one["slow_n_share"],
            "watered_in": True,
        }
        for at, one in enumerate(yard["done"])
    ]


def _labels(yard: Json) -> list[Json]:
    return [
        {"id": one["id"], "label_kg_m2": one["rate_kg_m2"]}
        | {
            name: value
            for name, value in (("interval_days", one.get("interval_days")), ("seed_wait_days", one.get("wait_days")))
            if value
        }
        for one in yard["products"]
    ]


def _aerated(yard: Json, plan: Json) -> list[str]:
    """Holes are made before seed falls into them."""
    found = []
    for of in yard["groups"]:
        steps = [one for one in plan["steps"] if one["group"] == of["id"]]
        sown = [date.fromisoformat(one["date"]) for one in steps if one["sort"] == "overseed"]
        holes = [date.fromisoformat(one["date"]) for one in steps if one["sort"] == "aerate"]
        found += [f"aerated after sowing on {of['id']}" for one in sown for other in holes if one < other]
    return found


def _evenings(yard: Json, plan: Json) -> list[str]:
    weeks: dict[int, set[str]] = {}
    for one in plan["steps"]:
        if one["sort"] != "soil_test":
            weeks.setdefault(one["week"], set()).add(one["product"] or one["job"])
    most = yard["wishes"].get("evenings_week", 2)
    return [f"week {week} has {len(kinds)} evenings" for week, kinds in weeks.items() if len(kinds) > most]
