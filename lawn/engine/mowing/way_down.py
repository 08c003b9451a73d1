"""Bringing long grass down, cut by cut, each taking no more than a third."""

from lawn.engine.core.dates import day_number
from lawn.engine.core.errors import missing
from lawn.engine.core.numeric import at_least, number, optional_number, whole_down
from lawn.engine.core.working import COMMON, step
from lawn.engine.mowing.cut import HIGHEST_MM, THIRD_SOURCE, lowest_cut_mm
from lawn.engine.mowing.notch import lowest, notches_of
from lawn.engine.mowing.tonight import is_night, weekdays_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

MOST_CUTS = 30
USUAL_DAYS = 3  # between cuts: twice a week (common practice)
LEAST_DAYS = 2  # from a cut to one on the next mowing night: the grass stands up and greens again (common practice)


def way_down(
    *,
    height_mm: float,
    target_mm: float,
    growth_mm_day: float | None = None,
    days_between: float | None = None,
    highest_mm: float | None = None,
    notches: object = None,
    since_days: float | None = None,
    weekdays: object = None,
    today: str | None = None,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """The cuts that bring long grass down to the height wanted; asked anew after each, from what was really cut.

    Args:
        height_mm: height of the grass now [mm; 2 to 2000]
        target_mm: height of cut wanted [mm; 2 to 200]
        growth_mm_day?: growth between the cuts; none when not said [mm; 0 to 50]
        days_between?: days from cut to cut, of which whole ones count; 3 when not said [day; 1 to 60]
        highest_mm?: highest setting of the mower; 115 when not said [mm; 10 to 200]
        notches?: the mower's notches; else any height can be set [list]
        notches.name: what stands beside the notch [text]
        notches.notch_mm: height it cuts at [mm; 5 to 200]
        since_days?: days since the last cut, after which the first is made at the same pace; else it is today
            [day; 0 to 36500]
        weekdays?: the household's mowing nights, Monday 1: every cut but one of today is on one of them, at least 2
            days after the cut before, or days_between where that is less [list of numbers]
        today?: the day of today, which nights are counted from; wanted with weekdays [date]
    Returns:
        steps: the cuts, the first today unless the last is too near; none where it is no higher than wanted [list]
        steps.day: days from today [day]
        steps.from_mm: height before the cut [mm]
        steps.to_mm: height to cut to [mm]
        steps.removed_share: share of the blade that takes [share]
        steps.notch: the notch to set [text or null]
        reaches: true where the last cut is to the height wanted, or its notch [true or false]
        beyond_mower: true where no setting of the mower is high enough for the first cut [true or false]
        cuts: how many [cuts]
    Raises:
        out_of_range: an argument is outside its range
        impossible: two notches cut at the same height
        missing_argument: there are mowing nights and no today
    Source: uc_ipm_mowamt
    Checked: 8 in comes down to 3 in by cuts to 5.33, 3.56 and 3 in (uc_ipm_mowamt)
    """
    target = number("target_mm", target_mm)
    growth = optional_number("growth_mm_day", growth_mm_day)
    apart = optional_number("days_between", days_between)
    between = USUAL_DAYS if apart is None else whole_down(apart)
    rows = None if notches is None else notches_of(notches)
    highest = optional_number("highest_mm", highest_mm)
    reach = rows[-1][0] if rows else (HIGHEST_MM if highest is None else highest)
    grows = 0.0 if growth is None else growth
    since = optional_number("since_days", since_days)
    ago = None if since is None else whole_down(since)
    nights = None if weekdays is None else weekdays_of(weekdays)
    least = between if nights is None else min(between, LEAST_DAYS)
    cut_on = _pace(nights, least, today)
    first = 0 if ago is None else cut_on(-ago)
    first_mm = number("height_mm", height_mm) + (0.0 if ago is None else grows * (ago + first))
    beyond = not at_least(reach, lowest_cut_mm(height_mm=first_mm))
    steps, reaches = _cuts((first, first_mm), target, grows, cut_on, rows)
    value: dict[str, object] = {"steps": steps, "reaches": reaches, "beyond_mower": beyond, "cuts": len(steps)}
    return value, _working(steps, target, grows, (ago, nights, least), reach)


def _pace(nights: "list[int] | None", least: int, today: "str | None") -> "Callable[[int], int]":
    """The day of the next cut after one on this day, in days from today and never before it."""
    if nights is None:
        return lambda day: max(0, day + least)
    if today is None:
        raise missing(name="today")
    now = day_number("today", today)

    def later(day: int) -> int:
        found = max(0, day + least)
        while not is_night(now + found, nights):
            found += 1
        return found

    return later


def _cuts(
    first: "tuple[int, float]",
    target: float,
    grows: float,
    cut_on: "Callable[[int], int]",
    rows: "list[tuple[float, str]] | None",
) -> "tuple[list[dict[str, object]], bool]":
    """The cuts, and whether the last is to the height wanted; growth that outruns the cuts ends the list."""
    goal = _setting(target, rows)[0]
    found: list[dict[str, object]] = []
    day, before = first
    while len(found) < MOST_CUTS:
        wanted = max(target, lowest_cut_mm(height_mm=before))
        to, name = _setting(wanted, rows)
        to = min(to, before)
        if at_least(to, before) or (found and at_least(to, float(str(found[-1]["to_mm"])))):
            return found, at_least(goal, before)
        found.append(
            {
                "day": day,
                "from_mm": before,
                "to_mm": to,
                "removed_share": 1.0 - to / before,
                "notch": name,
            }
        )
        if at_least(goal, to):
            return found, True
        next_day = cut_on(day)
        before = to + grows * (next_day - day)
        day = next_day
    return found, False


def _setting(wanted: float, rows: "list[tuple[float, str]] | None") -> "tuple[float, str | None]":
    """The height a mower can be set to; where it cannot go so high, the height itself."""
    found = lowest(rows, wanted) if rows else None
    return (wanted, None) if found is None else found


def _working(
    steps: "list[dict[str, Any]]",
    target: float,
    grows: float,
    pace: "tuple[int | None, list[int] | None, int]",
    reach: float,
) -> "list[dict[str, object]]":
    found = []
    ago, nights, least = pace
    before = None if ago is None else -ago
    for at in range(len(steps)):
        one = steps[at]
        number_of = "Cut " + str(at + 1)
        gap = 0 if before is None else one["day"] - before
        found.append(
            _step(
                number_of + ", height before",
                "height after the cut before, and what grows until then",
                {"growth_mm": grows * gap, "days": one["day"]},
                one["from_mm"],
                "mm",
                COMMON,
            )
        )
        found.append(
            _step(
                number_of + ", cut to",
                "two thirds of the height, or the height wanted where that is more; the next notch up",
                {"from_mm": one["from_mm"], "target_mm": target},
                one["to_mm"],
                "mm",
                THIRD_SOURCE,
            )
        )
        numbers = {"cut_to_mm": one["to_mm"], "from_mm": one["from_mm"]}
        words = "1 less height of cut over height"
        found.append(_step(number_of + ", share removed", words, numbers, one["removed_share"], "share", "definition"))
        found.append(_day_step(number_of, one["day"], before, nights is not None, least))
        before = one["day"]
    found.append(
        _step(
            "Cuts",
            "until the height wanted is reached",
            {"target_mm": target, "highest_mm": reach},
            len(steps),
            "cuts",
            "uc_ipm_mowamt",
        )
    )
    return found


def _day_step(number_of: str, day: int, before: "int | None", by_night: bool, least: int) -> "dict[str, object]":
    """Why a cut is on its day."""
    if before is None:
        return _step(number_of + ", day", "today", {"days": day}, day, "day", COMMON)
    words = "the day of the cut before, and so many days; today where that is past"
    if by_night:
        words = "the first mowing night so many days after the cut before, or later"
    return _step(number_of + ", day", words, {"cut_before_day": before, "least_days": least}, day, "day", COMMON)


def _step(
    what: str, formula: str, numbers: "dict[str, object]", result: object, unit: str, source: str
) -> "dict[str, object]":
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source=source)
