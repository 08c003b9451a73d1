"""The mow of a whole yard: the log and the days of weather in, when each zone will want cutting out."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import choice, optional_number, text
from lawn.engine.core.rows import rows_of, run_with
from lawn.engine.core.working import COMMON, step
from lawn.engine.mowing.aim import height
from lawn.engine.mowing.due_by import due_from
from lawn.engine.mowing.inputs import MOST_ZONES, Yard, feeds_of, looks_of, mows_of, waterings_of
from lawn.engine.mowing.learn import CUT_ERROR_MM, MOST_LOOKS, taught
from lawn.engine.mowing.state import Growth, state_of
from lawn.engine.warmth.response import TURFS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_DAYS = 800
AHEAD_DAYS = 42  # as far as a list of tonight may ask; beyond it only the day of the next growth is looked for
# A mower is set by notches nobody has measured: a cut taken to be at the height wanted may be so far off.
TAKEN_ERROR_MM = 6.0  # common practice
SAID = ("mow_at_mm", "mow_by", "earliest", "latest", "state", "growing_again")  # as mowing.next says them
ZONE_FIELDS = ("id", "turf", "target_mm", "low_mm", "high_mm", "shade", "soil")


def forecast(
    *,
    zones: object,
    mows: object,
    days: object,
    today: str,
    heights: object = None,
    feeds: object = None,
    waterings: object = None,
    latitude_deg: float | None = None,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """When each zone of the yard will want cutting, as its own heights have taught.

    A cut whose height was not written down is taken to be at the height wanted, and believed less. A height read before
    a cut, or between cuts, teaches how fast the zone grows. Feeds and the water that rain and waterings bring are told
    to the same belief. A day whose rain nobody told makes no drought.

    Args:
        zones: the zones, up to 200 [list]
        zones.id: zone [text]
        zones.turf?: season of its grass, nothing where the grass is not known [one of cool, warm or null]
        zones.target_mm?: height kept here; only heat and shade ask for more; within the grass's range where not said
            [mm; 2 to 200]
        zones.low_mm?: lowest height for this grass [mm; 2 to 200]
        zones.high_mm?: highest height for it [mm; 2 to 200]
        zones.shade?: true where it stands in shade [true or false]
        zones.soil?: its soil as written down; loam where it is none that is printed [text]
        mows: mows of the log that stand, in any order; may be empty [list]
        mows.date: day of the cut [date]
        mows.zone_ids: zones that were cut [list of texts]
        mows.cut_height_mm?: height it was cut to [mm; 5 to 200]
        mows.cut_mm?: height it was found to be cut to, measured; it stands before the other [mm; 2 to 500]
        mows.height_before_mm?: height before the cut [mm; 5 to 2000]
        mows.error_mm?: likely error of that; 3 by ruler when not said [mm; 0.5 to 100]
        heights?: heights read without a cut [list]
        heights.date: day the height was read [date]
        heights.zone_ids: zones it was read on [list of texts]
        heights.height_mm: height of the grass [mm; 2 to 2000]
        heights.error_mm?: likely error of it; 3 by ruler when not said [mm; 0.5 to 100]
        feeds?: feeds of the log that stand, those of half a year before the days with them [list]
        feeds.date: day it was spread [date]
        feeds.zone_ids: zones that got so much [list of texts]
        feeds.n_kg_m2: its nitrogen [kg/m2; 0 to 5]
        feeds.slow_share?: slow-release share of it; none when not said [share; 0 to 1]
        waterings?: waterings of the log that stand [list]
        waterings.date: day it was watered [date]
        waterings.zone_ids: zones that got so much [list of texts]
        waterings.watered_mm: water given [mm; 0 to 500]
        days: past days and days to come, as weather.join answers them; may be empty [list]
        days.date: the day [date]
        days.mean_c: mean temperature of the air [C; -60 to 60]
        days.sd_c?: likely error of it [K; 0 to 15]
        days.min_c?: lowest temperature [C; -60 to 60]
        days.max_c?: highest temperature [C; -60 to 60]
        days.rain_mm?: rain; a day without it makes no drought [mm; 0 to 1000]
        days.et0_mm?: water a short grass would use; by latitude from the temperatures where not said [mm; 0 to 25]
        days.water_share?: share of its water that the grass gets; it stands before what rain tells [share; 0 to 1]
        latitude_deg?: latitude, south negative [deg; -90 to 90]
        today: the day asked about [date]
    Returns:
        zones: by zone id what is expected [groups by id]
        zones.known: whether there is a forecast, else what is missing [one of forecast, no_grass, no_height, no_mow,
            no_weather]
        zones.target_mm: height of cut wanted; null where neither it nor the grass's range is known [mm or null]
        zones.mow_at_mm: height of the grass at which a cut to that takes just a third; null without a
            forecast [mm or null]
        zones.cut: day of the last cut, null where there is none [date or null]
        zones.cut_mm: height it was cut to, or was taken to be; null without one [mm or null]
        zones.cut_taken: true where that height was not written down [true or false]
        zones.looks: heights learnt from [count]
        zones.mow_by: last day on which a cut is likely to take no more than a third [date or null]
        zones.earliest: the same but for 1 chance in 10 [date or null]
        zones.latest: the same but for 9 chances in 10 [date or null]
        zones.late_days: days since mow_by; 0 up to it [day]
        zones.takes_share: what a cut to the height wanted would take today [share or null]
        zones.state: how the coming week lets it grow [one of good, slowed, nearly_stopped or null]
        zones.water_share: share of its water that it gets in the coming week; null where its days tell no
            rain [share or null]
        zones.feeds: feeds still at work today, the latest first [list]
        zones.feeds.date: day it was spread [date]
        zones.feeds.adds_mm: what it adds to today's growth [mm]
        zones.growing_again: first day that lets it grow again, where the coming week does not [date or null]
        zones.growth_mm_day: growth of today, null without a forecast [mm or null; low, mid and high]
        zones.height_mm: height at the end of each day from today on, six weeks at most [list]
        zones.height_mm.date: the day [date]
        zones.height_mm.low: 1 in 10 below [mm]
        zones.height_mm.mid: expected [mm]
        zones.height_mm.high: 1 in 10 above [mm]
    Raises:
        out_of_range: an argument is outside its range
        wrong_type: a date is none
        repeated: a zone stands twice in the list
    Source: computed
    Checked: the same as mowing.learn and mowing.next asked one after the other (computed)
    """
    now = day_number("today", today)
    first, rows = run_with("days", days, now, MOST_DAYS)
    yard = Yard(
        first, rows, now, feeds_of(feeds), waterings_of(waterings), optional_number("latitude_deg", latitude_deg)
    )
    cuts, seen = mows_of(mows), looks_of(heights)
    found: dict[str, object] = {}
    working: list[dict[str, object]] = []
    for at, item in enumerate(rows_of("zones", zones, ZONE_FIELDS, MOST_ZONES)):
        path = "zones[" + str(at) + "]"
        name = text(path + ".id", item.get("id"))
        if name in found:
            raise repeated(path, name, "A zone stands twice in the list.")
        mine = [row for row in cuts if name in row["zones"]]
        read = [row for row in seen if name in row["zones"]]
        said, steps = _zone(path, item, mine, read, yard)
        found[name] = said
        working += [_named(one, name) for one in steps]
    return {"zones": found}, working


def _named(one: "dict[str, object]", name: str) -> "dict[str, object]":
    built = dict(one)
    built["of"] = name
    return built


def _zone(
    path: str,
    zone: "dict[str, Any]",
    mows: "list[dict[str, Any]]",
    looks: "list[dict[str, Any]]",
    yard: Yard,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    turf = None if zone.get("turf") is None else choice(path + ".turf", zone["turf"], TURFS)
    soil = None if zone.get("soil") is None else text(path + ".soil", zone["soil"])
    target, wanted = _target(path, zone, turf, yard)
    done = [row for row in mows if row["day"] <= yard.now]
    last = _last(done, target)
    said = _nothing(target, last)
    missing = _missing(turf, target, last, yard)
    if missing is not None or turf is None or target is None or last is None:
        said["known"] = missing
        return said, wanted + [_target_step(zone, target), _last_step(last, target)] + _today_steps(said, target)
    grown = yard.growth(zone["id"], turf, soil)
    begin = max(0, _first_cut(done, yard.first) - yard.first)
    pairs = _pairs(done, looks, target, yard)
    past = grown.between(begin, yard.now - yard.first + 1)
    known, learning = taught(turf, pairs, yard.first + begin, past)
    answers = state_of(turf, known["belief"])["rows"]
    start = _start(last, looks, yard.now)
    value, working = _next(target, start, answers, grown, yard)
    said.update(_said(value, target, start, yard))
    said.update({"known": "forecast", "looks": len(pairs), "growth_mm_day": known["growth_mm_day"]})
    put_in, inputs = yard.inputs(grown, answers)
    said.update(put_in)
    steps = wanted + [_target_step(zone, target), _last_step(last, target), _start_step(start, last, target)]
    return said, steps + learning + inputs + working + _today_steps(said, target)


def _target(
    path: str, zone: "dict[str, Any]", turf: "str | None", yard: Yard
) -> "tuple[float | None, list[dict[str, object]]]":
    """The height to cut to now, as mowing.height says it, so that no two screens differ."""
    target = optional_number(path + ".target_mm", zone.get("target_mm"))
    low = optional_number(path + ".low_mm", zone.get("low_mm"))
    high = optional_number(path + ".high_mm", zone.get("high_mm"))
    if turf is None or low is None or high is None:
        return target, []
    value, steps = height(
        turf=turf, low_mm=low, high_mm=high, shade=zone.get("shade"), own_mm=target, recent_mean_c=yard.week_c()
    )
    return float(value["target_mm"]), steps  # type: ignore[arg-type]  # a number by its docstring


def _last(done: "list[dict[str, Any]]", target: "float | None") -> "dict[str, Any] | None":
    """The last cut; of several on its day the lowest."""
    if not done:
        return None
    day = max([row["day"] for row in done])
    cuts = [row["cut_mm"] for row in done if row["day"] == day and row["cut_mm"] is not None]
    taken = not cuts
    return {"day": day, "cut_mm": target if taken else min(cuts), "taken": taken}


def _nothing(target: "float | None", last: "dict[str, Any] | None") -> "dict[str, object]":
    return {
        "known": "no_weather",
        "target_mm": target,
        "mow_at_mm": None,
        "cut": None if last is None else day_text(last["day"]),
        "cut_mm": None if last is None else last["cut_mm"],
        "cut_taken": last is not None and last["taken"],
        "looks": 0,
        "mow_by": None,
        "earliest": None,
        "latest": None,
        "late_days": 0,
        "takes_share": None,
        "state": None,
        "growing_again": None,
        "growth_mm_day": None,
        "water_share": None,
        "feeds": [],
        "height_mm": [],
    }


def _missing(turf: "str | None", target: "float | None", last: "dict[str, Any] | None", yard: Yard) -> "str | None":
    """What a forecast lacks; None where it lacks nothing."""
    if turf is None:
        return "no_grass"
    if target is None:
        return "no_height"
    if last is None:
        return "no_mow"
    if not yard.count or last["day"] + 1 < yard.first or yard.first + yard.count - 1 <= yard.now:
        return "no_weather"
    return None


def _first_cut(done: "list[dict[str, Any]]", first: int) -> int:
    """Day of the first cut that the days reach back to."""
    return int(min([row["day"] for row in done if row["day"] + 1 >= first]))


def _pairs(
    done: "list[dict[str, Any]]", looks: "list[dict[str, Any]]", target: float, yard: Yard
) -> "list[dict[str, object]]":
    """Each height read, with the cut before it; where that cut's height was not written down its doubt is added."""
    read = [row for row in done if row["height_mm"] is not None] + [row for row in looks if row["day"] <= yard.now]
    found: list[dict[str, object]] = []
    for row in sorted(read, key=lambda one: (one["day"], one["height_mm"])):
        before = [one for one in done if one["day"] < row["day"]]
        cut = _last(before, target)
        if cut is None or cut["day"] + 1 < yard.first:
            continue
        error = row["error_mm"] ** 2 + (TAKEN_ERROR_MM**2 - CUT_ERROR_MM**2 if cut["taken"] else 0.0)
        found.append(
            {
                "cut": day_text(cut["day"]),
                "cut_mm": cut["cut_mm"],
                "looked": day_text(row["day"]),
                "height_mm": row["height_mm"],
                "error_mm": error**0.5,
            }
        )
    return found[-MOST_LOOKS:]


