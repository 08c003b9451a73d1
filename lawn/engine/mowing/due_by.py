"""When the grass will want cutting: the day by which a cut still takes no more than a third."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import choice, number, optional_number, whole_down
from lawn.engine.core.working import step
from lawn.engine.mowing import ahead, grid
from lawn.engine.mowing.cut import mow_at_mm
from lawn.engine.mowing.learn import CUT_ERROR_MM, LIKELY, best_of
from lawn.engine.mowing.state import days_of, state_of
from lawn.engine.warmth.response import TURFS, chance_below

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

CHANCES = (("earliest", 0.1), ("mow_by", 0.5), ("latest", 0.9))  # between the outer two lie 80 %
STATE_DAYS = 7
GOOD_SHARE, SLOW_SHARE = 0.5, 0.1  # of the best growth (gs_use)
WORDS = {"earliest": "1 in 10", "mow_by": "1 in 2", "latest": "9 in 10"}
AFTER = {"earliest": "earliest_after_days", "mow_by": "after_days", "latest": "latest_after_days"}


def next_mow(
    *,
    turf: str,
    target_mm: float,
    cut: str,
    cut_mm: float,
    days: object,
    belief: object = None,
    error_mm: float | None = None,
    feeds: object = None,
    today: str | None = None,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """When the grass will have grown so high that a cut to the height wanted takes a third.

    Args:
        turf: season of the grass [one of cool, warm]
        target_mm: height of cut wanted [mm; 2 to 200]
        cut: day of the last cut, or of the last look since [date]
        cut_mm: height it was cut to, or height seen [mm; 2 to 500]
        days: every day from the cut on, past ones and forecast ones, and beyond them the climate's [list]
        days.date: the day [date]
        days.mean_c: mean temperature of the air [C; -60 to 60]
        days.sd_c?: likely error of it: of a forecast day, or of the climate [K; 0 to 15]
        days.water_share?: share of its water that the grass gets; all when not said [share; 0 to 1]
        belief?: what mowing.learn answered; without it the forecast is a wide one [group of values as mowing.learn]
        error_mm?: likely error of cut_mm; 2 when not said [mm; 0.5 to 100]
        feeds?: feeds of this lawn, those of two months before with them [list]
        feeds.date: day it was spread [date]
        feeds.n_kg_m2: its nitrogen [kg/m2; 0 to 5]
        feeds.slow_share?: slow-release share of it; none when not said [share; 0 to 1]
        today?: day asked about; the first day after the cut when not said [date]
    Returns:
        mow_at_mm: height at which a cut to the height wanted takes a third [mm]
        mow_by: last day on which it is likely no higher; null where that is beyond the days given [date or null]
        earliest: the same but for 1 chance in 10 [date or null]
        latest: the same but for 9 chances in 10 [date or null]
        after_days: days from the cut until it is that high, as likely sooner as later [day or null]
        earliest_after_days: the same, 1 in 10 sooner [day or null]
        latest_after_days: the same, 1 in 10 later [day or null]
        height_mm: height at the end of each day [list]
        height_mm.date: the day [date]
        height_mm.low: 1 in 10 below [mm]
        height_mm.mid: expected [mm]
        height_mm.high: 1 in 10 above [mm]
        height_mm.removed_share: what a cut to the height wanted would take then [share]
        state: how the coming week lets it grow [one of good, slowed, nearly_stopped]
        growing_again: first day of the list after the coming week that lets it grow, where that week does
            not [date or null]
    Raises:
        out_of_range: an argument is outside its range
        impossible: days are left out, or they do not begin with the cut or the day after
    Source: computed
    Checked: growing 5.4 mm a day, grass cut to 76 mm is due after 7 days (unl_growth)
    """
    kind = choice("turf", turf, TURFS)
    start = {
        "target_mm": number("target_mm", target_mm),
        "mm": number("cut_mm", cut_mm),
        "error_mm": optional_number("error_mm", error_mm),
    }
    first, rows = days_of(days, kind, feeds)
    cut_day = day_number("cut", cut)
    rows = _after(cut, cut_day, first, rows)
    now = cut_day + 1 if today is None else day_number("today", today)
    return due_from(start, cut_day, rows, state_of(kind, belief)["rows"], now)


def due_from(
    start: "dict[str, Any]",
    cut_day: int,
    rows: "list[list[tuple[float, float, float]]]",
    answers: "list[list[float]]",
    today: int,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """The same, of the days after the cut, whose growth is known."""
    target, start_mm, error = start["target_mm"], start["mm"], start["error_mm"]
    now = max(cut_day + 1, today)
    weights = grid.weights(answers)
    found = _ahead(answers, weights, start_mm, CUT_ERROR_MM if error is None else error, rows, target)
    value: dict[str, Any] = {"mow_at_mm": found["limit_mm"]}
    for name, _ in CHANCES:
        after = found[name]
        value[name] = None if after is None else day_text(cut_day + whole_down(after))
        value[AFTER[name]] = after
    value["height_mm"] = _said(found["heights"], cut_day, start_mm, target)
    value["state"], value["growing_again"], share = _state(rows, weights, cut_day, now)
    return value, _working(value, found, best_of(answers, weights), share, start_mm, target)


def _after(
    cut: str, cut_day: int, first: int, rows: "list[list[tuple[float, float, float]]]"
) -> "list[list[tuple[float, float, float]]]":
    """The days after the cut; the cut's own is left out, since it was cut in its evening."""
    skipped = cut_day + 1 - first
    if not 0 <= skipped < len(rows):
        message = "The days must begin with the day of the cut or the day after, and go on beyond it."
        raise impossible(name="cut", value=cut, message=message, low=day_text(first - 1), high=day_text(first))
    return rows[skipped:]


