"""After a feed: from when to when its colour is expected, by its kind and the warmth of the soil."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import choice, number
from lawn.engine.core.rows import column, rows_of, unbroken
from lawn.engine.core.working import COMMON, step
from lawn.engine.nutrition.kinds import KINDS, between, pace

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_DAYS = 400
QUICK_FROM = 0.3  # a feed so quick shows by its quick part (common practice)
AT_C = 17.8  # 64 F: the soil at which the days of slow feeds are told
# Days from a feed to its colour at AT_C, soonest and latest. Soluble: within days to a week (cornell_n). Natural: 7 to
# 12 days. Others: common practice, between the two and what is printed of how long they feed.
DAYS = {
    "soluble": (3.0, 7.0, "cornell_n"),
    "sulfur_coated": (7.0, 14.0, COMMON),
    "polymer_coated": (10.0, 21.0, COMMON),
    "ibdu": (14.0, 28.0, COMMON),
    "condensed": (10.0, 21.0, COMMON),
    "natural": (7.0, 12.0, COMMON),
}
# Soonest, by what people see: nothing under 55 F, the days of the trade above it, sooner the warmer.
SOONEST = ((12.79, 0.0), (12.8, 0.6), (AT_C, 1.0), (28.0, 1.6))
BY_MICROBES = ("condensed", "natural")
GROWS = ((4.0, 0.0), (10.0, 1.0))  # a quick feed waits for grass that grows at all
SAYS = {
    "quick": "Quick nitrogen shows within days to a week.",
    "slow": "Slow nitrogen shows as it comes free, sooner in warm soil.",
    "waits": "It waits for warmer soil. Look again when the soil has warmed up.",
    "not_known": "The soil of the coming days is not known far enough to say when it is over.",
}


def green_up(
    *, source: str, slow_n_share: float, applied: str, days: list[object]
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """From when to when the colour of a feed is expected.

    The soonest day goes by what people see (7 to 12 days for a natural feed once soil is over 55 F), the latest by the
    published release, which is slow until the 60s F. So the range is wide in cool soil, and narrow in warm.

    Args:
        source: kind of its slow nitrogen [one of soluble, sulfur_coated, polymer_coated, condensed, ibdu, natural]
        slow_n_share: slow-release share of its nitrogen [share; 0 to 1]
        applied: day it was put down [date]
        days: soil of every day from then on, measured or forecast, none left out; days before it do no harm [list]
        days.date: the day [date]
        days.soil_c: mean soil temperature [C; -40 to 60]
    Returns:
        from: the soonest day, null where it waits beyond the days told [date or null]
        to: the latest day, null where it lies beyond the days told [date or null]
        why: what it goes by [one of quick, slow, waits, not_known]
        says: the same in a sentence [text]
        least_days: days to the soonest; null likewise [day or null]
        most_days: days to the latest; null likewise [day or null]
    Raises:
        out_of_range: a number is outside its range
        impossible: a day is left out, or the days begin after the feed
        not_a_choice: the source is none of those known
    Source: cornell_n
    Checked: soluble nitrogen is seen within days to a week (cornell_n)
    """
    kind, slow = choice("source", source, KINDS), number("slow_n_share", slow_n_share)
    rows = rows_of("days", days, ("date", "soil_c"), MOST_DAYS)
    first, soil = unbroken("days", rows), column("days", rows, "soil_c")
    day = day_number("applied", applied)
    if not first <= day < first + len(soil):
        message = "The days of soil must hold the day of the feed."
        raise impossible(name="applied", value=applied, message=message)
    shown = "soluble" if kind == "soluble" or 1.0 - slow >= QUICK_FROM else kind
    least, most, key = DAYS[shown]
    after = soil[day - first + 1 :]
    soonest = _reached(shown, after, least, True)
    latest = None if soonest is None else _reached(shown, after, most, False)
    why = _why(shown, soonest, latest)
    value: dict[str, object] = {
        "from": None if soonest is None else day_text(day + soonest),
        "to": None if latest is None else day_text(day + latest),
        "why": why,
        "says": SAYS[why],
        "least_days": soonest,
        "most_days": latest,
    }
    return value, _working(shown, after, (least, soonest), (most, latest), key)


def _why(shown: str, soonest: int | None, latest: int | None) -> str:
    if soonest is None:
        return "waits"
    if latest is None:
        return "not_known"
    return "quick" if shown == "soluble" else "slow"


def _reached(shown: str, after: "list[float]", days: float, soonest: bool) -> int | None:
    """How many days it takes until the paces of the days add up to so many days at AT_C."""
    done = 0.0
    for at, soil_c in enumerate(after):
        done += _pace(shown, soil_c, soonest)
        if done >= days - 1e-9:
            return at + 1
    return None


def _pace(shown: str, soil_c: float, soonest: bool) -> float:
    if shown == "soluble":
        return between(table=GROWS, at=soil_c)
    if soonest and shown in BY_MICROBES:
        return between(table=SOONEST, at=soil_c)
    return pace(source=shown, soil_c=soil_c) / _at(shown)


def _at(shown: str) -> float:
    return pace(source=shown, soil_c=AT_C)


def _working(
    shown: str,
    after: "list[float]",
    least: "tuple[float, int | None]",
    most: "tuple[float, int | None]",
    key: str,
) -> "list[dict[str, object]]":
    steps = []
    for what, pair, soonest in (("soonest", least, True), ("latest", most, False)):
        paces = [_pace(shown, soil_c, soonest) for soil_c in after]
        numbers: dict[str, Any] = {"days_at_64_f": pair[0], "soil_c": after, "pace": paces}
        steps.append(
            step(
                what="Days to its colour, " + what,
                formula="until the paces of the days add up to the days told at 64 F",
                numbers=numbers,
                result=pair[1],
                unit="days",
                source=key,
            )
        )
    return steps
