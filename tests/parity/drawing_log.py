"""Draws entries, zones and planned jobs for the parity tests of what the log adds up to."""

from random import Random

from tests.parity.drawing_base import Json, some
from tests.parity.drawing_ground import star


def date(s: Random) -> str:
    return f"{s.choice([2025, 2026])}-{s.randint(1, 12):02d}-{s.randint(1, 28):02d}"


def ledger(s: Random) -> Json:
    rows: list[Json] = [
        some(s, {"date": date(s), "zone": s.choice("ab"), "n_kg_m2": s.uniform(0, 0.006)}, slow_share=s.random())
        for _ in range(s.randint(0, 20))
    ]
    ceilings = some(s, {}, n_year_kg_m2=0.02, n_once_kg_m2=0.004, n_quick_once_kg_m2=0.003)
    return {"entries": rows, "zone": "a", "today": date(s), "ceilings": ceilings}


def entry(s: Random, at: int) -> Json:
    zones = s.sample(["a", "b", "c"], s.randint(1, 3))
    offset = s.choice(["Z", "+02:00", "-08:00"])
    moment = f"{date(s)}T{s.randint(0, 23):02d}:{s.randint(0, 59):02d}:{s.randint(0, 59):02d}{offset}"
    kind = s.choice(["mow", "spread", "pass", "observation", "stock_count", "tray_test"])
    args: Json = {"id": f"e{at}", "kind": kind, "occurred_at": moment, "zone_ids": zones, "void": s.random() < 0.1}
    if kind in ("spread", "pass"):
        fed = [{"zone_id": z, "n_kg_m2": s.choice([None, 0.0, s.uniform(0, 0.005)])} for z in zones]
        args |= {"product_id": s.choice("pq"), "used_kg": s.uniform(0, 9), "zones": fed}
        return args | ({"sort": s.choice(["fertilizer", "seed", "lime", "other"])} if s.random() < 0.5 else {})
    return args | ({"product_id": s.choice("pq"), "left_kg": s.uniform(0, 40)} if kind == "stock_count" else {})


def totals(s: Random) -> Json:
    return {"entries": [entry(s, at) for at in range(s.randint(0, 30))], "today": date(s)}


def clashes(s: Random) -> Json:
    entries = [{**entry(s, at), "by": s.choice("xy")} for at in range(s.randint(0, 30))]
    products = [{"id": one, "interval_days": s.uniform(0, 365)} for one in "pq" if s.random() < 0.7]
    ceilings = [
        some(
            s,
            {"zone_id": one},
            n_year_kg_m2=s.uniform(0, 0.02),
            n_once_kg_m2=s.uniform(0, 0.01),
            n_quick_once_kg_m2=s.uniform(0, 0.01),
            p2o5_year_kg_m2=s.uniform(0, 0.01),
        )
        for one in "abc"
        if s.random() < 0.7
    ]
    return some(s, {"entries": entries, "today": date(s)}, products=products, ceilings=ceilings)


def claims(s: Random) -> Json:
    day = date(s)

    def doing(at: int) -> Json:
        """Half of them on the day asked about, some naming a job taken."""
        one = entry(s, at) | ({"claim_id": s.choice(["c0", "c1"])} if s.random() < 0.1 else {})
        return one | ({"occurred_at": f"{day}T18:00:00Z"} if s.random() < 0.5 else {}) | {"n_percent": s.uniform(0, 30)}

    taken = [
        {"id": f"c{at}", "job": s.choice(["mow", "feed", "spray", "water", "other"]), "day": day}
        | ({"zone_ids": s.sample("abc", s.randint(1, 3))} if s.random() < 0.7 else {})
        for at in range(s.randint(0, 5))
    ]
    return some(s, {"claims": taken, "entries": [doing(at) for at in range(s.randint(0, 12))]}, yard=["a", "b", "c"])


def keep_off(s: Random) -> Json:
    entries = [entry(s, at) for at in range(s.randint(0, 30))]
    waters = ("unsaid", "water_in", "keep_dry")
    products = [
        some(s, {"id": one}, keep_off_hours=s.uniform(0, 720), water_in=s.choice(waters))
        for one in "pq"
        if s.random() < 0.7
    ]
    return some(s, {"entries": entries, "now": date(s) + "T08:00:00Z"}, products=products)


def due(s: Random) -> Json:
    zones: list[Json] = [{"id": f"z{i}"} for i in range(s.randint(1, 5))]
    chosen = [some(s, zone, last_mow=date(s), mow_every_days=s.uniform(1, 60)) for zone in zones]
    return {"zones": chosen, "today": date(s)}


def setback(s: Random) -> Json:
    rows = [
        some(s, {"where": one, "setback_m": s.uniform(0, 10), "sources": ["VT-ACT37"]}, guarded_m=s.uniform(0, 5))
        for one in "xyz"[: s.randint(0, 3)]
    ]
    zones = [
        some(
            s,
            {"id": one, "area_m2": s.uniform(1, 900), "near_water": s.random() < 0.7},
            water_edge_m=s.uniform(0.1, 60),
            setback_m=s.uniform(0, 20),
        )
        for one in "abc"[: s.randint(1, 3)]
    ]
    for zone in zones:
        if s.random() < 0.3:
            outline = star(s, 0, 0, 5, 12)
            zone.update(outline_m=outline, water_edges=s.sample(range(len(outline)), s.randint(1, 3)))
    return some(s, {"zones": zones, "rows": rows}, guarded=s.random() < 0.5, place=s.choice("xq"))


def ceilings(s: Random) -> Json:
    once = [
        some(
            s, {"where": one, "sources": ["SUFFOLK-CO"]}, quick_kg_m2=s.uniform(0, 0.01), total_kg_m2=s.uniform(0, 0.02)
        )
        for one in "xyz"[: s.randint(0, 3)]
    ]
    years = [{"high_kg_m2": s.uniform(0, 0.03), "sources": ["illinois_n"]} for _ in range(s.randint(0, 3))]
    zones = [
        some(
            s,
            {"id": one},
            grass=s.choice(["buffalograss", "tall_fescue"]),
            sun=s.choice(["sun", "shade"]),
            year_rows=years,
        )
        for one in "abc"[: s.randint(0, 3)]
    ]
    phosphate = [{"per": s.choice(["once", "year"]), "kg_m2": s.uniform(0, 0.01)} for _ in range(s.randint(0, 3))]
    lime = [{"kg_m2": s.uniform(0, 1)} for _ in range(s.randint(0, 2))]
    return some(s, {"zones": zones, "once": once}, phosphate=phosphate, lime=lime, place=s.choice("xq"))


def before(s: Random) -> Json:
    asked = clashes(s)
    zones = [
        some(s, {"zone_id": one}, n_kg_m2=s.uniform(0, 0.01), p2o5_kg_m2=s.uniform(0, 0.01))
        for one in "abc"[: s.randint(1, 3)]
    ]
    sort = s.choice(["fertilizer", "lime", "seed", "pre_emergent", "post_emergent"])
    job = {"product_id": s.choice("pq"), "sort": sort, "at": asked.pop("today") + "T12:00:00Z", "zones": zones}
    job = some(s, job, slow_n_share=s.random(), phosphate_needed=s.random() < 0.5, rate_kg_m2=s.uniform(0, 1))
    return some(s, {"job": job, **asked}, lime_once_kg_m2=s.uniform(0, 1))
