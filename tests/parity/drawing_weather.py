"""Draws arguments for the calls of weather, warmth and water."""

from datetime import date, timedelta
from random import Random

from tests.parity.drawing_base import Json, some, within

FIRST = date(2026, 1, 1)
OPTIONAL = {
    "jobs",
    "upper_c",
    "count_from",
    "southern",
    "depth_mm",
    "start_c",
    "annual_mean_c",
    "readings",
    "monthly_mean_c",
    "warmest_c",
    "coldest_c",
    "soil",
    "available_mm_m",
    "root_mm",
    "depletion_share",
    "start_depletion_mm",
    "today",
    "dew_point_c",
    "humidity_max",
    "humidity_min",
    "wind_m_s",
    "wind_height_m",
    "radiation_mj_m2",
    "sun_hours",
    "coastal",
}


def turf(s: Random) -> str:
    return s.choice(["cool", "warm"])


def dates(s: Random, count: int) -> list[str]:
    """Days in a row."""
    begin = FIRST + timedelta(s.randint(0, 1000))
    return [(begin + timedelta(at)).isoformat() for at in range(count)]


def potential(s: Random) -> Json:
    return {"mean_c": s.uniform(-20, 45), "turf": turf(s)}


def needs(s: Random) -> Json:
    months = [s.uniform(-20, 35) for _ in range(12)]
    return {"monthly_mean_c": months, "turf": turf(s), "n_max_month_kg_m2": s.uniform(0, 0.01)}


def degree_days(s: Random) -> Json:
    days = []
    for one in dates(s, s.randint(1, 400)):
        low = s.uniform(-20, 25)
        days.append({"date": one, "min_c": low, "max_c": low + s.uniform(0, 20)})
    base = s.uniform(-5, 15)
    args: Json = {"days": days, "base_c": base, "method": s.choice(["mean", "modified", "sine"])}
    args = some(s, args, upper_c=base + s.uniform(5, 25), count_from=s.choice(["january", "february"]))
    return some(s, args, southern=s.random() < 0.5)


def soil(s: Random) -> Json:
    count = s.randint(1, 420)
    days = [{"mean_c": s.uniform(-20, 30)} for _ in range(count)]
    readings = [
        some(s, {"day": s.randint(0, count - 1), "c": s.uniform(-5, 25)}, error_c=within(s, "error_c"))
        for _ in range(s.randint(0, 8))
    ]
    more = {"depth_mm": within(s, "depth_mm"), "start_c": s.uniform(-5, 25), "annual_mean_c": s.uniform(-5, 25)}
    return some(s, {"days": days}, readings=readings, **more)


def climate(s: Random) -> Json:
    if s.random() < 0.5:
        return some(s, {"monthly_mean_c": [s.uniform(-20, 35) for _ in range(12)]}, southern=s.random() < 0.5)
    cold = s.uniform(-20, 20)
    return some(s, {"coldest_c": cold, "warmest_c": cold + s.uniform(0, 25)}, southern=s.random() < 0.5)


def need(s: Random) -> Json:
    days = []
    for one in dates(s, s.randint(1, 120)):
        rain = s.choice([0.0, 0.0, s.uniform(0, 30)])
        days.append(some(s, {"date": one, "et0_mm": s.uniform(0, 9), "rain_mm": rain}, watered_mm=s.uniform(0, 15)))
    holds: list[Json] = [{"soil": s.choice(["sand", "loam", "clay"])}, {"available_mm_m": within(s, "available_mm_m")}]
    args: Json = {"days": days, "turf": turf(s), **s.choice(holds)}
    more = {"root_mm": within(s, "root_mm"), "depletion_share": within(s, "depletion_share")}
    return some(s, args, start_depletion_mm=s.uniform(0, 40), today=s.choice(days)["date"], **more)


def reference_et(s: Random) -> Json:
    low = s.uniform(-20, 25)
    dry = s.uniform(5, 90)
    args: Json = {
        "latitude_deg": s.uniform(-90, 90),
        "elevation_m": s.uniform(-400, 4000),
        "day_of_year": s.randint(1, 366),
        "min_c": low,
        "max_c": low + s.uniform(0, 20),
    }
    air = {"humidity_min": dry, "humidity_max": s.uniform(dry, 100), "dew_point_c": low - s.uniform(0, 10)}
    sky = {"radiation_mj_m2": s.uniform(0, 30), "sun_hours": s.uniform(0, 14), "coastal": s.random() < 0.5}
    wind = {"wind_m_s": s.uniform(0, 15), "wind_height_m": s.uniform(1, 12)}
    return some(s, args, **air, **sky, **wind)


def chart(s: Random) -> Json:
    on = dates(s, s.randint(20, 120))
    days = [some(s, {"date": one, "mean_c": s.uniform(-10, 25)}, sd_c=s.uniform(0.1, 5)) for one in on]
    readings = [
        some(
            s, {"date": s.choice(on), "c": s.uniform(-5, 25)}, depth_mm=within(s, "depth_mm"), error_c=s.uniform(0.1, 3)
        )
        for _ in range(s.randint(0, 5))
    ]
    jobs = s.sample(["pre_emergent", "feed_warm", "seed_cool"], s.randint(0, 3))
    args: Json = {"days": days, "today": s.choice(on), "first": s.choice(on)}
    return some(s, args, readings=readings, jobs=jobs)


def sunset(s: Random) -> Json:
    return {
        "latitude_deg": s.uniform(-90, 90),
        "longitude_deg": s.uniform(-180, 180),
        "date": dates(s, 1)[0],
    }
