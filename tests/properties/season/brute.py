"""A planner that counts out every plan of a small yard: it knows the rules by their words, not the model."""

import math
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import product as all_of
from typing import Any, NamedTuple

Json = dict[str, Any]
LASTS = {"soluble": (4, 6), "part": (5, 10), "slow": (6, 12)}
EVENING_COST = 2.0


class Feed(NamedTuple):
    """A feed of one group: which product, from which week until which, kilograms at least, at most and wanted."""

    product: int
    week: int
    until: int
    least: float
    most: float
    wanted: float


def cheapest(yard: Json) -> float:
    """What the best plan costs."""
    missed = 3.0 * max(one["price"] / one["net_kg"] / (one["n_percent"] / 100) for one in yard["products"])
    ways = [list(_ways(yard, of)) for of in yard["groups"]]
    best = math.inf
    for plan in all_of(*ways):
        evenings = _evenings(yard, plan)
        if evenings is None:
            continue
        best = min(best, evenings * EVENING_COST + _bought(yard, plan, missed))
    return best


def _lasts(one: Json) -> tuple[int, int]:
    slow = one["slow_n_share"]
    return LASTS["slow" if slow > 0.5 else "part" if slow > 0.15 else "soluble"]


def _nodes(yard: Json, need: list[float]) -> list[int]:
    fed = [week for week, one in enumerate(need) if one > 0]
    if not fed:
        return []
    end = fed[-1] + 1
    monday = date.fromisoformat(yard["today"]) - timedelta(date.fromisoformat(yard["today"]).weekday())
    days = [(monday + timedelta(7 * week)).day for week in range(end)]
    halves = {week for week in range(end) if days[week] <= 7 or 15 <= days[week] <= 21}
    begins = {week for week in range(1, end) if need[week] > 0 and need[week - 1] == 0}
    return sorted({0, end} | halves | begins)


def _ways(yard: Json, of: Json) -> Iterator[tuple[Feed, ...]]:
    """Every row of feeds of a group, none included; each ends before the next begins, or just as it does."""
    need = of["need_n_kg_m2"]
    nodes = _nodes(yard, need)
    feeds = [feed for at, one in enumerate(yard["products"]) for feed in _feeds(yard, of, at, one, nodes)]

    def on(week: int, chosen: tuple[Feed, ...]) -> Iterator[tuple[Feed, ...]]:
        yield chosen
        for feed in feeds:
            if feed.week >= week:
                yield from on(feed.until, (*chosen, feed))

    for way in on(0, ()):
        if _under_ceilings(yard, of, way):
            yield way


def _feeds(yard: Json, of: Json, at: int, one: Json, nodes: list[int]) -> Iterator[Feed]:
    if yard["wishes"].get("gentle_only") and one["slow_n_share"] < 0.5:
        return
    n, slow, need = one["n_percent"] / 100, one["slow_n_share"], of["need_n_kg_m2"]
    most = one["rate_kg_m2"]
    if "n_once_kg_m2" in of:
        most = min(most, of["n_once_kg_m2"] / n, of["n_quick_once_kg_m2"] / n / (1 - slow))
    low, high = _lasts(one)
    for place, week in enumerate(nodes[:-1]):
        if not any(need[week : nodes[place + 1]]):
            continue
        shortest = True
        for until in nodes[place + 1 :]:
            least = 2 if until == nodes[-1] else low
            if not least <= until - week <= high:
                continue
            before = nodes[nodes.index(until) - 1]
            if before > week and before - week >= low and not any(need[before:until]):
                continue
            wanted = sum(need[week:until]) / n
            reach = 0.0 if shortest else 0.6
            shortest = False
            if most >= reach * wanted and min(most, wanted) >= 0.3 * one["rate_kg_m2"]:
                area = of["area_m2"]
                yield Feed(at, week, until, min(0.8 * wanted, most) * area, min(wanted, most) * area, wanted * area)