def _start(last: "dict[str, Any]", looks: "list[dict[str, Any]]", now: int) -> "dict[str, Any]":
    """From where growth is counted: the last cut, or a height read since."""
    since = [row for row in looks if last["day"] < row["day"] <= now]
    if since:
        newest = max(since, key=lambda row: (row["day"], row["height_mm"]))
        return {"day": newest["day"], "mm": newest["height_mm"], "error_mm": newest["error_mm"]}
    return {
        "day": last["day"],
        "mm": last["cut_mm"],
        "error_mm": TAKEN_ERROR_MM if last["taken"] else CUT_ERROR_MM,
    }


def _next(
    target: float, start: "dict[str, Any]", answers: "list[list[float]]", grown: Growth, yard: Yard
) -> "tuple[dict[str, Any], list[dict[str, object]]]":
    """The forecast of six weeks; of all days given where it rests beyond them."""
    begin, end = start["day"] + 1 - yard.first, min(yard.count, yard.now + AHEAD_DAYS + 1 - yard.first)
    asked = {"target_mm": target, "mm": start["mm"], "error_mm": start["error_mm"]}
    value, working = due_from(asked, start["day"], grown.between(begin, end), answers, yard.now)
    if value["state"] == "nearly_stopped" and value["growing_again"] is None and yard.count > end:
        value, working = due_from(asked, start["day"], grown.between(begin, yard.count), answers, yard.now)
    return value, working


