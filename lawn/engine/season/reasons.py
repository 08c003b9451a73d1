"""Why each step is where it is: what it is for, why not sooner, why this product; and the working of a plan."""

from lawn.engine.core.dates import day_text
from lawn.engine.core.numeric import total
from lawn.engine.core.working import COMMON, step
from lawn.engine.season.arcs import RATE_SHARE, fits, is_wished, most_at_once
from lawn.engine.season.needs import WEEK
from lawn.engine.season.weeks import feedable

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


def of_feed(
    model: "Any", plan: "dict[str, Any]", of: "dict[str, Any]", told: "dict[str, Any]", values: list[float]
) -> "list[dict[str, object]]":
    """Reasons of a feed: the need it covers, what held it back, what speaks for its product."""
    first = plan["monday"]
    need = total(of["needs"][told["week"] : told["until"]])
    found = [
        _why("need", day_text(first + WEEK * told["week"]), day_text(first + WEEK * told["until"]), need),
        _not_sooner(model, plan, of, told, values),
        _of_product(plan, of, told),
    ]
    return found


def _not_sooner(
    model: "Any", plan: "dict[str, Any]", of: "dict[str, Any]", told: "dict[str, Any]", values: list[float]
) -> "dict[str, object]":
    week = told["week"]
    if is_locked(plan, told):
        return _why("locked")
    if week == 0:
        return _why("now")
    for at in of["starts"]:
        if values[at] > 0.5 and model.told[at]["until"] == week:
            return _why(
                "fed_until", day_text(plan["weeks"][model.told[at]["week"]]["day"]), plan["weeks"][week]["date"]
            )
    product = next(one for one in plan["products"] if one["id"] == told["product"])
    held = feedable(of, product, plan["weeks"][week - 1])
    if held != "":
        return _why(held, plan["weeks"][week - 1]["date"], plan["weeks"][week]["date"])
    if of["needs"][week - 1] == 0.0:
        return _why("no_need_before", plan["weeks"][week - 1]["date"], plan["weeks"][week]["date"])
    return _why("dearer_sooner", plan["weeks"][week - 1]["date"], plan["weeks"][week]["date"])


def _of_product(plan: "dict[str, Any]", of: "dict[str, Any]", told: "dict[str, Any]") -> "dict[str, object]":
    """Why this product: in the shed, the only one allowed now, cheapest by its nitrogen, or best for the whole."""
    feeds = [one for one in plan["products"] if one["sort"] == "fertilizer" and one["n"] > 0.0]
    own = next(one for one in feeds if one["id"] == told["product"])
    week = plan["weeks"][told["week"]]
    allowed = [one for one in feeds if feedable(of, one, week) == "" and fits(plan, of, one)]
    if own["stock_kg"] > 0.0:
        return _why("in_shed")
    if len(allowed) < 2:
        return _why("only_one")
    cheapest = min([one["price_kg"] / one["n"] for one in allowed])
    if own["price_kg"] / own["n"] <= cheapest:
        return _why("cheapest_nitrogen")
    return _why("fits_whole")


def unused(model: "Any", plan: "dict[str, Any]") -> "list[dict[str, object]]":
    """Feeds that no week of a group can take, each with what keeps it out: a need that nothing meets says why."""
    found = []
    for of in plan["groups"]:
        used = {model.told[at]["product"] for at in of["starts"]}
        for one in plan["products"]:
            if one["sort"] == "fertilizer" and one["n"] > 0.0 and one["id"] not in used and max(of["needs"]) > 0.0:
                why, most = _keeps_out(plan, of, one)
                found.append(
                    {
                        "group": of["id"],
                        "product": one["id"],
                        "why": why,
                        "rate_kg_m2": one["rate_kg_m2"],
                        "most_kg_m2": most,
                    }
                )
    return found


def _keeps_out(plan: "dict[str, Any]", of: "dict[str, Any]", product: "dict[str, Any]") -> "tuple[str, float | None]":
    if not fits(plan, of, product):
        return ("phosphate" if is_wished(plan, product) else "not_gentle"), None
    weeks = [at for at in range(len(plan["weeks"])) if of["needs"][at] > 0.0]
    weeks = [at for at in weeks if feedable(of, product, plan["weeks"][at]) == ""]
    if not weeks:
        return "no_week", None
    most = max([most_at_once(plan, of, product, at) for at in weeks])
    return ("too_strong" if most < RATE_SHARE * product["rate_kg_m2"] else "little_need"), most


