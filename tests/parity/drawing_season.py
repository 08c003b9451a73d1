"""Draws arguments for the calls of the season."""

from random import Random

from lawn.engine.door import call
from lawn.planning.household import tables
from tests.parity.drawing_base import Json, some
from tests.parity.drawing_log import totals
from tests.properties.season.yards import small

OPTIONAL = {"bound", "stopped"}
GRASSES = ("tall_fescue", "centipedegrass", "bermudagrass", "moonlight")
JOBS = ("feed", "aerate", "soil_test", "overseed", "other")
SORTS = ("soil", "air")


def climate(s: Random) -> Json:
    """Twelve months about a sine, or two numbers, north or south."""
    if s.random() < 0.5:
        cold = s.uniform(-15, 12)
        return {"warmest_c": cold + s.uniform(3, 25), "coldest_c": cold, "southern": s.random() < 0.5}
    swing, middle, turn = s.uniform(3, 15), s.uniform(3, 20), s.choice([0, 6])
    return {"monthly_mean_c": [middle - swing + swing * abs((at + turn) % 12 - 6) / 3 for at in range(12)]}


def edge(s: Random, way: str) -> Json:
    if s.random() < 0.7:
        return {"measure": s.choice(SORTS), "way": way, "edge_c": s.uniform(2, 22)}
    if s.random() < 0.5:
        return {
            "measure": "growth",
            "way": way,
            "edge_potential": s.uniform(0.1, 0.9),
            "shift_days": s.randint(-30, 30),
        }
    return s.choice([{"measure": "month", "month": s.randint(1, 12)}, {"measure": "frost", "shift_days": -40}])


def windows(s: Random) -> Json:
    jobs = []
    for at in range(s.randint(1, 6)):
        way = s.choice(["up", "down"])
        closes = edge(s, way) if s.random() < 0.6 else {"measure": "opened", "shift_days": s.randint(0, 90)}
        jobs.append({"job": f"job {at}", "opens": edge(s, way), "closes": closes})
    first = f"20{s.randint(24, 31)}-{s.randint(1, 12):02}-{s.randint(1, 28):02}"
    return {"climate": climate(s), "jobs": jobs, "first": first, "turf": s.choice(["cool", "warm"])}


def gather(s: Random) -> Json:
    zones = [
        some(
            s,
            {"id": one},
            area_m2=s.uniform(1, 900),
            turf=s.choice(["cool", "warm"]),
            sun=s.choice(["sun", "shade"]),
            apart=s.random() < 0.3,
            jobs=s.sample(["aerate", "lime", "overseed"], 2),
            n_once_kg_m2=s.choice([0.0024, 0.0044]),
        )
        for one in "cab"
    ]
    products = [
        some(
            s,
            {"id": one, "net_kg": s.uniform(1, 30), "coverage_m2": s.uniform(50, 900)},
            sort=s.choice(["fertilizer", "seed"]),
            n_percent=s.uniform(0, 40),
            price=s.uniform(1, 90),
            left_kg=s.uniform(-5, 50),
        )
        for one in "pq"
    ]
    of_log = totals(s)
    step = {"date": of_log["today"], "zones": s.sample("abcd", 2), "locked": s.random() < 0.5}
    steps = [some(s, step, product="p", job="lime") for _ in range(s.randint(0, 3))]
    return some(s, {"zones": zones, "products": products} | of_log, steps=steps)


def skeleton(s: Random) -> Json:
    ground = [
        some(s, {"turf": s.choice(["cool", "warm"])}, grass=s.choice(["tall_fescue", "centipedegrass"]))
        for _ in range(s.randint(0, 4))
    ]
    return {"climate": climate(s), "ground": ground}


def sheet(s: Random) -> Json:
    """A year drawn: two groups, steps on them and beside them, feeds that were done."""
    year = s.randint(2024, 2031)

    def day() -> str:
        return f"{year}-{s.randint(1, 12):02}-{s.randint(1, 28):02}"

    groups = [
        some(s, {"id": one, "zones": [one]}, turf=s.choice(["cool", "warm"]), aim_n_kg_m2=s.uniform(0, 0.03))
        for one in "ab"
    ]
    label = {"n_percent": s.uniform(0, 40), "slow_n_share": s.random(), "net_kg": s.uniform(1, 30)}
    products = [some(s, {"id": "p"}, source=s.choice(["soluble", "natural", "ibdu", "polymer_coated"]), **label)]
    steps = []
    for at in range(s.randint(0, 4)):
        one = {"id": f"s{at}", "job": "feed", "zones": s.sample("abc", s.randint(0, 3)), "from": day(), "to": day()}
        state = s.choice(["planned", "done", "put_off"])
        steps.append(some(s, one, product="p", rate_kg_m2=s.uniform(0.001, 0.1), locked=True, state=state))
    done = [{"date": day(), "group": s.choice("ab"), "n_kg_m2": s.uniform(0, 0.02)} for _ in range(s.randint(0, 3))]
    zones = [some(s, {"id": one}, area_m2=s.uniform(1, 900)) for one in "abc"]
    args: Json = {"groups": groups, "zones": zones, "products": products, "steps": steps, "done": done}
    usual = climate(s) | {"jobs": needs(s)["jobs"]}
    return some(s, args | {"first": f"{year}-01-01", "today": day()}, climate=usual, weeks=s.randint(1, 60))


