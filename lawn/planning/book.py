"""What a plan is made from, read out of a household's rows as the phone reads it out of its own store."""

import uuid
from datetime import date
from typing import Any

from lawn.book.people import access
from lawn.demo.plans import year_start
from lawn.models import Entry, Household, Plan, Product, Step, Zone
from lawn.planning.solver import Json

ZONE = ("name", "area_m2", "grass", "sun", "near_water")
PRODUCT = (
    "name",
    "sort",
    "net_kg",
    "coverage_m2",
    "price",
    "n_percent",
    "p2o5_percent",
    "slow_n_share",
    "interval_days",
)
WISHES = ("level", "clippings", "budget", "evenings_week", "minutes_evening", "only_gentle", "skip_months")


class NoHousehold(ValueError):
    """There is no household of this id, or nothing says how warm it is there."""


def book_of(household_id: uuid.UUID, today: date) -> Json:
    """Zones, products, log, climate, place, own rules, and the wishes and steps of the plan. Raises NoHousehold."""
    household = access.rows(Household, household_id).first()
    if household is None:
        raise NoHousehold(f"There is no household {household_id}.")
    climate = _climate(household)
    southern = (household.latitude_deg or 0.0) < 0.0
    return {
        "zones": [_said(row, ZONE) for row in _standing(Zone, household_id)],
        "products": [_said(row, PRODUCT) for row in _standing(Product, household_id)],
        "entries": [_entry(row) for row in access.rows(Entry, household_id).order_by("id")],
        "climate": climate,
        "place": household.rules_place,
        "own_rules": household.own_rules,
        "wishes": _wishes(household_id, year_start(today, southern=southern).isoformat()),
        "steps": [step for row in _standing(Step, household_id) if (step := _step(row)) is not None],
    }


def _standing(model: Any, household_id: uuid.UUID) -> list[Any]:
    return list(access.rows(model, household_id).exclude(deleted=True).order_by("id"))


def _said(row: Any, names: tuple[str, ...]) -> Json:
    return {"id": str(row.id)} | {name: getattr(row, name) for name in names}


def _climate(household: Household) -> Json:
    if household.monthly_mean_c:
        return {"monthly_mean_c": household.monthly_mean_c}
    if household.warmest_c is None or household.coldest_c is None:
        raise NoHousehold("Its climate is not known: enter it under Place and weather.")
    southern = (household.latitude_deg or 0.0) < 0.0
    return {"warmest_c": household.warmest_c, "coldest_c": household.coldest_c, "southern": southern}


def _entry(row: Entry) -> Json:
    when = row.overlays.get("when", {}).get("occurred_at", row.body["occurred_at"])
    return {**row.body, "id": str(row.id), "occurred_at": when, "void": row.void}


def _wishes(household_id: uuid.UUID, starts_on: str) -> Json:
    """Those of this year's plan, else of the newest before it: there the next one starts."""
    plans = [row for row in _standing(Plan, household_id) if row.starts_on and row.starts_on <= starts_on]
    if not plans:
        return {}
    newest = max(row.starts_on for row in plans)
    plan = next(row for row in plans if row.starts_on == newest)
    return {name: getattr(plan, name) for name in WISHES if getattr(plan, name) not in (None, [])}


def _step(row: Step) -> Json | None:
    if row.job is None or row.from_on is None or row.to_on is None:
        return None
    step = {
        "from_on": row.from_on,
        "to_on": row.to_on,
        "job": row.job,
        "zones": row.zone_ids or [],
        "product": row.product_id,
        "locked": bool(row.locked),
        "state": row.state or "planned",
    }
    return {name: value for name, value in step.items() if value is not None}