def of_job(plan: "dict[str, Any]", of: "dict[str, Any]", told: "dict[str, Any]") -> "list[dict[str, object]]":
    """Reasons of a dated job: its window, and that it was locked where it was."""
    weeks = [one for one in plan["spans"] if one["group"] == of["id"] and one["job"] == told["job"]]
    found = [_why("window", weeks[0]["opens"], weeks[0]["closes"])]
    return found + ([_why("locked")] if is_locked(plan, told) else [])


def is_locked(plan: "dict[str, Any]", told: "dict[str, Any]") -> bool:
    """Whether a person has locked this feed or job in its week."""
    for one in plan["locked"]:
        same = (
            one["job"] == told.get("job")
            if told["what"] == "job"
            else one["product"] == told["product"] and not one["job"]
        )
        if one["group"] == told["group"] and one["week"] == told["week"] and same:
            return True
    return False


def _why(
    why: str, since: "str | None" = None, until: "str | None" = None, n_kg_m2: "float | None" = None
) -> "dict[str, object]":
    return {"why": why, "since": since, "until": until, "n_kg_m2": n_kg_m2}


def working_of(
    steps: "list[Any]", bags: "list[Any]", left: "list[Any]", value: "dict[str, Any]", wishes: "dict[str, Any]"
) -> "list[dict[str, object]]":
    """The working of a plan: each step's product, bags, what is left, costs and the bound."""
    found = []
    for one in steps:
        of = one["group"]
        numbers = {"product": one["product"], "job": one["job"], "until": one["until"]}
        found.append(
            _one(
                "Product of a step",
                "need until the next feed over the label's nitrogen, within label and ceilings",
                numbers,
                one["kg"],
                "kg",
                of,
            )
        )
        found.append(
            _one(
                "Product rate of a step",
                "product over area",
                {"kg": one["kg"], "group": of},
                one["rate_kg_m2"],
                "kg/m2",
                of,
            )
        )
        for why in one["why"]:
            if why["n_kg_m2"] is not None:
                found.append(
                    _one(
                        "Nitrogen that a step is for",
                        "needs of its weeks added",
                        {"weeks": one["week"]},
                        why["n_kg_m2"],
                        "kg N/m2",
                        of,
                    )
                )
    for one in bags:
        found.append(
            _one(
                "Bags to buy",
                "what the shed lacks, in whole bags",
                {"product": one["product"]},
                one["bags"],
                "bags",
                None,
            )
        )
        found.append(
            _one(
                "Weight of these bags",
                "bags times net weight",
                {"bags": one["bags"], "product": one["product"]},
                one["kg"],
                "kg",
                None,
            )
        )
        found.append(
            _one(
                "Price of these bags",
                "bags times price",
                {"bags": one["bags"], "product": one["product"]},
                one["price"],
                "money",
                None,
            )
        )
    for one in left:
        found.append(
            _one("Left over", "shed and bags less what is used", {"product": one["product"]}, one["kg"], "kg", None)
        )
    of_cost = {
        "bought": {"each": [one["price"] for one in bags]},
        "left_over": {"each_kg": [one["kg"] for one in left]},
        "evenings": {"evenings": value["evenings"], "evening_cost": wishes["evening_cost"]},
        "missed": {"missed_n_kg": value["missed_n_kg"], "missed_cost_kg_n": wishes["missed_cost_kg_n"]},
    }
    for name in ("bought", "left_over", "evenings", "missed"):
        found.append(_one("Cost: " + name, COSTS[name], of_cost[name], value["cost"][name], "money", None))
    found.append(_one("Evenings", "of all weeks added", {"steps": len(steps)}, value["evenings"], "evenings", None))
    names = {"steps": len(steps)}
    found.append(_one("Weighed cost", "all columns by their cost", names, value["weighed_cost"], "money", None))
    found.append(_one("Bound", "the solver's: no plan could cost less", names, value["bound"], "money", None))
    found.append(_one("Gap", "weighed cost less the bound, over it", names, value["gap_share"], "share", None))
    found.append(_one("Of it known missing", "needs less what feeds give", names, value["missed_n_kg"], "kg N", None))
    return found


COSTS = {
    "bought": "prices of the bags added",
    "left_over": "a quarter of the price of what is left",
    "evenings": "evenings times what one is worth",
    "missed": "nitrogen missed times what it counts for",
}


def _one(
    what: str, formula: str, numbers: "dict[str, Any]", result: object, unit: str, of: "str | None"
) -> "dict[str, object]":
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source=COMMON, of=of)
