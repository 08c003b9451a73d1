"""Draws the draft of a spreading job for the calls that add it up."""

from random import Random

from tests.parity.drawing_base import Json, some, within

WAYS = ("scale", "level", "handfuls")


def _job(s: Random) -> Json:
    return {"load_kg": s.uniform(1, 40), "target_kg": s.uniform(1, 60), "passes": s.randint(1, 4)}


def _parts(s: Random, most: int = 4) -> list[Json]:
    rows = []
    for _ in range(s.randint(0, most)):
        read = {"measured": s.choice(WAYS), "left_kg": s.uniform(0, 20)}
        rows.append({"dial": s.uniform(1, 24), "area_m2": s.uniform(0, 90), "used_kg": s.uniform(0, 6), **read})
    return rows


def _walked(s: Random, ground_m2: float) -> list[Json]:
    passes = []
    for _ in range(s.randint(0, 4)):
        one = {"used_kg": s.uniform(0, 12), "left_kg": s.uniform(0, 30), "area_m2": ground_m2 * s.uniform(0.2, 0.99)}
        marks = {"ran_out": s.random() < 0.2, "nothing_came": s.random() < 0.2}
        passes.append(some(s, one, added_kg=s.uniform(0, 5), parts=_parts(s), **marks))
    return passes


def hopper(s: Random) -> Json:
    """A hopper's inner measures."""
    names = ("top_length_m", "top_width_m", "bottom_length_m", "bottom_width_m")
    return {name: within(s, name) for name in names} | {"height_m": s.uniform(0.05, 2)}


def standing(s: Random) -> Json:
    ground_m2 = s.uniform(50, 800)
    foot: Json = {"expected_kg": s.uniform(0, 30), "covered_m2": ground_m2 * s.random(), "ground_m2": ground_m2}
    foot = some(s, foot, in_bag_kg=s.uniform(0, 20), added_kg=s.uniform(0, 5))
    args: Json = {"plan": _job(s), "passes": _walked(s, ground_m2)}
    return some(s, args, on_foot=foot, hopper=hopper(s), bulk_density_kg_m3=s.uniform(400, 1200))


def pour(s: Random) -> Json:
    plan = _job(s)
    foot: Json = some(s, {"there_kg": s.uniform(0, 30), "base_kg": s.uniform(0, 30)}, added_kg=s.uniform(0, 3))
    poured: list[Json] = [{"added_kg": s.uniform(0, 12)}, {"in_bag_kg": s.uniform(0, 12)}, {}]
    return {"plan": plan, "passes": _walked(s, 100.0)[:2], "on_foot": foot, **s.choice(poured)}


def close_pass(s: Random) -> Json:
    there = s.uniform(1, 30)
    ways: list[Json] = [
        {"measured": "scale", "left_kg": there * s.uniform(0, 1.04)},
        {"measured": "handfuls", "handfuls": s.randint(0, 40), "handful_kg": s.uniform(0.02, 0.1)},
        {
            "measured": "level",
            "level": hopper(s) | {"level_share": s.uniform(0, 0.1), "bulk_density_kg_m3": s.uniform(400, 1200)},
        },
    ]
    stretch = some(
        s, {"dial": s.uniform(1, 24), "there_kg": there}, there_sd_kg=s.uniform(0, 1), from_m2=s.uniform(0, 90)
    )
    args: Json = {"stretch": stretch, "covered_m2": s.uniform(0.5, 400), "start_kg": there * s.uniform(1, 1.5)}
    args |= s.choice(ways)
    more = {"added_kg": s.uniform(0, 5), "start_sd_kg": s.uniform(0, 1), "ground_m2": s.uniform(1, 400)}
    marks = {"goes_on": s.random() < 0.5, "ran_out": s.random() < 0.3}
    return some(s, args, parts=_parts(s), in_bag_kg=s.uniform(0, there / 3), **more, **marks)


def finish(s: Random) -> Json:
    zones: list[Json] = [{"id": f"z{i}", "area_m2": within(s, "area_m2", 20, 500)} for i in range(s.randint(1, 6))]
    passes = _walked(s, sum(zone["area_m2"] for zone in zones))
    args: Json = {"plan": _job(s), "zones": zones, "passes": passes}
    return some(s, args, n_percent=s.uniform(0, 46), p2o5_percent=s.uniform(0, 46))
