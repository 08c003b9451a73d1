"""Draws jobs, ground and rules for the parity tests of what no plan should do."""

from random import Random

from lawn.engine.limits.rows import DATED, KINDS
from tests.parity.drawing_base import Json, some
from tests.parity.drawing_log import date

OPTIONAL = {"place", "soil_tests", "products", "own_rules", "southern", "beginner", "grasses", "general"}
OPTIONAL |= {"before", "free_in_ten_weeks_share", "clippings", "less_share"}
PLACES = ("here", "there")


def job(s: Random, at: int) -> Json:
    args: Json = {
        "id": f"j{at}",
        "date": date(s),
        "zone": s.choice("ab"),
        "n_kg_m2": s.choice([0, s.uniform(0, 0.006)]),
    }
    sort = s.choice(["fertilizer", "seed", "lime", "pre_emergent", "post_emergent", "aeration"])
    label: Json = {"interval_days": s.uniform(0, 60), "uses_year": s.randint(1, 3), "year_kg_m2": s.uniform(0, 0.1)}
    return some(
        s,
        args | (label if s.random() < 0.2 else {}),
        sort=sort,
        product=s.choice("pq"),
        rate_kg_m2=s.uniform(0.001, 0.4),
        p2o5_kg_m2=s.uniform(0, 0.002),
        slow_n_share=s.random(),
        watered_in=s.random() < 0.5,
        clear_m=s.uniform(0, 10),
        guarded=s.random() < 0.5,
    )


def rule(s: Random, kind: str) -> Json:
    args: Json = {
        "kind": kind,
        "most_kg_m2": s.uniform(0, 0.01),
        "over_days": s.randint(1, 120),
        "within_years": 3,
        "p_mg_kg": 45,
        "limit_c": s.uniform(0, 25),
        "limit_mm": s.uniform(0, 30),
        "clear_m": s.uniform(0, 10),
        "guarded_m": 2,
        "least_slow_share": s.random(),
    }
    days = [f"{s.randint(1, 12):02d}-{s.randint(1, 28):02d}" for _ in range(2)]
    more = {"from": days[0], "to": days[1]} if kind in DATED else {}
    return some(s, args | more, where=s.choice(PLACES), source="UF-POLK", cap=s.random() < 0.1, only_here=True)


def zone(s: Random, one: str) -> Json:
    return some(
        s,
        {"id": one},
        grass=s.choice(["tall_fescue", "centipedegrass"]),
        turf=s.choice(["cool", "warm"]),
        near_water=True,
        shade=True,
        sown=date(s),
        mows=[date(s) for _ in range(s.randint(0, 6))],
        setback_m=s.uniform(0, 10),
        watered=True,
    )


def rules(s: Random) -> Json:
    places: list[Json] = [{"key": "here"}, {"key": "there", "within": "here"}, {"key": "other", "unlisted": True}]
    grasses = [{"key": "tall_fescue", "nitrogen_year_rows": [{"high_kg_m2": s.uniform(0, 0.03)} for _ in range(2)]}]
    kinds = [s.choice(sorted(KINDS)) for _ in range(s.randint(0, 25))]
    return some(
        s,
        {"rules": [rule(s, kind) for kind in kinds], "places": places},
        place=s.choice(["here", "there", "other"]),
        own_rules=[rule(s, s.choice(sorted(KINDS))) for _ in range(2)],
        grasses=grasses,
        general=[{"high_kg_m2": s.uniform(0, 0.03)}],
        southern=s.random() < 0.5,
        beginner=True,
    )


def check(s: Random) -> Json:
    days = [
        some(
            s,
            {"date": f"2026-0{m}-{d:02d}"},
            soil_c=s.uniform(-3, 25),
            mean_c=s.uniform(-3, 33),
            rain_mm=s.uniform(0, 20),
        )
        for m in (3, 7)
        for d in range(1, 29)
    ]
    tests = [some(s, {"date": date(s)}, p_mg_kg=s.uniform(0, 90), zone=s.choice("ab")) for _ in range(2)]
    kinds = [s.choice(sorted(KINDS)) for _ in range(s.randint(0, 25))]
    return some(
        s,
        {
            "jobs": [job(s, at) for at in range(s.randint(0, 25))],
            "zones": [zone(s, one) for one in "ab"],
            "rules": [rule(s, kind) for kind in kinds],
            "days": days,
        },
        place=s.choice(PLACES),
        soil_tests=tests,
        products=[{"id": "p", "interval_days": s.uniform(0, 60)}],
    )


KINDS_OF_NITROGEN = ("soluble", "sulfur_coated", "polymer_coated", "condensed", "ibdu", "natural")


def soil(s: Random) -> list[Json]:
    """Days of May and June, about as warm as the first."""
    mean = s.uniform(2, 26)
    return [
        {"date": f"2026-{month:02d}-{day:02d}", "soil_c": mean + s.uniform(-3, 3)}
        for month, last in ((5, 31), (6, 30))
        for day in range(1, last + 1)
    ]


def feed(s: Random) -> Json:
    args = {"n_kg_m2": s.uniform(0, 0.005), "slow_n_share": s.random(), "source": s.choice(KINDS_OF_NITROGEN)}
    return some(s, args | {"applied": f"2026-05-{s.randint(1, 28):02d}"}, free_in_ten_weeks_share=s.uniform(0.1, 0.9))


def release(s: Random) -> Json:
    return feed(s) | {"days": soil(s)}


def available(s: Random) -> Json:
    feeds = [feed(s) | {"zone": s.choice("ab")} for _ in range(s.randint(0, 6))]
    return {"feeds": feeds, "days": soil(s), "today": f"2026-06-{s.randint(1, 30):02d}"}


def green_up(s: Random) -> Json:
    one = feed(s)
    return {"days": soil(s), **{name: one[name] for name in ("source", "slow_n_share", "applied")}}


def lasts(s: Random) -> Json:
    return some(s, {"source": s.choice(KINDS_OF_NITROGEN)}, slow_n_share=s.random())


def yearly_aim(s: Random) -> Json:
    rows = [some(s, {"high_kg_m2": s.uniform(0.01, 0.03)}, low_kg_m2=s.uniform(0, 0.01)) for _ in range(3)]
    zones = [some(s, {"id": one}, year_rows=rows, sun=s.choice(["sun", "shade"])) for one in "ab"]
    level = s.choice(["low", "middle", "high"])
    return some(s, {"zones": zones, "level": level}, clippings=s.random() < 0.5, less_share=s.uniform(0, 0.25))


def burn(s: Random) -> Json:
    one = some(
        s, {"zone": "a"}, n_kg_m2=s.uniform(0, 0.005), slow_n_share=s.random(), source=s.choice(KINDS_OF_NITROGEN)
    )
    kinds = ["quick_once", "quick_days", "gentle_once", s.choice(sorted(KINDS))]
    return some(
        s,
        {"job": one, "zones": [zone(s, "a"), zone(s, "b")], "rules": [rule(s, kind) for kind in kinds]},
        before=[{"id": "x", "zone": "a", "date": "2026-05-20", "n_kg_m2": s.uniform(0, 0.004)}],
        place=s.choice(PLACES),
        beginner=s.random() < 0.5,
    ) | {"today": f"2026-06-{s.randint(1, 30):02d}"}
