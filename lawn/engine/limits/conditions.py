"""The wrong day or the wrong ground: closed dates, bans, water's edge, frost, wet, heat, cold and drought."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import at_least, total
from lawn.engine.limits.found import breach
from lawn.engine.log.applications import is_feed

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Days = dict[int, dict[str, float | None]]

PESTICIDES = ("pre_emergent", "post_emergent")
WEEK_DAYS = 7
SOIL_DAYS = 3
LEAP_DAY = "02-29"


def wrong_day(
    *,
    one: "dict[str, Any]",
    zone: "dict[str, Any]",
    rules: "dict[str, list[dict[str, Any]]]",
    days: "Days",
) -> "list[dict[str, Any]]":
    """Every rule that speaks against a job on its day or its ground; weather that is not known speaks against none.

    Args:
        one: the application [group of values]
        zone: its zone [group of values]
        rules: the rules that hold, by kind [group of values]
        days: days of weather by their number [group of values]
    Returns:
        breaches: each with its steps [list]
    Source: definition
    """
    found: list[dict[str, Any]] = []
    feeds = is_feed(one=one) or bool(one["p2o5_kg_m2"])
    for kind in ("closed", "summer_ban"):
        found.extend(_closed(one, kind, rules.get(kind, [])) if feeds else [])
    if one["sort"] in PESTICIDES:
        banned = [row for row in rules.get("pesticide_ban", []) if row["sort"] in (None, one["sort"])][:1]
        found.extend([_breach(one, "pesticide_ban", row, None, None, {}, "") for row in banned])
    puts_down = feeds or one["sort"] in PESTICIDES or one["sort"] == "lime"
    for row in rules.get("water", []) if puts_down else []:
        found.extend(_water(one, zone, row))
    if puts_down:
        found.extend(_ground(one, rules, days))
    for row in rules.get("heat", []) if zone["turf"] != "warm" else []:
        mean = _mean(days, one["day"], WEEK_DAYS, "mean_c")
        if mean is not None and not at_least(row["limit_c"], mean) and _too_quick(one, row):
            found.append(_breach(one, "heat", row, mean, row["limit_c"], {"days": WEEK_DAYS}, "mean of the week"))
    for row in rules.get("cold", []) if zone["turf"] == "warm" else []:
        mean = _mean(days, one["day"], SOIL_DAYS, "soil_c")
        if mean is not None and not at_least(mean, row["limit_c"]) and _too_quick(one, row):
            found.append(_breach(one, "cold", row, mean, row["limit_c"], {"days": SOIL_DAYS}, "mean of the days"))
    for row in rules.get("water_in", []) if one["spread"]["watered_in"] is False else []:
        found.extend(_dry(one, row, days))
    for row in rules.get("drought", []) if not zone["watered"] else []:
        found.extend(_drought(one, row, days))
    return found


def _closed(one: "dict[str, Any]", kind: str, rows: "list[dict[str, Any]]") -> "list[dict[str, Any]]":
    """The closed time that the job falls into; of several the one that ends last."""
    hit = [row for row in rows if in_days(date=one["spread"]["date"], first=row["from"], last=row["to"])]
    if not hit:
        return []
    ready = _open_again(one["day"], rows)
    return [_breach(one, kind, hit[0], None, None, {}, "", None if ready is None else day_text(ready))]


def _open_again(day: int, rows: "list[dict[str, Any]]") -> int | None:
    """The first day after it that no row closes: from the end of one closed time to the end of the next."""
    at = day
    for _ in range(2 * len(rows) + 1):
        hit = [row for row in rows if in_days(date=day_text(at), first=row["from"], last=row["to"])]
        if not hit:
            return at
        at = max([_end(at, row["to"]) for row in hit]) + 1
    return None


def _end(day: int, last: str) -> int:
    """The next day of that name, the given one among them; a 29 February is the last of that month in any year."""
    date = day_text(day)
    year = int(date[:4]) + (1 if last < date[5:10] else 0)
    if last == LEAP_DAY:
        return day_number("to", str(year) + "-03-01") - 1
    return day_number("to", str(year) + "-" + last)


def in_days(*, date: str, first: str, last: str) -> bool:
    """Tell whether a day lies in a time of every year, both its ends counted; it may go over the turn of the year.

    Args:
        date: the day [date]
        first: first day of the time, as 11-16 [text]
        last: last day of it [text]
    Returns:
        inside: whether it does [true or false]
    Source: definition
    """
    at = date[5:10]  # months and days order as they are written
    return first <= at <= last if first <= last else at >= first or at <= last


def _water(one: "dict[str, Any]", zone: "dict[str, Any]", row: "dict[str, Any]") -> "list[dict[str, Any]]":
    """Ground kept clear: what the job keeps, else what was entered for the zone, which is its label's or local rule."""
    if not zone["near_water"]:
        return []
    job, least = one["spread"], row["clear_m"]
    if job["guarded"] and row["guarded_m"] is not None and row["looser"] is None:
        least = row["guarded_m"]
    if zone["setback_m"] is not None:
        least = zone["setback_m"]
    kept = zone["setback_m"] if job["clear_m"] is None else job["clear_m"]
    if kept is not None and at_least(kept, least):
        return []
    numbers = {"kept_m": kept}
    return [_breach(one, "water", row, kept, least, numbers, "as the job or the zone has it", None, ["setback"])]


