"""The same yard as the plain lot-sizing model: a yes or no for each product, group and week, and a stock of nitrogen.

It buys and values as ours does (price, whole bags, a quarter of what is left in them, evenings, nitrogen missed) and
keeps the ceilings; nitrogen comes free evenly over the weeks a product lasts, and what is free and not needed waits
four weeks at most. It reckons nitrogen week by week where ours goes feed by feed, so its gap and its time are laid
beside ours, and not its cost.
"""

from typing import Any

Json = dict[str, Any]
LASTS = ((0.5, 9), (0.15, 7), (0.0, 5))  # slow-release share from which a product lasts so many weeks
MISSED = 3.0  # times the dearest nitrogen, as ours counts it
KEPT_SHARE = 0.25
EVENING_COST, EVENINGS, EVENING_MINUTES = 2.0, 2, 120.0
MINUTES, M2_MINUTE = 10.0, 30.0
LEAST_SHARE = 0.3  # of the label's rate
MOST_BAGS = 60.0
WAITS = 4  # weeks of need that may lie free in the ground


class _Model:
    def __init__(self) -> None:
        self.columns: list[Json] = []
        self.rows: list[Json] = []

    def column(self, name: str, high: float, cost: float = 0.0, integer: bool = False) -> int:
        self.columns.append({"name": name, "low": 0.0, "high": high, "cost": cost, "integer": integer})
        return len(self.columns) - 1

    def row(self, name: str, low: float | None, high: float | None, terms: list[list[float]]) -> None:
        self.rows.append({"name": name, "low": low, "high": high, "terms": terms, "says": name})


def weeks_of(slow: float) -> int:
    """How many weeks a product lasts."""
    return next(weeks for share, weeks in LASTS if slow >= share)


def model(yard: Json) -> Json:
    """The model as the solver takes it."""
    made = _Model()
    groups, products, weeks = yard["groups"], yard["products"], yard["wishes"]["weeks"]
    dearest = max(100 * one["price"] / one["net_kg"] / one["n_percent"] for one in products)
    put = _applications(made, groups, products, weeks)
    _evenings(made, groups, products, weeks, put)
    _bags(made, groups, products, weeks, put)
    for group in groups:
        _nitrogen(made, group, products, weeks, put, dearest * MISSED)
        _ceilings(made, group, products, weeks, put)
    return {"columns": made.columns, "rows": made.rows}


def _applications(made: _Model, groups: list[Json], products: list[Json], weeks: int) -> dict[Any, tuple[int, int]]:
    """For each a yes or no and an amount per area that is nothing without the yes: the big M is the label's rate."""
    put = {}
    for group in groups:
        for product in products:
            for week in range(weeks):
                name = f"{group['id']}|{product['id']}|{week}"
                yes, rate = made.column("y|" + name, 1.0, integer=True), made.column("r|" + name, product["rate_kg_m2"])
                made.row("most|" + name, None, 0.0, [[rate, 1.0], [yes, -product["rate_kg_m2"]]])
                made.row("least|" + name, 0.0, None, [[rate, 1.0], [yes, -LEAST_SHARE * product["rate_kg_m2"]]])
                put[group["id"], product["id"], week] = (yes, rate)
    return put


def _evenings(made: _Model, groups: list[Json], products: list[Json], weeks: int, put: Any) -> None:
    for week in range(weeks):
        evenings = []
        for product in products:
            evening = made.column(f"t|{product['id']}|{week}", 1.0, EVENING_COST, integer=True)
            evenings.append(evening)
            terms = [[evening, -EVENING_MINUTES]]
            for group in groups:
                yes = put[group["id"], product["id"], week][0]
                terms.append([yes, MINUTES + group["area_m2"] / M2_MINUTE])
                made.row(f"evening|{group['id']}|{product['id']}|{week}", None, 0.0, [[yes, 1.0], [evening, -1.0]])
            made.row(f"minutes|{product['id']}|{week}", None, 0.0, terms)
        made.row(f"evenings|{week}", None, EVENINGS, [[one, 1.0] for one in evenings])


def _bags(made: _Model, groups: list[Json], products: list[Json], weeks: int, put: Any) -> None:
    """Used and left are what was bought; what is left keeps all but a quarter of its price."""
    for product in products:
        kilo = product["price"] / product["net_kg"]
        bags = made.column("b|" + product["id"], MOST_BAGS, product["price"], integer=True)
        left = made.column("l|" + product["id"], MOST_BAGS * product["net_kg"], -(1.0 - KEPT_SHARE) * kilo)
        terms: list[list[float]] = [[bags, -product["net_kg"]], [left, 1.0]]
        for group in groups:
            for week in range(weeks):
                terms.append([put[group["id"], product["id"], week][1], group["area_m2"]])
        made.row("bags|" + product["id"], 0.0, 0.0, terms)


def _nitrogen(made: _Model, group: Json, products: list[Json], weeks: int, put: Any, missed_cost: float) -> None:
    """What is free one week and not needed waits for the next; what falls short costs."""
    needs = group["need_n_kg_m2"]
    most = WAITS * max(needs)
    before: int | None = None
    for week in range(weeks):
        waits = made.column(f"i|{group['id']}|{week}", most)
        missed = made.column(f"m|{group['id']}|{week}", needs[week], missed_cost * group["area_m2"])
        terms: list[list[float]] = [[waits, -1.0], [missed, 1.0]]
        if before is not None:
            terms.append([before, 1.0])
        for product in products:
            lasts = weeks_of(product["slow_n_share"])
            for at in range(max(0, week - lasts + 1), week + 1):
                rate = put[group["id"], product["id"], at][1]
                terms.append([rate, product["n_percent"] / 100 / lasts])
        made.row(f"nitrogen|{group['id']}|{week}", needs[week], needs[week], terms)
        before = waits


def _ceilings(made: _Model, group: Json, products: list[Json], weeks: int, put: Any) -> None:
    """Nitrogen of any six weeks, and its quick part of any four."""
    for name, over, share in (("n_once_kg_m2", 6, 0.0), ("n_quick_once_kg_m2", 4, 1.0)):
        for week in range(weeks):
            terms = []
            for product in products:
                n = product["n_percent"] / 100 * (1.0 - share * product["slow_n_share"])
                for at in range(max(0, week - over + 1), week + 1):
                    terms.append([put[group["id"], product["id"], at][1], n])
            made.row(f"{name}|{group['id']}|{week}", None, group[name], terms)