def _said(value: "dict[str, Any]", target: float, start: "dict[str, Any]", yard: Yard) -> "dict[str, object]":
    now = yard.now
    heights = [
        {name: row[name] for name in ("date", "low", "mid", "high")}
        for row in value["height_mm"]
        if now <= day_number("date", row["date"]) <= now + AHEAD_DAYS
    ]
    takes = [row["removed_share"] for row in value["height_mm"] if row["date"] == day_text(now)]
    if start["day"] == now:  # it was cut or read this very day: so high it stands tonight
        heights.insert(0, {"date": day_text(now), "low": start["mm"], "mid": start["mm"], "high": start["mm"]})
        takes = [max(0.0, 1.0 - target / start["mm"])]
    late = 0 if value["mow_by"] is None else max(0, now - day_number("mow_by", value["mow_by"]))
    said: dict[str, object] = {name: value[name] for name in SAID}
    said.update({"height_mm": heights, "late_days": late, "takes_share": takes[0] if takes else None})
    return said


def _target_step(zone: "dict[str, Any]", target: "float | None") -> "dict[str, object]":
    return step(
        what="Height of cut wanted",
        formula="as entered for the zone, higher in heat or shade; else within the range of its grass",
        numbers={"target_mm": zone.get("target_mm"), "low_mm": zone.get("low_mm"), "high_mm": zone.get("high_mm")},
        result=target,
        unit="mm",
        source="isu_mow",
    )


