"""When the nitrogen of a feed comes free: what was put down is one line, what grass can use of it another."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import choice, group, listing, number, optional_number, text, total
from lawn.engine.core.rows import column, rows_of, unbroken
from lawn.engine.core.working import COMMON, DEFINITION, N_UNIT, step
from lawn.engine.nutrition.kinds import KINDS, NATURAL_SHARE, SOLUBLE_DAYS, SOURCES, WEEKS, lasting, of_a_day, pace

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_DAYS = 1500
MOST_FEEDS = 500
WAITS_BELOW = 0.3  # of its warm pace: then it is said to wait (common practice)
FEED = ("zone", "applied", "n_kg_m2", "slow_n_share", "source", "free_in_ten_weeks_share")
SAYS = {
    "quick": "Its nitrogen is quick and lasts two to six weeks.",
    "waits": "It waits. Its slow nitrogen comes free as the soil warms.",
    "frees": "Its slow nitrogen comes free little by little, faster in warm soil.",
    "used": "All of it has come free.",
}


def release(
    *,
    n_kg_m2: float,
    slow_n_share: float,
    source: str,
    applied: str,
    days: list[object],
    free_in_ten_weeks_share: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Nitrogen of one feed that comes free on each day, by its kind and the warmth of the soil.

    Its quick part is spread over four weeks. Coats and IBDU let go evenly, by days of warm soil. What microbes let go
    (urea forms, natural) comes first order, next to nothing under 10 to 13 C.

    Args:
        n_kg_m2: nitrogen put down [kg/m2; 0 to 5]
        slow_n_share: slow-release share of it [share; 0 to 1]
        source: kind of its slow nitrogen [one of soluble, sulfur_coated, polymer_coated, condensed, ibdu, natural]
        applied: day it was put down [date]
        days: soil of every day from then on, none left out; days before it do no harm [list]
        days.date: the day [date]
        days.soil_c: mean soil temperature [C; -40 to 60]
        free_in_ten_weeks_share?: share of a natural product free after ten warm weeks: 0.7 manure or feather meal, 0.6
            biosolids, 0.2 hog waste; 0.6 when not said [share; 0.01 to 0.99]
    Returns:
        daily: each day from the feed on [list]
        daily.date: the day [date]
        daily.n_kg_m2: nitrogen that comes free on it [kg/m2]
        free_kg_m2: nitrogen that has come free in all [kg/m2]
        left_kg_m2: nitrogen that has not [kg/m2]
        state: what it does on the last day [one of quick, waits, frees, used]
        says: the same in a sentence [text]
    Raises:
        out_of_range: a number is outside its range
        impossible: a day is left out, or the days begin after the feed
        not_a_choice: the source is none of those known
    Source: cornell_n
    Checked: after ten weeks of soil at 20 C feather meal has freed 70 % (ncsu_org)
    """
    feed = _feed(
        "",
        {
            "zone": "zone",
            "applied": applied,
            "n_kg_m2": n_kg_m2,
            "slow_n_share": slow_n_share,
            "source": source,
            "free_in_ten_weeks_share": free_in_ten_weeks_share,
        },
    )
    first, soil = _soil(days)
    if feed["day"] < first:
        message = "The days of soil must begin on the day of the feed, or before it."
        raise impossible(name="applied", value=applied, message=message)
    daily, left = free_daily(feed=feed, first=first, soil=soil)
    free = total(daily)
    state = _state(feed, left, soil[-1])
    value: dict[str, object] = {
        "daily": [{"date": day_text(feed["day"] + at), "n_kg_m2": one} for at, one in enumerate(daily)],
        "free_kg_m2": free,
        "left_kg_m2": total(left),
        "state": state,
        "says": SAYS[state],
    }
    return value, _working(feed, daily, left, soil)


def _feed(path: str, given: "dict[str, Any]") -> "dict[str, Any]":
    share = optional_number(path + "free_in_ten_weeks_share", given.get("free_in_ten_weeks_share"))
    slow = number(path + "slow_n_share", given.get("slow_n_share"))
    source = choice(path + "source", given.get("source"), KINDS)
    return {
        "zone": text(path + "zone", given.get("zone")),
        "day": day_number(path + "applied", given.get("applied")),
        "n_kg_m2": number(path + "n_kg_m2", given.get("n_kg_m2")),
        "slow": 0.0 if source == "soluble" else slow,
        "source": source,
        "share": NATURAL_SHARE if share is None else share,
    }


def _soil(days: object) -> "tuple[int, list[float]]":
    rows = rows_of("days", days, ("date", "soil_c"), MOST_DAYS)
    return unbroken("days", rows), column("days", rows, "soil_c")


