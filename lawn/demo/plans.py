"""The demo's season plan: what the household wishes of this year, and a few steps. Nothing of it was solved."""

from datetime import date, timedelta
from typing import TYPE_CHECKING

from lawn.demo.asking import Item, si, typed

if TYPE_CHECKING:
    from lawn.demo.scenario import Scenario

Row = tuple[str, str, Item]


def rows(scenario: "Scenario") -> list[Row]:
    """The plan and its steps, their days counted from the day of loading."""
    plan_id = scenario.id_of("plan")
    steps = [_step(scenario, plan_id, row) for row in scenario.raw["steps"]]
    return [("plan", plan_id, _plan(scenario)), *steps]


def year_start(today: date, *, southern: bool) -> date:
    """The first day of the year that holds a day: it begins with the cold half, so in July where that is winter."""
    if not southern:
        return date(today.year, 1, 1)
    return date(today.year if today.month >= 7 else today.year - 1, 7, 1)


def _plan(scenario: "Scenario") -> Item:
    wishes, southern = scenario.raw["plan"], scenario.calendar.southern
    start = year_start(scenario.today, southern=southern).isoformat()
    return {
        "year": {"starts_on": start, "southern": southern, "demo": True},
        "aim": {name: wishes[name] for name in ("level", "clippings")},
        "budget": {"budget": wishes["budget"]},
        "time": {name: wishes[name] for name in ("evenings_week", "minutes_evening")},
        "gentle": {"only_gentle": wishes["only_gentle"]},
        "skip": {"skip_months": wishes["skip_months"]},
    }


def _step(scenario: "Scenario", plan_id: str, row: Item) -> Row:
    first, last = (scenario.today + timedelta(days=row[name]) for name in ("from_in_days", "to_in_days"))
    sets: Item = {
        "job": {"plan_id": plan_id, "job": row["job"], "demo": True},
        "ground": {"zone_ids": [scenario.zone_id(key) for key in row["zones"]]},
        "window": {"from_on": first.isoformat(), "to_on": last.isoformat()},
        "lock": {"locked": row["locked"]},
        "state": {"state": row["state"]},
    }
    if "product" in row:
        product_id = scenario.product_id(row["product"])
        sets["product"] = {"product_id": product_id, "rate_kg_m2": si(row["rate"]), "rate_typed": typed(row["rate"])}
    return "step", scenario.id_of(f"step {row['key']}"), sets
