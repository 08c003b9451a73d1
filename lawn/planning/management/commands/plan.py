"""Plan a household's season on the server, as the phone does, and say why each step is where it is."""

import uuid
from argparse import ArgumentParser
from datetime import date
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.db import OperationalError
from django.utils import timezone

from lawn.demo.scenario import Scenario
from lawn.demo.season import entries_of
from lawn.engine.door import call
from lawn.planning import book, household
from lawn.planning.solver import Json

WHY = {
    "need": "for what the grass asks for from {since} to {until}",
    "locked": "you locked it here",
    "now": "its need begins now",
    "fed_until": "the feed of {since} lasts until {until}",
    "closed": "the week before is closed by a rule",
    "skipped": "the week before is one you leave out",
    "not_growing": "the week before grass hardly grows",
    "heat": "the week before is too hot for it",
    "not_green": "the week before the soil is too cool for warm-season grass",
    "cold": "the week before the soil is too cold for it",
    "no_need_before": "nothing is needed before {until}",
    "dearer_sooner": "sooner would cost more over the year",
    "in_shed": "some of it is in the shed",
    "only_one": "no other product may go on then",
    "cheapest_nitrogen": "its nitrogen costs least",
    "fits_whole": "it fits the rest of the plan best",
    "window": "its window is {since} to {until}",
}
# Feeds may begin in some weeks only, so that a plan comes within seconds: it is of those that no plan is cheaper.
NONE = "No plan with feeds in the weeks looked at could cost less"
SAYS = {
    "best": NONE + ".",
    "near_best": NONE + " than {bound:.2f}; this one costs {cost:.2f}.",
    "may_be_better": NONE + " than {bound:.2f}; this one costs {cost:.2f}.",
    "stopped": "Time was up. " + NONE + " than {bound:.2f}; this one costs {cost:.2f}.",
    "unknown": "How much better a plan could be is not known.",
}

# What the demo's own plan leaves to the engine: it knows no place and no plan yet.
OF_ITS_OWN = ("place", "own_rules", "wishes", "steps")


class Command(BaseCommand):
    """`manage.py plan --household demo --explain`: steps, reasons, bags, cost, leftovers, gap."""

    help = "Plan a household's season and print it; with --explain each step's reasons."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare the household, the day, the time there is and --explain."""
        says = "whose season: a household's id, or demo, the invented one that needs no database"
        parser.add_argument("--household", default="demo", help=says)
        parser.add_argument("--today", type=date.fromisoformat, help="day of planning; today when not said")
        parser.add_argument("--seconds", type=float, default=30.0, help="time to search")
        parser.add_argument("--explain", action="store_true", help="say why each step is where it is")

    def handle(self, *args: Any, **options: Any) -> None:
        """Gather, solve, check, print."""
        today = options["today"] or timezone.localdate()
        rows = _demo(today) if options["household"] == "demo" else _kept(options["household"], today)
        names = {row["id"]: row["name"] for row in [*rows["zones"], *rows["products"]]}
        asked = {name: [_without_name(row) for row in rows[name]] for name in ("zones", "products")}
        try:
            found = household.arguments(
                zones=asked["zones"],
                products=_with_stock(asked["products"], rows["entries"], today),
                entries=rows["entries"],
                climate=rows["climate"],
                today=today,
                **{name: rows[name] for name in OF_ITS_OWN if rows.get(name)},
            )
            given, rules = found["plan"], found["rules"]
            plan, _ = household.plan(given, options["seconds"])
        except household.NotPlanned as error:
            raise CommandError(str(error)) from error
        for line in [
            *_steps(plan, names | _grounds(given, names), options["explain"]),
            *_sums(plan, names),
            *_checked(plan, given, rules),
        ]:
            self.stdout.write(line)


def _without_name(row: Json) -> Json:
    return {key: value for key, value in row.items() if key != "name" and value is not None}


def _with_stock(products: list[Json], entries: list[Json], today: date) -> list[Json]:
    """The products with what the log says is left of each."""
    known = household.ask("record.totals", {"entries": entries, "today": today.isoformat()})["products"]
    left = {key: one["left_kg"] for key, one in known.items() if one["left_kg"] is not None}
    return [{**row, "left_kg": left[row["id"]]} if row["id"] in left else row for row in products]


def _kept(household_id: str, today: date) -> Json:
    """A household's book as the database keeps it."""
    try:
        return book.book_of(uuid.UUID(household_id), today)
    except (ValueError, OperationalError) as error:
        raise CommandError(f"Not planned: {error}") from error


