"""What the log and the weather tell of a yard, as its forecast takes it; and what of it is at work today."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import listing, number, optional_number, total
from lawn.engine.core.rows import column, optional_column, rows_of
from lawn.engine.core.working import step
from lawn.engine.mowing import grid, shapes, state
from lawn.engine.mowing.learn import RULER_ERROR_MM
from lawn.engine.mowing.state import Growth
from lawn.engine.watering import shares

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_ZONES = 200
MOST_ROWS = 20000
MOW_FIELDS = ("date", "zone_ids", "cut_height_mm", "cut_mm", "height_before_mm", "error_mm")
LOOK_FIELDS = ("date", "zone_ids", "height_mm", "error_mm")
WATER_FIELDS = ("date", "zone_ids", "watered_mm")
FED_DAYS = 180  # by then nothing is left of the slowest feed
LEAST_FED = 0.005  # of a month's nitrogen: less is not worth a line
WEEK_DAYS = 7


def mows_of(mows: object) -> "list[dict[str, Any]]":
    """Cuts with their zones; a height found measured stands before the one that was set."""
    found = []
    for path, row in _rows("mows", mows, MOW_FIELDS):
        set_to = optional_number(path + "cut_height_mm", row.get("cut_height_mm"))
        cut = optional_number(path + "cut_mm", row.get("cut_mm"))
        row_told = _told(path, row)
        row_told["cut_mm"] = set_to if cut is None else cut
        row_told["height_mm"] = optional_number(path + "height_before_mm", row.get("height_before_mm"))
        row_told["error_mm"] = _error(path, row)
        found.append(row_told)
    return found


def looks_of(heights: object) -> "list[dict[str, Any]]":
    """Heights read without a cut."""
    found = []
    for path, row in _rows("heights", heights, LOOK_FIELDS):
        one = _told(path, row)
        one["height_mm"] = number(path + "height_mm", row.get("height_mm"))
        one["error_mm"] = _error(path, row)
        found.append(one)
    return found


def feeds_of(feeds: object) -> "list[dict[str, Any]]":
    """Feeds with their zones, read as for one lawn."""
    read = state.feeds_of(feeds, MOST_ROWS, ("zone_ids",))
    for at in range(len(read)):
        read[at]["zones"] = listing("feeds[" + str(at) + "].zone_ids", read[at]["zone_ids"], 0, MOST_ZONES)
    return read


def waterings_of(waterings: object) -> "list[dict[str, Any]]":
    """Waterings with the depth given."""
    found = []
    for path, row in _rows("waterings", waterings, WATER_FIELDS):
        one = _told(path, row)
        one["watered_mm"] = number(path + "watered_mm", row.get("watered_mm"))
        found.append(one)
    return found


def _rows(name: str, given: object, fields: tuple[str, ...]) -> "list[tuple[str, dict[str, Any]]]":
    if given is None or not listing(name, given, 0, MOST_ROWS):
        return []
    rows = rows_of(name, given, fields, MOST_ROWS)
    return [(name + "[" + str(at) + "].", rows[at]) for at in range(len(rows))]


def _told(path: str, row: "dict[str, Any]") -> "dict[str, Any]":
    return {
        "day": day_number(path + "date", row.get("date")),
        "zones": listing(path + "zone_ids", row.get("zone_ids"), 0, MOST_ZONES),
    }


def _error(path: str, row: "dict[str, Any]") -> float:
    error = optional_number(path + "error_mm", row.get("error_mm"))
    return RULER_ERROR_MM if error is None else error


class Yard:
    """The days of a yard, and each zone's growth on them; zones that got the same share what was worked out."""

    def __init__(
        self,
        first: int,
        days: "list[dict[str, Any]]",
        now: int,
        feeds: "list[dict[str, Any]]",
        waterings: "list[dict[str, Any]]",
        latitude_deg: "float | None",
    ) -> None:
        self.first, self.count, self.now = first, len(days), now
        self._mean_c, self._sd_c = column("days", days, "mean_c"), optional_column("days", days, "sd_c", 0.0)
        self._given = _given(days)
        self._rain = shares.told(days=days, first=first, latitude_deg=latitude_deg)
        self._feeds, self._waterings = feeds, waterings
        self._warm: dict[str, list[Any]] = {"cool": [None] * len(days), "warm": [None] * len(days)}
        self._kept: dict[Any, Growth] = {}

    def week_c(self) -> "float | None":
        """Mean temperature of the week up to today; none where the days do not reach back so far."""
        end = self.now - self.first + 1
        if not self.count or end < WEEK_DAYS:
            return None
        return total(self._mean_c[end - WEEK_DAYS : end]) / WEEK_DAYS

    def growth(self, zone_id: str, turf: str, soil: "str | None") -> Growth:
        """A zone's growth at scale 1."""
        feeds = self._fed(zone_id)
        watered = self._watered(zone_id)
        holds = shares.holds_mm(soil=soil)
        key = (turf, holds, tuple(feeds), tuple(sorted(watered.items())))
        if key not in self._kept:
            water = self._water(turf, holds, watered)
            self._kept[key] = Growth(turf, self.first, self._warm, self._mean_c, self._sd_c, water, feeds)
        return self._kept[key]

    def _fed(self, zone_id: str) -> "list[tuple[int, float, float]]":
        since = self.first - FED_DAYS
        rows = [one for one in self._feeds if zone_id in one["zones"] and since <= one["day"] <= self.now]
        return sorted([(one["day"], one["n_kg_m2"], one["slow_share"]) for one in rows])

    def _watered(self, zone_id: str) -> "dict[int, float]":
        found: dict[int, float] = {}
        for one in self._waterings:
            at = one["day"] - self.first
            if zone_id in one["zones"] and 0 <= at <= self.now - self.first:
                found[at] = found.get(at, 0.0) + one["watered_mm"]
        return found

    def _water(self, turf: str, holds: float, watered: "dict[int, float]") -> "list[float | None]":
        now = self.now - self.first
        told = shares.shares(told=self._rain, turf=turf, holds=holds, watered=watered, now=now)
        return [told[at] if self._given[at] is None else self._given[at] for at in range(self.count)]

    def inputs(
        self, grown: Growth, answers: "list[list[float]]"
    ) -> "tuple[dict[str, object], list[dict[str, object]]]":
        """What is at work today and in the coming week, with its working."""
        week = self._week(grown.water)
        feeds = self._at_work(grown, answers)
        value: dict[str, object] = {
            "water_share": week,
            "feeds": [{"date": day_text(one["day"]), "adds_mm": one["adds_mm"]} for one in feeds],
        }
        return value, [_water_step(week, self._rain)] + [_feed_step(one) for one in feeds]

    def _week(self, water: "list[float | None]") -> "float | None":
        at = self.now - self.first
        known = [one for one in water[at : at + WEEK_DAYS] if one is not None]
        if not known:
            return None
        return total(known) / len(known)

    def _at_work(self, grown: Growth, answers: "list[list[float]]") -> "list[dict[str, Any]]":
        """Each feed's part of what all feeds add today."""
        parts = [shapes.fed_share([one], self.now) for one in grown.feeds]
        whole = total(parts)
        at = self.now - self.first
        adds, found = _adds(grown.between(at, at + 1)[0], answers), []
        for at in range(len(parts)):
            if parts[at] >= LEAST_FED:
                day, n_kg_m2, slow = grown.feeds[at]
                mm = adds * parts[at] / whole
                feed: dict[str, Any] = {"day": day, "n_kg_m2": n_kg_m2, "slow_share": slow}
                feed.update({"at_work_share": parts[at], "adds_mm": mm})
                found.append(feed)
        return found[::-1]