def _ground(one: "dict[str, Any]", rules: "dict[str, list[dict[str, Any]]]", days: "Days") -> "list[dict[str, Any]]":
    found = []
    soil = days.get(one["day"], {}).get("soil_c")
    for row in rules.get("frozen", []):
        if soil is not None and at_least(row["limit_c"], soil):
            found.append(_breach(one, "frozen", row, soil, row["limit_c"], {"days": 1}, "that of the day"))
    for row in rules.get("saturated", []):
        rain = _sum(days, one["day"], int(row["over_days"] or 1))
        if rain is not None and at_least(rain, row["limit_mm"]):
            numbers = {"days": int(row["over_days"] or 1)}
            found.append(_breach(one, "saturated", row, rain, row["limit_mm"], numbers, "rain of the days, added"))
    return found


def _dry(one: "dict[str, Any]", row: "dict[str, Any]", days: "Days") -> "list[dict[str, Any]]":
    """A quick feed that nobody waters in, on a day whose rain does not either."""
    rain = _sum(days, one["day"], 1)
    if one["sort"] != "fertilizer" or not _too_quick(one, row) or at_least(rain or 0.0, row["limit_mm"]):
        return []
    return [_breach(one, "water_in", row, rain, row["limit_mm"], {"days": 1}, "rain of the day")]


def _drought(one: "dict[str, Any]", row: "dict[str, Any]", days: "Days") -> "list[dict[str, Any]]":
    """Too little rain in days that are all known, while it is warm enough for grass to need it."""
    over = int(row["over_days"] or 1)
    rain, mean = _sum(days, one["day"], over), _mean(days, one["day"], WEEK_DAYS, "mean_c")
    warm = mean is not None and (row["limit_c"] is None or at_least(mean, row["limit_c"]))
    if rain is None or at_least(rain, row["limit_mm"]) or not warm or not _too_quick(one, row):
        return []
    numbers = {"days": over}
    return [_breach(one, "drought", row, rain, row["limit_mm"], numbers, "rain of the days, added", None, ["watered"])]


def _too_quick(one: "dict[str, Any]", row: "dict[str, Any]") -> bool:
    """Whether a feed is not slow enough for the rule; nobody's slow share counts as none."""
    if not is_feed(one=one):
        return False
    return not at_least(one["spread"]["slow_n_share"] or 0.0, row["least_slow_share"] or 1.0)


def _known(days: "Days", day: int, over: int, name: str) -> "list[float] | None":
    found = [days.get(day - back, {}).get(name) for back in range(over)]
    known = [value for value in found if value is not None]
    return known if len(known) == over else None


def _mean(days: "Days", day: int, over: int, name: str) -> float | None:
    known = _known(days, day, over, name)
    return None if known is None else total(known) / over


def _sum(days: "Days", day: int, over: int) -> float | None:
    known = _known(days, day, over, "rain_mm")
    return None if known is None else total(known)


def _breach(
    one: "dict[str, Any]",
    kind: str,
    row: "dict[str, Any]",
    figure: float | None,
    ceiling: float | None,
    numbers: "dict[str, Any]",
    formula: str,
    ready: str | None = None,
    loosens: "list[str] | None" = None,
) -> "dict[str, Any]":
    return breach(
        job=one["spread"],
        kind=kind,
        row=row,
        figure=figure,
        ceiling=ceiling,
        numbers=numbers,
        formula=formula,
        ready=ready,
        loosens=loosens,
    )
