"""Soil warmth as a chart draws it: the days shown with their likely range, own readings, and what waits for warmth."""

import math

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import choice, listing, number, optional_number
from lawn.engine.core.rows import optional_column, rows_of, run_with
from lawn.engine.core.working import COMMON, step
from lawn.engine.warmth.coming import MEASURED_SD_C, SHARED, air_variances, passing
from lawn.engine.warmth.soil import READING_ERROR_C, USUAL_DEPTH_MM, soil, whole_days

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_DAYS = 800
MOST_READINGS = 1000
NEAR_MM = 25.0  # a reading so far above or below the chart's depth still tells of it (common practice)
LIKELY = 1.2815515655446004  # so many likely errors to either side hold 80 %
# Warmth of the soil that jobs wait for: name, temperature (printed as 50, 55, 65, 60 and 70 F), source.
MARKS = {
    "pre_emergent": (
        ("pre_emergent_opens", 10.0, "msu_2020"),  # 50 to 55 F in the top 2 in for the window to apply
        ("crabgrass_sprouts", (55.0 - 32.0) / 1.8, "ncsu_2017"),  # a mean of three days at 4 in of about 55 F
    ),
    "feed_warm": (("warm_grass_feeds", (65.0 - 32.0) / 1.8, "uga_green"),),
    "seed_cool": (
        ("seed_cool_from", (60.0 - 32.0) / 1.8, COMMON),
        ("seed_cool_to", (70.0 - 32.0) / 1.8, COMMON),
    ),
}
JOBS = ("pre_emergent", "feed_warm", "seed_cool")