def _ahead(
    answers: "list[list[float]]",
    weights: list[float],
    start_mm: float,
    error_mm: float,
    rows: "list[list[tuple[float, float, float]]]",
    target_mm: float,
) -> "dict[str, Any]":
    limit = mow_at_mm(target_mm=target_mm)
    by_day = ahead.heights(answers, start_mm, error_mm, rows)
    begin = chance_below((start_mm - limit) / error_mm)
    chances, most = [], begin
    for day in by_day:
        if most < 0.999:  # grass does not shrink: once it is that high it stays so
            most = max(most, ahead.reached(weights, day, limit))
        chances.append(most)
    found: dict[str, Any] = {"limit_mm": limit, "heights": [ahead.moments(weights, day) for day in by_day]}
    for name, chance in CHANCES:
        found[name] = ahead.days_until(begin, chances, chance)
    return found


def _said(
    heights: "list[tuple[float, float]]", cut_day: int, start_mm: float, target_mm: float
) -> "list[dict[str, object]]":
    found: list[dict[str, object]] = []
    for at in range(len(heights)):
        mid, sd = heights[at]
        found.append(
            {
                "date": day_text(cut_day + 1 + at),
                "low": max(min(start_mm, mid), mid - LIKELY * sd),
                "mid": mid,
                "high": mid + LIKELY * sd,
                "removed_share": max(0.0, 1.0 - target_mm / mid),
            }
        )
    return found


def _state(
    rows: "list[list[tuple[float, float, float]]]", weights: list[float], cut_day: int, today: int
) -> "tuple[str, str | None, float]":
    """How the week from today lets the grass grow, and from when on where it does not."""
    begin = min(today - cut_day - 1, len(rows) - 1)
    share = _share(rows[begin : begin + STATE_DAYS], weights)
    if share > SLOW_SHARE:
        return ("good" if share >= GOOD_SHARE else "slowed"), None, share
    for at in range(begin + 1, len(rows)):
        if _share(rows[at : at + STATE_DAYS], weights) > SLOW_SHARE:
            return "nearly_stopped", day_text(cut_day + 1 + at), share
    return "nearly_stopped", None, share


def _share(rows: "list[list[tuple[float, float, float]]]", weights: list[float]) -> float:
    found = 0.0
    for row in rows:
        for at in range(len(weights)):
            found += weights[at] * row[at][0]
    return found / len(rows)


def _working(
    value: "dict[str, Any]",
    found: "dict[str, Any]",
    best: float,
    share: float,
    start_mm: float,
    target_mm: float,
) -> "list[dict[str, object]]":
    limit = found["limit_mm"]
    last = found["heights"][-1]
    steps = [
        step(
            what="Mow at",
            formula="height wanted over two thirds",
            numbers={"target_mm": target_mm},
            result=limit,
            unit="mm",
            source="isu_third",
        ),
        step(
            what="Growth of a day at its best",
            formula="as learnt from heights read, else 5.5 mm",
            numbers={"answers": grid.ROWS},
            result=best,
            unit="mm",
            source="computed",
        ),
        step(
            what="Share of it in the coming week",
            formula="answers to temperature and water, each counting by how well it foretold what was seen",
            numbers={"days": STATE_DAYS},
            result=share,
            unit="share",
            source="woods_2014",
        ),
        step(
            what="Height expected at the end of the days given",
            formula="height after the cut and the growth of all days added",
            numbers={"cut_mm": start_mm, "days": len(found["heights"])},
            result=last[0],
            unit="mm",
            source="computed",
        ),
        step(
            what="Likely error of that height",
            formula="root of the squares of what is not known: growth at its best, weather to come, the cut, the rest",
            numbers={"days": len(found["heights"])},
            result=last[1],
            unit="mm",
            source="computed",
        ),
    ]
    for name, chance in CHANCES:
        numbers: dict[str, object] = {"chance_share": chance, "mow_at_mm": limit, "cut_mm": start_mm}
        words = "from the cut until the chance that it is so high reaches " + WORDS[name]
        steps.append(_of("Days, " + WORDS[name], words, numbers, value[AFTER[name]], "day"))
        words = "the day of the cut and those days, rounded down; none where the days given end before"
        steps.append(_of("Last day before, " + WORDS[name], words, numbers, value[name], "date"))
    return steps


def _of(what: str, formula: str, numbers: "dict[str, object]", result: object, unit: str) -> "dict[str, object]":
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source="computed")