def _given(days: "list[dict[str, Any]]") -> "list[float | None]":
    found: list[float | None] = []
    for at in range(len(days)):
        one = days[at].get("water_share")
        found.append(None if one is None else number("days[" + str(at) + "].water_share", one))
    return found


def _adds(day: "list[tuple[float, float, float]]", answers: "list[list[float]]") -> float:
    weights = grid.weights(answers)
    return total([weights[at] * answers[at][2] * day[at][1] for at in range(len(answers))])


def _water_step(week: "float | None", rain: "list[Any]") -> "dict[str, object]":
    return step(
        what="Share of its water that the grass gets in the coming week",
        formula="rain and watering of each day less what the grass uses, as far as the root zone holds it; nothing "
        "said where the days tell no rain",
        numbers={"days_of_known_rain": len([one for one in rain if one is not None])},
        result=week,
        unit="share",
        source="fao56",
    )


def _feed_step(one: "dict[str, Any]") -> "dict[str, object]":
    return step(
        what="Fed " + day_text(one["day"]) + ": adds to today's growth",
        formula="what a full feed was seen to add, times how far this one is at work: quick nitrogen for two to six "
        "weeks, slow nitrogen over ten",
        numbers={name: one[name] for name in ("n_kg_m2", "slow_share", "at_work_share")},
        result=one["adds_mm"],
        unit="mm",
        source="cornell_n",
    )
