"""A household's plan from its book: what season.build is given, solved in two stages, and read back."""

import json
from datetime import date
from pathlib import Path
from typing import Any

from lawn.engine.door import call
from lawn.planning.solver import Json, Solved, Told, solve

PUBLISHED = Path(__file__).resolve().parents[2] / "fixtures" / "published"
JOBS = ("pre_emergent", "overseed", "aerate", "soil_test")
COARSE_SECONDS = 10.0
CEILINGS = ("n_once_kg_m2", "n_quick_once_kg_m2", "n_year_kg_m2")


class NotPlanned(ValueError):
    """The engine refused what the book says; the sentence is its own."""


def ask(name: str, args: Json) -> Json:
    """Call the engine, or raise with its sentence."""
    answer = call(name, args)
    if "error" in answer:
        raise NotPlanned(f"{name}: {answer['error']['message']} ({answer['error']['name']})")
    value: Json = answer["value"]
    return value


def table(name: str) -> Any:
    """A published table."""
    return json.loads((PUBLISHED / f"{name}.json").read_text(encoding="utf-8"))


def arguments(
    *,
    zones: list[Json],
    products: list[Json],
    entries: list[Json],
    climate: Json,
    today: date,
    place: str | None = None,
) -> tuple[Json, list[Json]]:
    """What season.build takes, and the rules that hold: aims and ceilings by grass, the skeleton of the climate."""
    grasses = {row["key"]: row for row in table("grasses")["grasses"]}
    ground = [_ground(zone, grasses) for zone in zones]
    aims = _by_zone(ask("feeding.yearly_aim", {"zones": _years(ground, grasses), "level": "middle", "clippings": True}))
    once = {"zones": _years(ground, grasses), "once": table("limits")["nitrogen_per_application"]}
    most = _by_zone(ask("limits.ceilings", once | ({} if place is None else {"place": place})))
    for zone in ground:
        zone["aim_n_kg_m2"] = aims[zone["id"]]["n_year_kg_m2"]
        zone |= {name: most[zone["id"]][name] for name in CEILINGS}
    known = [{name: value for name, value in zone.items() if value is not None} for zone in ground]
    offered = ask(
        "season.skeleton",
        {
            "climate": climate,
            "ground": [
                {name: zone[name] for name in ("turf", "grass") if name in zone} for zone in known if "turf" in zone
            ],
        },
    )["offered"]
    rows = [
        {**row, "turf": one["turf"]}
        for one in offered
        for row in table(f"season_{one['key']}")["jobs"]
        if row.get("turf", one["turf"]) == one["turf"]
    ]
    gathered = ask(
        "season.gather", {"zones": known, "products": products, "entries": entries, "today": today.isoformat()}
    )
    places = table("places")
    rules = ask(
        "limits.rules",
        {"rules": places["rules"], "places": places["places"], "southern": bool(climate.get("southern"))}
        | ({} if place is None else {"place": place}),
    )["rules"]
    args = {name: gathered[name] for name in ("groups", "products", "done")}
    args |= {
        "climate": {**climate, "jobs": rows},
        "rules": {"closed": closed(rules, today)},
        "wishes": {},
        "locked": [],
    }
    return args | {"today": today.isoformat()}, rules


def closed(rules: list[Json], today: date) -> list[Json]:
    """Days of this year and the next on which nothing is spread."""
    found = []
    for rule in [one for one in rules if one["kind"] == "closed"]:
        for year in (today.year - 1, today.year, today.year + 1):
            until = year + (rule["to"] < rule["from"])
            last = rule["to"] if rule["to"] != "02-29" else "03-01"
            found.append({"first": f"{year}-{rule['from']}", "last": f"{until}-{last}"})
    return found


def plan(args: Json, seconds: float = 30.0, told: Told | None = None) -> tuple[Json, Solved]:
    """The half-month grid first, then every week near what it chose, with that plan's cost as what is to be beaten."""
    coarse = _solved(
        {**args, "wishes": {**args["wishes"], "grid": "half_month"}}, min(COARSE_SECONDS, seconds / 2), told
    )
    near = [{"group": one["group"], "date": one["date"]} for one in coarse[0]["steps"] if one["sort"] == "feed"]
    fine = _solved({**args, "wishes": {**args["wishes"], "grid": "weekly", "near": near}}, seconds / 2, told)
    return min(coarse, fine, key=lambda one: one[0]["weighed_cost"])


def _solved(args: Json, seconds: float, told: Told | None) -> tuple[Json, Solved]:
    built = ask("season.build", args)
    found = solve(built["model"], built["start"], seconds=seconds, told=told)
    if not found.values and built["model"]["columns"]:
        raise NotPlanned("No plan keeps all of your wishes.")
    bound = {} if found.bound is None else {"bound": max(-1e9, found.bound)}
    read = ask("season.read", {**args, "solution": found.values, "stopped": found.state == "stopped"} | bound)
    return read, found


def _ground(zone: Json, grasses: Json) -> Json:
    """A zone as season.gather takes it; ground without grass is left to it to name."""
    grass = grasses.get(zone.get("grass") or "")
    kept = {name: zone.get(name) for name in ("id", "area_m2", "grass", "sun", "near_water")}
    return kept | {"turf": grass["season"] if grass else None, "jobs": list(JOBS) if grass else []}


def _years(ground: list[Json], grasses: Json) -> list[Json]:
    known = [{name: zone[name] for name in ("id", "grass", "sun") if zone[name] is not None} for zone in ground]
    return [one | {"year_rows": _rows(grasses.get(one.get("grass", "")))} for one in known]


def _rows(grass: Json | None) -> list[Json]:
    rows = grass["nitrogen_year_rows"] if grass else []
    return [{name: row[name] for name in ("low_kg_m2", "high_kg_m2", "sources") if name in row} for row in rows]


def _by_zone(answer: Json) -> Json:
    return {row["zone_id"]: row for row in answer["zones"]}
