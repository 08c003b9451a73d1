"""Draws arguments for the calls of the mow."""

from random import Random

from lawn.engine.door import call
from tests.parity.drawing_base import Json, some, within
from tests.parity.drawing_weather import dates, turf

OPTIONAL = {
    "heights",
    "waterings",
    "days",
    "latitude_deg",
    "highest_mm",
    "exception",
    "recent_mean_c",
    "shade",
    "drought",
    "feeds",
    "belief",
    "error_mm",
    "today",
    "sharpened",
    "hours_between",
    "height_mm",
    "cut_mm",
    "own_mm",
    "since_days",
    "weather",
    "growth_mm_day",
    "days_between",
    "notches",
}


def cut(s: Random) -> Json:
    args: Json = {"height_mm": within(s, "height_mm"), "target_mm": within(s, "target_mm")}
    args = some(s, args, highest_mm=within(s, "highest_mm"), turf=turf(s))
    return args | {"exception": s.choice(["dormant_warm", "renovation"])} if s.random() < 0.3 else args


def height(s: Random) -> Json:
    low = s.uniform(10, 80)
    marks = {"shade": s.random() < 0.5, "drought": s.random() < 0.5}
    args: Json = {"turf": turf(s), "low_mm": low, "high_mm": low + s.uniform(0, 40)}
    args = some(s, args, recent_mean_c=s.uniform(-10, 35), own_mm=s.uniform(10, 110), **marks)
    on = dates(s, 9)
    return args | {"days": _days(s, on), "today": s.choice(on)} if s.random() < 0.5 else args


def _notches(s: Random) -> list[Json]:
    return [{"name": str(at), "notch_mm": 15.0 + 11.5 * at} for at in range(s.randint(1, 8))]


def notch(s: Random) -> Json:
    return {"height_mm": s.uniform(10, 110), "notches": _notches(s)}


def way_down(s: Random) -> Json:
    args: Json = {"height_mm": s.uniform(30, 300), "target_mm": s.uniform(15, 90)}
    more: Json = {"highest_mm": s.uniform(60, 120), "notches": _notches(s)}
    if s.random() < 0.5:
        args.update({"weekdays": sorted({s.randint(1, 7) for _ in range(s.randint(1, 3))}), "today": dates(s, 1)[0]})
    return some(
        s,
        args,
        growth_mm_day=s.uniform(0, 9),
        days_between=s.choice([3.5, s.randint(1, 14)]),
        since_days=s.randint(0, 9),
        **more,
    )


def sharpen(s: Random) -> Json:
    days = dates(s, 100)
    mows = [some(s, {"date": s.choice(days)}, minutes=s.uniform(0, 120)) for _ in range(s.randint(0, 30))]
    more = {"sharpened": s.choice(days), "hours_between": s.uniform(1, 60)}
    return some(s, {"mows": mows, "today": s.choice(days)}, **more)


def look(s: Random) -> Json:
    if s.random() < 0.5:
        return {"by": "ruler", "height_mm": within(s, "height_mm")}
    return some(s, {"by": "over_notch", "cut_mm": s.uniform(10, 110)}, notches=_notches(s))


def _days(s: Random, on: list[str]) -> list[Json]:
    warm = s.uniform(2, 28)
    return [
        some(s, {"date": one, "mean_c": warm + s.uniform(-5, 5)}, sd_c=s.uniform(0, 4), water_share=s.random())
        for one in on
    ]


def _feeds(s: Random, on: list[str]) -> list[Json]:
    return [
        some(s, {"date": s.choice(on), "n_kg_m2": s.uniform(0, 0.005)}, slow_share=s.random())
        for _ in range(s.randint(0, 3))
    ]


def learn(s: Random) -> Json:
    on = dates(s, s.randint(12, 60))
    seen, at = [], 0
    while at + 6 < len(on):
        later = at + s.randint(2, 6)
        look = {"cut": on[at], "cut_mm": s.uniform(30, 80), "looked": on[later], "height_mm": s.uniform(30, 140)}
        seen.append(some(s, look, error_mm=s.uniform(1, 10)))
        at = later
    return some(s, {"turf": turf(s), "seen": seen, "days": _days(s, on)}, feeds=_feeds(s, on))


def next_mow(s: Random) -> Json:
    on = dates(s, s.randint(2, 40))
    args: Json = {
        "turf": turf(s),
        "target_mm": s.uniform(20, 80),
        "cut": on[0],
        "cut_mm": s.uniform(20, 100),
        "days": _days(s, on),
    }
    args = some(s, args, error_mm=s.uniform(1, 10), feeds=_feeds(s, on), today=s.choice(on))
    if s.random() < 0.5:
        learnt = learn(s) | {"turf": args["turf"]}
        args["belief"] = call("mowing.learn", learnt)["value"]["belief"]
    return args


def tonight(s: Random) -> Json:
    on = dates(s, 30)
    zones = []
    for at in range(s.randint(1, 8)):
        target, now, daily = s.uniform(20, 80), s.uniform(20, 120), s.uniform(0, 6)
        heights = [
            {"date": one, "mid": now + daily * day, "high": now + daily * day + s.uniform(0, 9)}
            for day, one in enumerate(on)
        ]
        zone: Json = {"id": f"z{at}", "target_mm": target, "height_mm": s.choice([heights, heights, []])}
        zones.append(some(s, zone, state=s.choice(["good", "slowed", "nearly_stopped"])))
    weather = [some(s, {"date": one}, rain_mm=s.choice([0, s.uniform(0, 20)]), min_c=s.uniform(-5, 20)) for one in on]
    weekdays = sorted({s.randint(1, 7) for _ in range(s.randint(1, 3))})
    return some(s, {"zones": zones, "weekdays": weekdays, "today": on[0]}, weather=weather)


def forecast(s: Random) -> Json:
    """A yard of up to three zones with a log of a month."""
    on = dates(s, s.randint(30, 90))
    names = ["a", "b", "c"][: s.randint(1, 3)]
    soils = ["Sandy loam", "clay", "stony"]
    zones = [some(s, {"id": name}, turf=turf(s), target_mm=s.uniform(30, 90), soil=s.choice(soils)) for name in names]
    mows, heights = [], []
    for _ in range(s.randint(0, 8)):
        cut = {"date": s.choice(on[:25]), "zone_ids": s.sample(names, s.randint(1, len(names)))}
        mows.append(some(s, cut, cut_height_mm=s.uniform(30, 90), height_before_mm=s.uniform(50, 150)))
    for _ in range(s.randint(0, 3)):
        look = {"date": s.choice(on[:25]), "zone_ids": names, "height_mm": s.uniform(40, 160)}
        heights.append(some(s, look, error_mm=s.uniform(1, 10)))
    wet = [some(s, {"date": one, "zone_ids": names}, watered_mm=9.0) for one in s.sample(on, 3)]
    args = {"zones": zones, "mows": mows, "days": [_told(s, day) for day in _days(s, on)], "today": on[25]}
    fed = [{**one, "zone_ids": names} for one in _feeds(s, on)]
    waterings = [one for one in wet if "watered_mm" in one]
    return some(s, args, heights=heights, feeds=fed, waterings=waterings, latitude_deg=s.uniform(-60, 60))


def _told(s: Random, day: Json) -> Json:
    """What a service or a gauge may have told of it besides."""
    low = day["mean_c"] - s.uniform(0, 8)
    ends = {"min_c": low, "max_c": low + s.uniform(0, 16)}
    return some(s, day, rain_mm=s.choice([0.0, s.uniform(0, 20)]), et0_mm=s.uniform(0, 8), **ends)