def _last_step(last: "dict[str, Any] | None", target: "float | None") -> "dict[str, object]":
    return step(
        what="Height of the last cut",
        formula="as written down; else the height wanted, believed to 6 mm",
        numbers={"target_mm": target, "cut": None if last is None else day_text(last["day"])},
        result=None if last is None else last["cut_mm"],
        unit="mm",
        source=COMMON,
    )


def _start_step(start: "dict[str, Any]", last: "dict[str, Any]", target: float) -> "dict[str, object]":
    read = start["day"] > last["day"]
    return step(
        what="Height that growth is counted from",
        formula="the height read since the last cut" if read else "the height of the last cut",
        numbers={"target_mm": target, "error_mm": start["error_mm"]},
        result=start["mm"],
        unit="mm",
        source=COMMON,
    )


def _today_steps(said: "dict[str, Any]", target: "float | None") -> "list[dict[str, object]]":
    heights = said["height_mm"]
    stands = heights[0]["mid"] if heights else None
    return [
        step(
            what="A cut takes today",
            formula="1 less height wanted over height expected",
            numbers={"target_mm": target, "height_mm": stands},
            result=said["takes_share"],
            unit="share",
            source="isu_third",
        ),
        step(
            what="Days late",
            formula="days from the last day before",
            numbers={"mow_by": said["mow_by"]},
            result=said["late_days"],
            unit="day",
            source=COMMON,
        ),
    ]