def moved(s: Random) -> Json:
    """A step of a drawn plan on other days, beside the log and a few rules."""
    drawn, of_log = sheet(s), totals(s)
    today = of_log["today"]
    steps = drawn["steps"] or [{"id": "s0", "job": "feed", "zones": ["a"], "from": today, "to": today}]
    first = f"{today[:4]}-{s.randint(1, 12):02}-{s.randint(1, 28):02}"
    rules = [
        {"kind": "spacing_quick", "over_days": s.uniform(1, 90)},
        {"kind": "closed", "from": "11-16", "to": "02-28"},
        {"kind": "heat", "limit_c": s.uniform(5, 25)},
        {"kind": "quick_once", "most_kg_m2": s.uniform(0.001, 0.01)},
    ]
    args: Json = {"move": {"step": "s0", "from": first, "to": first}, "steps": steps, "products": drawn["products"]}
    args |= {"entries": of_log["entries"], "zones": drawn["zones"], "rules": rules, "today": today}
    return some(s, args, climate=climate(s))


def shopping(s: Random) -> Json:
    products = [
        some(
            s,
            {"id": one, "net_kg": s.uniform(1, 30)},
            price=s.uniform(0, 90),
            n_percent=s.uniform(0, 40),
            left_kg=s.uniform(-5, 50),
        )
        for one in "pqr"
    ]
    steps = [
        some(
            s,
            {"id": str(at), "date": f"2027-{s.randint(1, 12):02}-{s.randint(1, 28):02}", "product": s.choice("pqrx")},
            zones=s.sample("abc", 2),
            rate_kg_m2=s.uniform(0.001, 0.1),
        )
        for at in range(s.randint(0, 8))
    ]
    zones = [some(s, {"id": one}, area_m2=s.uniform(1, 900)) for one in "abc"]
    return {"steps": steps, "zones": zones, "products": products}


def needs(s: Random) -> Json:
    jobs = windows(s)["jobs"]
    for at, job in enumerate(jobs):
        job |= {
            "sort": "feed",
            "shares": [{"aim_lb_kft2": 1.0, "share": s.random()}, {"aim_lb_kft2": 3.0, "share": s.random()}],
        }
        jobs[at] = job
    first = f"20{s.randint(24, 31)}-{s.randint(1, 12):02}-{s.randint(1, 28):02}"
    args: Json = {"climate": climate(s), "jobs": jobs, "first": first, "weeks": s.randint(1, 52)}
    return args | {"turf": s.choice(["cool", "warm"]), "aim_n_kg_m2": s.uniform(0, 0.02)}


def build(s: Random) -> Json:
    return small(s.randint(0, 10_000))


def read(s: Random) -> Json:
    yard = build(s)
    return {**yard, "solution": call("season.build", yard)["value"]["start"], "bound": s.uniform(0, 10)}


def arguments(s: Random) -> Json:
    """A book with wishes, steps and a place, over the published tables."""
    book = gather(s)
    zones = [some(s, {"id": one}, area_m2=s.uniform(1, 900), grass=s.choice(GRASSES), sun="shade") for one in "cab"]
    wishes: Json = some(
        s,
        {},
        level=s.choice(["low", "middle", "high"]),
        clippings=s.choice(["left", "collected"]),
        budget=s.uniform(0, 200),
        evenings_week=s.randint(0, 7),
        minutes_evening=s.uniform(10, 200),
        only_gentle=s.random() < 0.5,
        skip_months=s.sample(range(1, 13), s.randint(0, 3)),
    )
    step = {"from_on": book["today"], "to_on": book["today"], "zones": s.sample("abcd", 2), "job": s.choice(JOBS)}
    args = {"zones": zones, "climate": climate(s), "tables": tables(), "wishes": wishes}
    args |= {name: book[name] for name in ("products", "entries", "today")}
    return some(s, args, place=s.choice(["us_mn", "us_fl_ban", "gb"]), steps=[some(s, step, locked=True, product="p")])