def _under_ceilings(yard: Json, of: Json, way: tuple[Feed, ...]) -> bool:
    if "n_once_kg_m2" not in of:
        return True
    for days, ceiling, quick in ((28, of["n_quick_once_kg_m2"], True), (42, of["n_once_kg_m2"], False)):
        for first in way:
            near = [feed for feed in way if 0 <= 7 * (feed.week - first.week) <= days]
            fallen = sum(feed.most * _n(yard, feed) * (1 - _slow(yard, feed) if quick else 1) for feed in near)
            if len(near) > 1 and fallen > ceiling * of["area_m2"] * (1 + 1e-9):
                return False
    return True


def _n(yard: Json, feed: Feed) -> float:
    return float(yard["products"][feed.product]["n_percent"]) / 100


def _slow(yard: Json, feed: Feed) -> float:
    return float(yard["products"][feed.product]["slow_n_share"])


def _evenings(yard: Json, plan: tuple[tuple[Feed, ...], ...]) -> float | None:
    """How many evenings a plan takes, or nothing where a week has too few."""
    minutes: dict[tuple[int, int], float] = {}
    for of, way in zip(yard["groups"], plan, strict=True):
        for feed in way:
            key = (feed.week, feed.product)
            minutes[key] = minutes.get(key, 0.0) + 10 + of["area_m2"] / 30
    taken = {key: max(1, math.ceil(one / yard["wishes"]["evening_minutes"] - 1e-9)) for key, one in minutes.items()}
    for week in {week for week, _ in taken}:
        if sum(count for (one, _), count in taken.items() if one == week) > yard["wishes"]["evenings_week"]:
            return None
    return float(sum(taken.values()))


def _bought(yard: Json, plan: tuple[tuple[Feed, ...], ...], missed: float) -> float:
    """Product, leftovers and what is missed, at the best kilograms and bags."""
    asked = sum(sum(of["need_n_kg_m2"]) * of["area_m2"] for of in yard["groups"])
    usable = [(at, one) for at, one in enumerate(yard["products"]) if _usable(yard, at, one)]
    choices = [list(_bags(yard, plan, at, one, missed)) for at, one in usable]
    spend = yard["wishes"].get("spend_most", math.inf)
    costs = [
        sum(cost for _, cost in pick)
        for pick in all_of(*choices)
        if sum(money for money, _ in pick) <= spend * (1 + 1e-12)
    ]
    return float(min(costs, default=math.inf) + asked * missed)


def _usable(yard: Json, at: int, one: Json) -> bool:
    """Whether a product could be used at all: what lies in the shed of any other is no cost of a plan."""
    return any(True for of in yard["groups"] for _ in _feeds(yard, of, at, one, _nodes(yard, of["need_n_kg_m2"])))


def _bags(
    yard: Json, plan: tuple[tuple[Feed, ...], ...], at: int, one: Json, missed: float
) -> Iterator[tuple[float, float]]:
    """Money and cost for each number of bags of a product; nitrogen given is taken off what is missed."""
    n, price = one["n_percent"] / 100, one["price"] / one["net_kg"]
    least = room = 0.0
    for of, way in zip(yard["groups"], plan, strict=True):
        own = [feed for feed in way if feed.product == at]
        low = sum(feed.least for feed in own)
        more = sum(feed.most - feed.least for feed in own)
        if "n_year_kg_m2" in of:
            ceiling = of["n_year_kg_m2"] * of["area_m2"] / n
            if low > ceiling * (1 + 1e-9):
                return
            more = min(more, ceiling - low)
        least, room = least + low, room + more
    for bags in range(int((least + room) / one["net_kg"]) + 2):
        there = one["stock_kg"] + bags * one["net_kg"]
        if there < least * (1 - 1e-12):
            continue
        added = min(room, there - least) if 0.75 * price < missed * n else 0.0
        used = least + added
        yield bags * one["price"], price * used + 0.25 * price * (there - used) - missed * n * used