def _demo(today: date) -> Json:
    """The demo's book as of a day, without a database."""
    scenario = Scenario(today)
    members = {row["key"]: scenario.id_of(row["key"]) for row in scenario.people}
    items = [item for entry in entries_of(scenario, members) for item in entry.items]
    entries = [
        {**item["body"], "id": item["id"], "void": item.get("set", {}).get("void", {}).get("void", False)}
        for item in items
    ]
    kept = [item for batch in scenario.settings(uuid.UUID(int=0)) for item in batch]
    climate = {name: scenario.household["climate"][name] for name in ("warmest_c", "coldest_c")}
    return {
        "zones": [_zone(item) for item in kept if item["t"] == "zone"],
        "products": [_product(item) for item in kept if item["t"] == "product"],
        "entries": entries,
        "climate": {**climate, "southern": scenario.calendar.southern},
    }


def _flat(item: Json) -> Json:
    return {name: value for part in item["set"].values() for name, value in part.items()} | {"id": item["id"]}


def _zone(item: Json) -> Json:
    row = _flat(item)
    return {name: row.get(name) for name in ("id", "name", "area_m2", "grass", "sun", "near_water")}


def _product(item: Json) -> Json:
    row = _flat(item)
    wanted = (
        "id",
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
    return {name: row.get(name) for name in wanted}


def _steps(plan: Json, names: Json, explain: bool) -> list[str]:
    lines = [f"{len(plan['steps'])} steps"]
    for one in plan["steps"]:
        zones = ", ".join(names.get(zone, zone) for zone in one["zones"])
        amount = f" {names.get(one['product'], one['product'])}, {one['kg']:.1f} kg," if one["product"] else ""
        lines.append(f"  {one['date']}  {one['sort'].replace('_', ' ')}{amount} on {zones}")
        if explain:
            lines += [f"      {WHY[why['why']].format(**why)}" for why in one["why"]]
    return lines + [
        f"  no week found: {one['sort'].replace('_', ' ')} of {names[one['group']]}" for one in plan["left_out"]
    ]


def _grounds(given: Json, names: Json) -> Json:
    """Groups by the names of their zones."""
    return {of["id"]: ", ".join(names[zone] for zone in of["zones"]) for of in given["groups"]}


def _sums(plan: Json, names: Json) -> list[str]:
    bags = [
        f"  {one['bags']} × {names[one['product']]}, {one['kg']:.1f} kg, {one['price']:.2f}" for one in plan["bags"]
    ]
    left = [f"  {names[one['product']]}, {one['kg']:.1f} kg" for one in plan["left_over"]]
    cost = plan["cost"]
    says = SAYS[plan["says"]].format(bound=plan["bound"] or 0.0, cost=plan["weighed_cost"])
    gap = "" if plan["gap_share"] is None else f" The gap is {100 * plan['gap_share']:.2f} %."
    return [
        "Bags to buy:", *(bags or ["  none"]), "Left over:", *(left or ["  nothing"]),
        f"Cost: {cost['bought']:.2f} for bags; {plan['evenings']:.0f} evenings; "
        f"{plan['missed_n_kg']:.2f} kg of nitrogen missed.",
        says + gap,
    ]  # fmt: skip


def _checked(plan: Json, given: Json, rules: list[Json]) -> list[str]:
    """What limits.check finds in the plan."""
    sorts = {"feed": "fertilizer", "overseed": "seed", "lime": "lime", "pre_emergent": "pre_emergent"}
    bags = {one["id"]: one for one in given["products"]}
    jobs = []
    for at, one in enumerate(plan["steps"]):
        if one["sort"] in sorts:
            bag = bags.get(one["product"], {})
            n = one["rate_kg_m2"] * bag.get("n_percent", 0.0) / 100 * (1 - 1e-9)
            jobs.append(
                {
                    "id": str(at),
                    "date": one["date"],
                    "zone": one["group"],
                    "sort": sorts[one["sort"]],
                    "n_kg_m2": n,
                    "p2o5_kg_m2": one["rate_kg_m2"] * bag.get("p2o5_percent", 0.0) / 100,
                    "slow_n_share": bag.get("slow_n_share", 0.0),
                    "watered_in": True,
                }
            )
    zones = [{"id": of["id"], "turf": of["turf"], "watered": True} for of in given["groups"]]
    answer = call("limits.check", {"jobs": jobs, "zones": zones, "rules": rules})
    if "error" in answer:
        raise CommandError(f"limits.check: {answer['error']['message']}")
    found = [f"  {one['date']} {one['kind']}: {one['says']}" for one in answer["value"]["breaches"]]
    return ["Rules checked: nothing is broken." if not found else "Rules broken:", *found]
