"""The household's mowing nights: what cannot wait for the next one, in the order of need."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import at_least, listing, number, optional_number, text, whole
from lawn.engine.core.rows import rows_of
from lawn.engine.core.working import COMMON, step
from lawn.engine.mowing.cut import lowest_cut_mm, mow_at_mm

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

AHEAD_DAYS = 21
MOST_ZONES = 200
WET_MM = 5.0  # of rain on the day: the grass is too wet to mow (common practice)
FROST_C = 0.0  # no feet and no wheels on frozen grass (common practice)
REASONS = ("overgrown", "cannot_wait", "may_not_wait", "can_wait", "resting", "no_forecast")
DUE = ("overgrown", "cannot_wait")


def tonight(
    *, zones: object, weekdays: object, today: str, weather: object = None
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Which zones to mow on the next mowing night, in the order of need, and which can wait for the one after.

    Args:
        zones: zones with their forecasts [list]
        zones.id: zone [text]
        zones.target_mm: height of cut wanted [mm; 2 to 200]
        zones.height_mm: heights as mowing.next answers them, from today on [list]
        zones.height_mm.date: the day [date]
        zones.height_mm.mid: height expected [mm; 0 to 5000]
        zones.height_mm.high: 1 in 10 above [mm; 0 to 5000]
        zones.state?: as mowing.next answers it [text]
        weekdays: the household's mowing nights, Monday 1 [list of numbers]
        today: day asked about [date]
        weather?: forecast of the coming days [list]
        weather.date: the day [date]
        weather.rain_mm?: rain [mm; 0 to 1000]
        weather.min_c?: lowest temperature [C; -60 to 60]
    Returns:
        night: the first mowing night from today on that the weather allows; null where none is in three
            weeks [date or null]
        next_night: the one after it [date or null]
        is_tonight: true where that first night is today [true or false]
        nights: the mowing nights of three weeks [list]
        nights.date: the day [date]
        nights.why: what keeps from mowing then [one of open, rain, frost]
        zones: the zones, the neediest first [list]
        zones.id: zone [text]
        zones.due: true where it should be cut on that night [true or false]
        zones.why: why it is due or not [one of overgrown, cannot_wait, may_not_wait, can_wait, resting, no_forecast]
        zones.cut_to_mm: height to cut to on that night; null where no height is known [mm or null]
        zones.taken_share: what a cut to the height wanted would take on that night [share or null]
        zones.skipped_share: what it would take if it waits for the night after [share or null]
    Raises:
        out_of_range: an argument is outside its range
        repeated: a zone stands twice in the list
    Source: isu_third
    Checked: at 4.5 in a cut to 3 in takes just a third (cornell_13a)
    """
    now = day_number("today", today)
    nights = _nights(weekdays_of(weekdays), now, _bad(weather))
    free = [night for night, why in nights if why == "open"]
    first, second = (free + [None, None])[:2]
    rows = [_zone(path, row, first, second) for path, row in _given(zones)]
    rows.sort(key=lambda row: row[0])
    said = [row[1] for row in rows]
    value: dict[str, object] = {
        "night": None if first is None else day_text(first),
        "next_night": None if second is None else day_text(second),
        "is_tonight": first == now,
        "nights": [{"date": day_text(night), "why": why} for night, why in nights],
        "zones": said,
    }
    return value, _working(value, said)


def weekdays_of(weekdays: object) -> list[int]:
    """Mowing nights as days of the week, Monday 1."""
    return [whole("weekdays[" + str(at) + "]", one) for at, one in enumerate(listing("weekdays", weekdays, 1, 7))]


def is_night(day: int, weekdays: list[int]) -> bool:
    """Whether a day, by its number, is one of these days of the week; day 1 of the count was a Monday."""
    return (day - 1) % 7 + 1 in weekdays


def _bad(weather: object) -> "dict[int, str]":
    """Days on which nobody should mow, and why."""
    found: dict[int, str] = {}
    if weather is None or weather == []:
        return found
    rows = rows_of("weather", weather, ("date", "rain_mm", "min_c"), 400)
    for at in range(len(rows)):
        path = "weather[" + str(at) + "]."
        day = day_number(path + "date", rows[at].get("date"))
        rain = optional_number(path + "rain_mm", rows[at].get("rain_mm"))
        cold = optional_number(path + "min_c", rows[at].get("min_c"))
        if cold is not None and cold <= FROST_C:
            found[day] = "frost"
        elif rain is not None and rain >= WET_MM:
            found[day] = "rain"
    return found