def free_daily(*, feed: "dict[str, Any]", first: int, soil: "list[float]") -> "tuple[list[float], list[float]]":
    """What a feed frees on each day from its own on, and what of its quick and its slow part is left then.

    Args:
        feed: the feed, checked [group of values]
        first: number of the first day of soil [day]
        soil: soil temperature of each day [list of numbers]
    Returns:
        daily: nitrogen that comes free [list of numbers]
        left: quick and slow nitrogen left [list of numbers]
    Source: cornell_n
    """
    slow = feed["n_kg_m2"] * feed["slow"]
    quick = feed["n_kg_m2"] - slow
    left = [quick, slow]
    daily = []
    for soil_c in soil[max(0, feed["day"] - first) :]:
        of_quick = of_a_day(source="soluble", whole=quick, left=left[0], soil_c=soil_c, ten_weeks_share=0.5)
        of_slow = of_a_day(
            source=feed["source"], whole=slow, left=left[1], soil_c=soil_c, ten_weeks_share=feed["share"]
        )
        left = [left[0] - of_quick, left[1] - of_slow]
        daily.append(of_quick + of_slow)
    return daily, left


def _state(feed: "dict[str, Any]", left: "list[float]", soil_c: float) -> str:
    if total(left) <= 0.01 * feed["n_kg_m2"]:
        return "used"
    if left[1] <= 0.0:
        return "quick"
    return "waits" if pace(source=feed["source"], soil_c=soil_c) < WAITS_BELOW else "frees"


def _working(
    feed: "dict[str, Any]", daily: "list[float]", left: "list[float]", soil: "list[float]"
) -> "list[dict[str, object]]":
    free, source = total(daily), SOURCES[feed["source"]]
    slow = feed["n_kg_m2"] * feed["slow"]
    numbers: dict[str, object] = {"n_kg_m2": feed["n_kg_m2"], "slow_share": feed["slow"], "days": SOLUBLE_DAYS}
    last: dict[str, object] = {"soil_c": soil[-1], "pace": pace(source=feed["source"], soil_c=soil[-1])}
    last["slow_left_kg_m2"] = left[1]
    rows: list[tuple[str, str, dict[str, object], float, str]] = [
        (
            "Nitrogen of it that is quick",
            "the part not slow, over four weeks",
            numbers,
            feed["n_kg_m2"] - slow,
            "cornell_n",
        ),
        (
            "Nitrogen free on the last day",
            "by its kind and the soil of that day",
            last,
            daily[-1] if daily else 0.0,
            source,
        ),
        ("Nitrogen free in all", "that of every day, added", {"each_n_kg_m2": daily}, free, DEFINITION),
        (
            "Nitrogen left",
            "what was put down less what is free",
            {"n_kg_m2": feed["n_kg_m2"], "free_kg_m2": free},
            total(left),
            DEFINITION,
        ),
    ]
    return [
        step(what=what, formula=formula, numbers=given, result=result, unit=N_UNIT, source=key)
        for what, formula, given, result, key in rows
    ]


