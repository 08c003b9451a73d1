"""A household's plan from its book: what season.build is given, solved in two stages, and read back."""

import json
from datetime import date
from pathlib import Path
from typing import Any

from lawn.engine.door import call
from lawn.planning.solver import Json, Solved, Told, solve

PUBLISHED = Path(__file__).resolve().parents[2] / "fixtures" / "published"
COARSE_SECONDS = 10.0


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


def tables() -> Json:
    """The published tables that a plan rests on, as season.arguments takes them; the phone hands over the same."""
    grasses, places = table("grasses"), table("places")
    seasons = [table(f"season_{letter}") for letter in "abcdef"]
    return {
        "grasses": grasses["grasses"],
        "general": grasses["lawns_in_general"]["nitrogen_year_rows"],
        "rules": places["rules"],
        "places": places["places"],
        "seasons": [{"key": one["key"], "jobs": one["jobs"]} for one in seasons],
    }


def arguments(
    *,
    zones: list[Json],
    products: list[Json],
    entries: list[Json],
    climate: Json,
    today: date,
    place: str | None = None,
    own_rules: list[Json] | None = None,
    wishes: Json | None = None,
    steps: list[Json] | None = None,
) -> Json:
    """What season.build takes (`plan`), the rules that hold and what cannot be planned: season.arguments' answer."""
    asked = {"place": place, "own_rules": own_rules, "wishes": wishes, "steps": steps}
    return ask(
        "season.arguments",
        {
            "zones": [{name: value for name, value in zone.items() if value is not None} for zone in zones],
            "products": products,
            "entries": entries,
            "climate": climate,
            "today": today.isoformat(),
            "tables": tables(),
        }
        | {name: value for name, value in asked.items() if value is not None},
    )


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
