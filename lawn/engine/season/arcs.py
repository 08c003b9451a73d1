"""Feeding as a path: an arc says that a product put down in one week serves a group until another.

Lot sizing in its shortest-path form (Eppen and Martin 1987, from memory), so that the relaxation is tight.
"""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import total
from lawn.engine.nutrition.kinds import MOSTLY_SLOW, WEEKS, lasting
from lawn.engine.nutrition.spacing import ALL_DAYS, QUICK_DAYS
from lawn.engine.season.model import FAR, in_week
from lawn.engine.season.needs import WEEK
from lawn.engine.season.weeks import feedable

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from lawn.engine.season.model import Model

LEAST_AT_END = 2  # weeks: at the end of the growing weeks nothing follows, so less will do there
LOW_SHARE = 0.8  # of the need: the least a feed gives
REACH_SHARE = 0.6  # of the need: a feed that cannot reach it is none
RATE_SHARE = 0.3  # of the label's rate: less is not spread evenly
NEAR_WEEKS = 1  # on both sides of a step chosen on the coarse grid


def lasts(product: "dict[str, Any]") -> "tuple[int, int]":
    """Weeks a product lasts, least and most; never less than quick nitrogen is added up over."""
    least, most, _ = WEEKS[lasting(source=product["source"], slow_n_share=product["slow"])]
    return max(int(least), QUICK_DAYS[0] // WEEK), int(most)


def add_group(model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]") -> None:
    """The arcs of a group, the weeks it is not fed in, and the flow through its nodes."""
    need = of["needs"]
    end = _last(need)
    of["nodes"], of["starts"] = nodes(plan, of, end), []
    if end == 0:
        return
    outs: dict[int, list[list[Any]]] = {at: [] for at in of["nodes"]}
    _skips(model, plan, of, outs)
    for product in plan["products"]:
        if product["sort"] == "fertilizer" and product["n"] > 0.0 and fits(plan, of, product):
            _arcs(model, plan, of, product, outs)
    for at in range(len(of["nodes"])):
        node = of["nodes"][at]
        fixed = 1.0 if at == 0 else -1.0 if at == len(of["nodes"]) - 1 else 0.0
        says = "Every week of " + of["id"] + " is either fed for or counted as missed."
        model.row("path|" + of["id"] + "|" + str(node), fixed, fixed, outs[node], says, False)


def nodes(plan: "dict[str, Any]", of: "dict[str, Any]", end: int) -> list[int]:
    """The weeks in which a feed may begin, and the end."""
    wishes, need = plan["wishes"], of["needs"]
    found = {0, end}
    for week in range(end):
        day = int(plan["weeks"][week]["date"][8:])
        weekly = wishes["grid"] == "weekly" and wishes["near"] is None
        if weekly or day <= 7 or 15 <= day <= 21 or (need[week] > 0.0 and (week == 0 or need[week - 1] == 0.0)):
            found.add(week)
    for step in plan["locked"] + (wishes["present"] or []):
        if step["group"] == of["id"] and step["job"] is None and step["week"] < end:
            found.add(step["week"])
    for step in wishes["near"] or []:
        if step["group"] == of["id"] and step["job"] is None:
            for week in range(step["week"] - NEAR_WEEKS, step["week"] + NEAR_WEEKS + 1):
                found.add(min(max(week, 0), end))
    return sorted(found)


def _last(need: list[float]) -> int:
    weeks = [at for at in range(len(need)) if need[at] > 0.0]
    return weeks[-1] + 1 if weeks else 0


def is_wished(plan: "dict[str, Any]", product: "dict[str, Any]") -> bool:
    """Whether a product is gentle, where only such are wished for."""
    return bool(product["slow"] >= MOSTLY_SLOW or not plan["wishes"]["gentle_only"])


def fits(plan: "dict[str, Any]", of: "dict[str, Any]", product: "dict[str, Any]") -> bool:
    """Whether a product may go on a group at all: gentle where that is wished, phosphorus where it may be."""
    return is_wished(plan, product) and (of["phosphate"] or product["p2o5_percent"] == 0.0)


def _skips(model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]", outs: "dict[int, list[Any]]") -> None:
    for at in range(1, len(of["nodes"])):
        week, until = of["nodes"][at - 1], of["nodes"][at]
        missed = total(of["needs"][week:until]) * of["area_m2"]
        told = {"what": "skip", "group": of["id"], "week": week, "until": until, "n_kg": missed}
        name = "skip|" + of["id"] + "|" + str(week)
        column = model.column(name, missed * plan["wishes"]["missed_cost_kg_n"], told)
        outs[week].append([column, 1.0])
        outs[until].append([column, -1.0])


def most_at_once(plan: "dict[str, Any]", of: "dict[str, Any]", product: "dict[str, Any]", week: int) -> float:
    """The most of a product that may go on at once in a week: the label, the ceilings, less what was just put down."""
    quick, whole = of["n_quick_once_kg_m2"], of["n_once_kg_m2"]
    day = plan["weeks"][week]["day"]
    for one in plan["done"]:
        if one["group"] == of["id"]:
            if day - one["day"] < _apart(one, product):
                return 0.0
            if quick is not None and day - one["day"] <= QUICK_DAYS[0]:
                quick -= one["n_kg_m2"] * (1.0 - one["slow"])
            if whole is not None and day - one["day"] <= ALL_DAYS[0]:
                whole -= one["n_kg_m2"]
    found = float(product["rate_kg_m2"])
    if quick is not None and product["slow"] < 1.0:
        found = min(found, quick / product["n"] / (1.0 - product["slow"]))
    return max(0.0, found if whole is None else min(found, whole / product["n"]))


def _apart(one: "dict[str, Any]", product: "dict[str, Any]") -> float:
    """Days from what was done until a product may follow: its own label's, and those between any two feeds."""
    own = product["interval_days"] if one["product"] == product["id"] else 0.0
    return max(
        own, float(ALL_DAYS[0] if one["slow"] >= MOSTLY_SLOW else QUICK_DAYS[0]) if one["n_kg_m2"] > 0.0 else 0.0
    )


def _arcs(
    model: "Model",
    plan: "dict[str, Any]",
    of: "dict[str, Any]",
    product: "dict[str, Any]",
    outs: "dict[int, list[Any]]",
) -> None:
    low, high = lasts(product)
    kept = {one["week"] for one in plan["locked"] if one["group"] == of["id"] and one["job"] is None}
    for at in range(len(of["nodes"]) - 1):
        week = of["nodes"][at]
        if feedable(of, product, plan["weeks"][week]) != "":
            continue
        if total(of["needs"][week : of["nodes"][at + 1]]) == 0.0 and week not in kept:
            continue
        most = most_at_once(plan, of, product, week)
        first = True  # the shortest is kept even where a ceiling lets it reach little: some is better than none
        for to in range(at + 1, len(of["nodes"])):
            until = of["nodes"][to]
            idle = (
                to > at + 1
                and of["nodes"][to - 1] - week >= low
                and total(of["needs"][of["nodes"][to - 1] : until]) == 0.0
            )
            least = LEAST_AT_END if to == len(of["nodes"]) - 1 else low
            if least <= until - week <= high and not idle:
                reach = 0.0 if first else REACH_SHARE
                first = False
                _arc(model, plan, of, product, week, until, most, reach, outs)


def _arc(
    model: "Model",
    plan: "dict[str, Any]",
    of: "dict[str, Any]",
    product: "dict[str, Any]",
    week: int,
    until: int,
    most: float,
    reach: float,
    outs: "dict[int, list[Any]]",
) -> None:
    wanted = total(of["needs"][week:until]) / product["n"]
    if wanted <= 0.0 or most < reach * wanted or min(wanted, most) < RATE_SHARE * product["rate_kg_m2"]:
        return
    area = of["area_m2"]
    high = min(wanted, most) * area
    least = min(LOW_SHARE * wanted, most) * area
    missed = (wanted * area - least) * product["n"] * plan["wishes"]["missed_cost_kg_n"]
    moved = 0.0 if _was_there(plan, of, product["id"], week) else plan["wishes"]["moved_cost"]
    told = {
        "what": "feed",
        "group": of["id"],
        "product": product["id"],
        "week": week,
        "until": until,
        "low_kg": least,
        "high_kg": high,
        "n_kg": wanted * area * product["n"],
    }
    name = "feed|" + of["id"] + "|" + product["id"] + "|" + str(week) + "|" + str(until)
    column = model.column(name, least * product["price_kg"] + missed + moved, told)
    outs[week].append([column, 1.0])
    outs[until].append([column, -1.0])
    of["starts"].append(column)


def _was_there(plan: "dict[str, Any]", of: "dict[str, Any]", product: str, week: int) -> bool:
    present = plan["wishes"]["present"]
    if present is None:
        return True
    return any(one["group"] == of["id"] and one["product"] == product and one["week"] == week for one in present)


def add_kilograms(model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]") -> None:
    """One column of kilograms for each product of a group: what goes above the least amounts of its chosen arcs."""
    for product in plan["products"]:
        terms = []
        for column in of["starts"]:
            told = model.told[column]
            if told["product"] == product["id"] and told["high_kg"] > told["low_kg"]:
                terms.append([column, told["low_kg"] - told["high_kg"]])
        if not terms:
            continue
        saved = product["n"] * plan["wishes"]["missed_cost_kg_n"]
        told = {"what": "more", "group": of["id"], "product": product["id"]}
        column = model.column("more|" + of["id"] + "|" + product["id"], product["price_kg"] - saved, told, FAR, False)
        says = "What is added of " + product["id"] + " on " + of["id"] + " stays within what its feeds may hold."
        model.row("room|" + of["id"] + "|" + product["id"], None, 0.0, [[column, 1.0]] + terms, says, False)


def add_locked(model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]") -> None:
    """What a person has locked stays in its week."""
    for step in plan["locked"]:
        if step["group"] != of["id"] or step["product"] is None or step["job"] is not None:
            continue
        terms = []
        for column in of["starts"]:
            told = model.told[column]
            if told["week"] == step["week"] and told["product"] == step["product"]:
                terms.append([column, 1.0])
        says = (
            "The feed of " + step["product"] + " on " + of["id"] + " is locked in " + in_week(plan, step["week"]) + "."
        )
        name = "locked|" + of["id"] + "|" + step["product"] + "|" + str(step["week"])
        model.row(name, 1.0, 1.0, terms, says, True)


def year_ends(plan: "dict[str, Any]", of: "dict[str, Any]") -> "list[tuple[int, float]]":
    """Days before which planned and done nitrogen share a year's ceiling, each with what was done."""
    done = [one for one in plan["done"] if one["group"] == of["id"]]
    first = _year_begins(plan)
    found = [(first + 366, total([one["n_kg_m2"] for one in done if one["day"] >= first]))]
    for day in sorted({one["day"] for one in done}):
        if day > plan["today"] - 365:
            found.append((day + 365, total([one["n_kg_m2"] for one in done if one["day"] >= day])))
    return found + [(plan["monday"] + 365, 0.0)]


def _year_begins(plan: "dict[str, Any]") -> int:
    """The book's year begins with the cold half: 1 January north, 1 July south."""
    year = int(day_text(plan["today"])[:4])
    if not plan["southern"]:
        return day_number("today", str(year) + "-01-01")
    first = day_number("today", str(year) + "-07-01")
    return first if first <= plan["today"] else day_number("today", str(year - 1) + "-07-01")