def chart(
    *, days: object, today: str, first: str, readings: object = None, jobs: object = None
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Soil warmth of the days from `first` on, with own readings, and the warmth that the household's jobs wait for.

    The depth is that of the newest reading, 100 mm without one; readings within 25 mm of it count. Where the air of
    a day is less sure than a measured one, and no later reading told of the soil, the range is the wider for it.

    Args:
        days: past days and days to come, as weather.join answers them; may be empty [list]
        days.date: the day [date]
        days.mean_c: mean temperature of the air [C; -60 to 60]
        days.sd_c?: its likely error; 0.7, that of a measured day, when not said [K; 0 to 15]
        today: the day asked about [date]
        first: first day shown; those before it lead up to it [date]
        readings?: own soil readings [list]
        readings.date: day it was read [date]
        readings.c: what the thermometer showed [C; -30 to 60]
        readings.depth_mm?: depth it was read at; 100 when not said [mm; 20 to 300]
        readings.error_c?: its likely error; 1 when not said [K; 0.05 to 10]
        jobs?: jobs that wait for warmth: pre_emergent, feed_warm (of warm-season grass), seed_cool (of
            cool-season grass) [list of texts]
    Returns:
        depth_mm: depth the chart is for [mm]
        days: the days shown [list]
        days.date: the day [date]
        days.mid: temperature expected [C]
        days.low: 1 in 10 below [C]
        days.high: 1 in 10 above [C]
        now: that of today; null where today is not among the days [C or null; low, mid and high]
        points: readings from the first day shown on [list]
        points.date: day it was read [date]
        points.mid: what was read [C]
        points.used: true where it counts at this depth [true or false]
        marks: warmth that jobs wait for, each once [list]
        marks.kind: what waits for it [one of pre_emergent_opens, crabgrass_sprouts, warm_grass_feeds,
            seed_cool_from, seed_cool_to]
        marks.mid: the temperature [C]
        marks.source: who says so [text]
        marks.now: side of it that the soil is on today [one of below, above or null]
        marks.passes: first of three days in a row, from today on, on its other side; null where there are none
            [date or null]
        marks.earliest: the same for the side of the range that gets there first, 1 in 10; where the soil turns from
            the mark for a month or more, after that turn [date or null]
        marks.latest: the same for the side of the range that gets there last, 1 in 10 [date or null]
        readings: readings that count [count]
        felt_from: first day whose air the soil of today still feels; null where today is not among the days
            [date or null]
    Raises:
        out_of_range: an argument is outside its range
        wrong_type: a date is none
    Source: zheng_1993
    Checked: with neither reading nor job the same as warmth.soil (computed)
    """
    now, begin = day_number("today", today), day_number("first", first)
    start, rows = run_with("days", days, now, MOST_DAYS)
    seen = _readings(readings)
    depth = _depth_mm(seen)
    near = [row for row in seen if abs(row["depth_mm"] - depth) <= NEAR_MM]
    inside = [row for row in near if rows and start <= row["day"] < start + len(rows)]
    shown, window, working = _days(rows, start, begin, depth, inside)
    coming = [row for row in shown if row["date"] >= day_text(now)] if begin <= now else []
    value: dict[str, object] = {
        "depth_mm": depth,
        "days": shown,
        "now": {name: coming[0][name] for name in ("low", "mid", "high")} if coming else None,
        "points": [
            {"date": day_text(row["day"]), "mid": row["c"], "used": row in inside}
            for row in seen
            if row["day"] >= begin
        ],
        "marks": _marks(jobs, coming),
        "readings": len(inside),
        "felt_from": day_text(now - whole_days(window) + 1) if coming else None,
    }
    return value, [_depth_step(seen, depth, len(inside)), _used_step(seen, inside)] + _steps(value) + working


def _readings(readings: object) -> "list[dict[str, Any]]":
    found: list[dict[str, Any]] = []
    if readings is None or not listing("readings", readings, 0, MOST_READINGS):
        return found
    rows = rows_of("readings", readings, ("date", "c", "depth_mm", "error_c"), MOST_READINGS)
    for at in range(len(rows)):
        path, row = "readings[" + str(at) + "].", rows[at]
        depth = optional_number(path + "depth_mm", row.get("depth_mm"))
        error = optional_number(path + "error_c", row.get("error_c"))
        found.append(
            {
                "day": day_number(path + "date", row.get("date")),
                "c": number(path + "c", row.get("c")),
                "depth_mm": USUAL_DEPTH_MM if depth is None else depth,
                "error_c": READING_ERROR_C if error is None else error,
            }
        )
    return sorted(found, key=lambda row: (row["day"], row["depth_mm"], row["c"], row["error_c"]))


def _depth_mm(seen: "list[dict[str, Any]]") -> float:
    return float(seen[-1]["depth_mm"]) if seen else USUAL_DEPTH_MM


def _days(
    rows: "list[dict[str, object]]", start: int, begin: int, depth: float, near: "list[dict[str, Any]]"
) -> "tuple[list[dict[str, Any]], float, list[dict[str, object]]]":
    if not rows:
        return [], 0.0, []
    value, working = soil(
        days=[{"mean_c": row["mean_c"]} for row in rows],
        depth_mm=depth,
        readings=[{"day": row["day"] - start, "c": row["c"], "error_c": row["error_c"]} for row in near],
    )
    found = []
    daily: Any = value["daily_c"]
    sds: Any = value["sd_c"]
    window: Any = value["window_days"]
    settled = max([row["day"] - start for row in near]) if near else -1
    doubts = air_variances(optional_column("days", rows, "sd_c", MEASURED_SD_C), settled, window)
    for at in range(max(0, begin - start), len(rows)):
        mid, off = daily[at], LIKELY * math.sqrt(sds[at] * sds[at] + doubts[at])
        found.append({"date": day_text(start + at), "low": mid - off, "mid": mid, "high": mid + off})
    return found, window, working


def _marks(jobs: object, coming: "list[dict[str, Any]]") -> "list[dict[str, object]]":
    asked = []
    for at, one in enumerate([] if jobs is None else listing("jobs", jobs, 0, 20)):
        asked.append(choice("jobs[" + str(at) + "]", one, JOBS))
    found: list[dict[str, object]] = []
    for job in JOBS:
        if job in asked:
            for kind, mid, source in MARKS[job]:
                row: dict[str, object] = {"kind": kind, "mid": mid, "source": source}
                row.update(passing(coming, mid))
                found.append(row)
    return found


def _depth_step(seen: "list[dict[str, Any]]", depth: float, used: int) -> "dict[str, object]":
    return step(
        what="Depth of the chart",
        formula="that of the newest reading; 100 mm without one; readings within 25 mm of it count",
        numbers={"readings": len(seen), "used": used},
        result=depth,
        unit="mm deep",
        source=COMMON,
    )


def _used_step(seen: "list[dict[str, Any]]", inside: "list[dict[str, Any]]") -> "dict[str, object]":
    return step(
        what="Readings that count",
        formula="those within 25 mm of the depth, on a day of which the weather is known",
        numbers={"readings": len(seen)},
        result=len(inside),
        unit="readings",
        source=COMMON,
    )


def _steps(value: "dict[str, Any]") -> "list[dict[str, object]]":
    """Of today, and of each mark."""
    steps, depth = [], value["depth_mm"]
    now = value["now"]
    for name, words in (("mid", "expected"), ("low", "1 in 10 below"), ("high", "1 in 10 above")):
        if now is not None:
            steps.append(
                step(
                    what="Soil today, " + words,
                    formula="weighted mean of the air before, moved by readings; 1.28 likely errors to either side, "
                    + "with that of air not measured since the newest reading",
                    numbers={"depth_mm": depth, "shared_with_the_next_day": SHARED},
                    result=now[name],
                    unit="C",
                    source="zheng_1993",
                )
            )
    for mark in value["marks"]:
        steps.append(
            step(
                what="Waits for warmth: " + mark["kind"].replace("_", " "),
                formula="as printed",
                numbers={"depth_mm": depth},
                result=mark["mid"],
                unit="C",
                source=mark["source"],
            )
        )
        if mark["passes"] is not None:
            steps.append(
                step(
                    what="Passed: " + mark["kind"].replace("_", " "),
                    formula="first of three days in a row on the other side; earliest and latest by the likely range, "
                    + "where the soil turns from it for a month or more, after that turn",
                    numbers={"mark_c": mark["mid"], "earliest": mark["earliest"], "latest": mark["latest"]},
                    result=mark["passes"],
                    unit="date",
                    source=COMMON,
                )
            )
    return steps
