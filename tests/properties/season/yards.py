"""Small yards drawn from a seed: groups, products and wishes as season.build takes them."""

from random import Random
from typing import Any

from tests.properties.season.skeletons import MONTHS, skeleton

Json = dict[str, Any]
LB = 0.45359237 / 92.90304  # kg/m2 of a pound per 1,000 ft2
EVEN = {"warmest_c": 19.0, "coldest_c": 15.0, "southern": False}  # a year in which grass may be fed in any week
TODAY = "2026-03-02"


def product(s: Random, at: int, **more: Any) -> Json:
    """A feed for about a pound of nitrogen at its label's rate."""
    n = s.uniform(6, 30)
    return {
        "id": f"p{at}",
        "sort": "fertilizer",
        "net_kg": s.uniform(4, 20),
        "price": s.uniform(15, 50),
        "n_percent": n,
        "slow_n_share": s.choice([0.0, 0.1, 0.3, 0.9]),
        "rate_kg_m2": s.uniform(0.6, 1.0) * LB / (n / 100),
        "stock_kg": s.choice([0.0, 0.0, s.uniform(1, 10)]),
        **more,
    }


def small(seed: int) -> Json:
    """A yard whose plans can be counted out: one or two groups, one or two products, eight to ten weeks."""
    s = Random(f"small yard {seed}")
    weeks, groups = s.randint(8, 10), s.randint(1, 2)
    products = s.randint(1, 2)
    ceiling = {"n_year_kg_m2": s.uniform(0.3, 1.2) * LB} if products == 1 and s.random() < 0.5 else {}
    once = {"n_once_kg_m2": 0.9 * LB, "n_quick_once_kg_m2": s.choice([0.5, 0.7]) * LB} if s.random() < 0.5 else {}
    wishes: Json = {"weeks": weeks, "evenings_week": s.randint(1, 2), "evening_minutes": s.choice([40, 120])}
    if s.random() < 0.3:
        wishes["spend_most"] = s.uniform(10, 80)
    if s.random() < 0.3:
        wishes["gentle_only"] = s.random() < 0.5
    return {
        "groups": [
            {
                "id": f"g{at}",
                "area_m2": s.uniform(50, 400),
                "turf": s.choice(["cool", "cool"]),
                "need_n_kg_m2": [s.choice([0.0, s.uniform(0.04, 0.16) * LB]) for _ in range(weeks)],
                **ceiling,
                **once,
            }
            for at in range(groups)
        ],
        "products": [product(s, at) for at in range(products)],
        "climate": dict(EVEN),
        "rules": {},
        "wishes": wishes,
        "done": [],
        "locked": [],
        "today": TODAY,
    }


JOBS = ("pre_emergent", "overseed", "aerate", "lime", "soil_test")


def random_yard(seed: int) -> Json:
    """Any yard: a skeleton's climate, jobs, things done, ceilings, closed days."""
    s = Random(f"yard {seed}")
    key = s.choice(["a", "b", "c", "e"])
    table = skeleton(key)
    turf = table["turf"][0]
    month = s.randint(1, 12)
    done: list[Json] = [
        {
            "date": f"2025-{s.randint(5, 12):02}-{s.randint(1, 28):02}",
            "group": "g0",
            "product": "p0",
            "n_kg_m2": s.uniform(0.1, 0.7) * LB,
            "slow_n_share": s.choice([0.0, 0.5, 0.9]),
        }
        for _ in range(s.randint(0, 3))
    ]
    most_of_a_year = s.uniform(1.5, 4) * LB
    others = [
        {"id": "pre", "sort": "pre_emergent", "net_kg": 8.0, "price": 30.0, "rate_kg_m2": 0.015, "wait_days": 90},
        {"id": "seed", "sort": "seed", "net_kg": 5.0, "price": 40.0, "rate_kg_m2": 0.015},
        {"id": "lime", "sort": "lime", "net_kg": 18.0, "price": 8.0, "rate_kg_m2": 0.2},
    ]
    return {
        "groups": [
            {
                "id": f"g{at}",
                "area_m2": s.uniform(50, 400),
                "turf": turf,
                "aim_n_kg_m2": s.uniform(1, 4) * LB,
                "n_once_kg_m2": 0.9 * LB,
                "n_quick_once_kg_m2": 0.5 * LB,
                "n_year_kg_m2": most_of_a_year,
                "jobs": [job for job in JOBS if s.random() < 0.4],
            }
            for at in range(s.randint(1, 2))
        ],
        "products": [
            product(s, at, interval_days=s.choice([0, 28, 42]), source=s.choice(["soluble", "natural"]))
            for at in range(s.randint(1, 3))
        ]
        + others,
        "climate": {"monthly_mean_c": MONTHS[key], "jobs": table["jobs"]},
        "rules": {"closed": [{"first": "2026-11-16", "last": "2027-02-28"}]},
        "wishes": {"evenings_week": s.randint(1, 3)},
        "done": [one for one in done if one["date"] < f"2026-{month:02}-01"],
        "locked": [],
        "today": f"2026-{month:02}-05",
    }