def _nights(weekdays: list[int], now: int, bad: "dict[int, str]") -> "list[tuple[int, str]]":
    return [(day, bad.get(day, "open")) for day in range(now, now + AHEAD_DAYS) if is_night(day, weekdays)]


def _given(zones: object) -> "list[tuple[str, dict[str, Any]]]":
    rows = rows_of("zones", zones, ("id", "target_mm", "height_mm", "state"), MOST_ZONES)
    found, ids = [], []
    for at in range(len(rows)):
        path = "zones[" + str(at) + "]"
        name = text(path + ".id", rows[at].get("id"))
        if name in ids:
            raise repeated(path, name, "A zone stands twice in the list.")
        ids.append(name)
        found.append((path, rows[at]))
    return found


def _heights(path: str, value: object) -> "dict[int, tuple[float, float]]":
    found: dict[int, tuple[float, float]] = {}
    if not listing(path, value, 0, 400):
        return found
    rows = rows_of(path, value, ("date", "low", "mid", "high", "removed_share"), 400)
    for at in range(len(rows)):
        inside, row = path + "[" + str(at) + "].", rows[at]
        day = day_number(inside + "date", row.get("date"))
        found[day] = (
            number(inside + "mid", row.get("mid"), 0.0, 5000.0),
            number(inside + "high", row.get("high"), 0.0, 5000.0),
        )
    return found


def _zone(
    path: str, row: "dict[str, Any]", first: "int | None", second: "int | None"
) -> "tuple[tuple[int, float, str], dict[str, object]]":
    """A zone's place in the order and what is said of it."""
    target = number(path + ".target_mm", row.get("target_mm"))
    heights = _heights(path + ".height_mm", row.get("height_mm"))
    state = None if row.get("state") is None else text(path + ".state", row["state"])
    then = None if first is None else heights.get(first)
    after = None if second is None else heights.get(second)
    why = _why(target, then, after, state)
    skipped = None if after is None else max(0.0, 1.0 - target / max(after[0], target))
    taken = None if then is None else max(0.0, 1.0 - target / max(then[0], target))
    cut_to = None if then is None else min(then[0], max(target, lowest_cut_mm(height_mm=max(2.0, then[0]))))
    name = row["id"]
    said: dict[str, object] = {
        "id": name,
        "due": why in DUE,
        "why": why,
        "cut_to_mm": cut_to,
        "taken_share": taken,
        "skipped_share": skipped,
    }
    need = skipped if skipped is not None else (taken if taken is not None else 0.0)
    return (REASONS.index(why), -need, name), said


def _why(
    target: float,
    then: "tuple[float, float] | None",
    after: "tuple[float, float] | None",
    state: "str | None",
) -> str:
    limit = mow_at_mm(target_mm=target)
    if then is None:
        return "no_forecast"
    if then[0] > limit and not at_least(limit, then[0]):
        return "overgrown"
    if after is not None and not at_least(limit, after[0]):
        return "cannot_wait"
    if state == "nearly_stopped":
        return "resting"
    if after is None:
        return "no_forecast"
    return "can_wait" if at_least(limit, after[1]) else "may_not_wait"


def _working(value: "dict[str, Any]", zones: "list[dict[str, object]]") -> "list[dict[str, object]]":
    steps = [
        _step(
            "Next mowing night",
            "the first of the household's nights with less than 5 mm of rain and no frost",
            {"nights": len(value["nights"]), "wet_mm": WET_MM, "frost_c": FROST_C},
            value["night"],
            "date",
        ),
        _step("The night after", "the next such night", {"nights": len(value["nights"])}, value["next_night"], "date"),
    ]
    for zone in zones:
        name = str(zone["id"])
        numbers: dict[str, object] = {"cut_to_mm": zone["cut_to_mm"]}
        words = "1 less height wanted over height expected"
        steps += [
            _step("A cut then takes", words + " on that night", numbers, zone["taken_share"], "share", name),
            _step("Skipped, it takes", words + " on the night after", numbers, zone["skipped_share"], "share", name),
            _step(
                "Cut to",
                "the height wanted, but never less than two thirds of the height expected",
                {"taken_share": zone["taken_share"]},
                zone["cut_to_mm"],
                "mm",
                name,
            ),
        ]
    return steps


def _step(
    what: str, formula: str, numbers: "dict[str, object]", result: object, unit: str, of: "str | None" = None
) -> "dict[str, object]":
    source = COMMON if of is None else "isu_third"
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source=source, of=of)