def available(
    *, feeds: list[object], days: list[object], today: str
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """The ledger's second line: nitrogen of all feeds of each zone that is free on a day, beside what was put down.

    Args:
        feeds: feeds of all zones, up to 500 [list]
        feeds.zone: the zone fed [text]
        feeds.applied: day it was put down [date]
        feeds.n_kg_m2: nitrogen put down [kg/m2; 0 to 5]
        feeds.slow_n_share: slow-release share of it [share; 0 to 1]
        feeds.source: kind of its slow nitrogen [one of soluble, sulfur_coated, polymer_coated, condensed, ibdu,
            natural]
        feeds.free_in_ten_weeks_share?: as of `feeding.release` [share; 0.01 to 0.99]
        days: soil of every day up to today at least, none left out; a feed before them counts as of their first [list]
        days.date: the day [date]
        days.soil_c: mean soil temperature [C; -40 to 60]
        today: the day asked about [date]
    Returns:
        zones: each zone that was fed by then [list]
        zones.zone_id: the zone [text]
        zones.put_down_kg_m2: nitrogen put down in the days told of [kg/m2]
        zones.free_today_kg_m2: nitrogen that comes free today [kg/m2]
        zones.free_kg_m2: nitrogen that has come free, today with it [kg/m2]
        zones.left_kg_m2: nitrogen that has not [kg/m2]
        daily: each of the days, zone by zone [list]
        daily.zone_id: the zone [text]
        daily.date: the day [date]
        daily.n_kg_m2: nitrogen that comes free on it [kg/m2]
    Raises:
        out_of_range: a number is outside its range
        impossible: a day is left out, or today is not among the days
        not_a_choice: the source is none of those known
    Source: cornell_n
    Checked: after ten weeks of soil at 20 C feather meal has freed 70 % (ncsu_org)
    """
    first, soil = _soil(days)
    now = day_number("today", today)
    if not first <= now < first + len(soil):
        message = "The days of soil must hold the day asked about."
        raise impossible(name="today", value=today, message=message)
    zones: dict[str, Any] = {}
    for at, item in enumerate(listing("feeds", feeds, 0, MOST_FEEDS)):
        path = "feeds[" + str(at) + "]."
        feed = _feed(path, group(path[:-1], item, FEED))
        if feed["day"] <= now:
            _add(zones, feed, first, soil)
    found, daily, working = [], [], []
    for zone_id in sorted(zones):
        row, steps = _zone(zone_id, zones[zone_id], first, now)
        daily.extend([{"zone_id": zone_id, "date": day_text(first + at), "n_kg_m2": each} for at, each in row[1]])
        found.append(row[0])
        working.extend(steps)
    numbers: dict[str, object] = {"zones": len(found)}
    what, formula = "Days of soil", "those told of"
    working.append(step(what=what, formula=formula, numbers=numbers, result=len(soil), unit="days", source=COMMON))
    return {"zones": found, "daily": daily}, working


def _add(zones: "dict[str, Any]", feed: "dict[str, Any]", first: int, soil: "list[float]") -> None:
    one = zones.setdefault(feed["zone"], {"put": [], "days": [[] for _ in soil]})
    one["put"].append(feed["n_kg_m2"])
    daily, _ = free_daily(feed=feed, first=first, soil=soil)
    for at, free in enumerate(daily):
        one["days"][len(soil) - len(daily) + at].append(free)


def _zone(
    zone_id: str, one: "dict[str, Any]", first: int, now: int
) -> "tuple[tuple[dict[str, Any], list[tuple[int, float]]], list[dict[str, object]]]":
    daily = [total(each) for each in one["days"]]
    until = daily[: now - first + 1]
    put, free, today = total(one["put"]), total(until), daily[now - first]
    left = max(0.0, put - free)
    row = {
        "zone_id": zone_id,
        "put_down_kg_m2": put,
        "free_today_kg_m2": today,
        "free_kg_m2": free,
        "left_kg_m2": left,
    }
    rows: list[tuple[str, str, dict[str, object], float]] = [
        ("Nitrogen put down", "feeds, added", {"each_n_kg_m2": one["put"]}, put),
        ("Nitrogen free today", "that of each feed, added", {"each_n_kg_m2": one["days"][now - first]}, today),
        ("Nitrogen free so far", "that of every day, added", {"each_n_kg_m2": until}, free),
        ("Nitrogen left", "what was put down less what is free", {"put_kg_m2": put, "free_kg_m2": free}, left),
    ]
    return (row, list(enumerate(daily))), [
        step(what=what, formula=formula, numbers=given, result=result, unit=N_UNIT, source="cornell_n", of=zone_id)
        for what, formula, given, result in rows
    ]


def lasts(*, source: str, slow_n_share: float | None = None) -> tuple[dict[str, object], list[dict[str, object]]]:
    """How many weeks a feed lasts until the next one is due, at least and at most.

    Args:
        source: kind of its slow nitrogen [one of soluble, sulfur_coated, polymer_coated, condensed, ibdu, natural]
        slow_n_share?: slow-release share of its nitrogen; none when not said, but a natural one is slow [share; 0 to 1]
    Returns:
        least_weeks: weeks at least [weeks]
        most_weeks: weeks at most [weeks]
        lasting: quick under a fifth slow, slow from a half or natural, part between [one of quick, part, slow]
    Raises:
        out_of_range: the share is outside its range
        not_a_choice: the source is none of those known
    Source: cornell_n
    Checked: soluble nitrogen lasts two to six weeks (cornell_n)
    """
    kind = choice("source", source, KINDS)
    slow = optional_number("slow_n_share", slow_n_share) or 0.0
    found = lasting(source=kind, slow_n_share=0.0 if kind == "soluble" else slow)
    least, most, key = WEEKS[found]
    numbers: dict[str, object] = {"slow_share": slow, "source": kind}
    formula = "quick under a fifth slow, slow from a half or natural, part between"
    working = [
        step(what="Weeks at least", formula=formula, numbers=numbers, result=least, unit="weeks", source=key),
        step(what="Weeks at most", formula=formula, numbers=numbers, result=most, unit="weeks", source=key),
    ]
    return {"least_weeks": least, "most_weeks": most, "lasting": found}, working
