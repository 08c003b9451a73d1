"""What a lawn's growth has shown so far, learnt from heights that people read."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import choice, listing, number, optional_number
from lawn.engine.core.rows import rows_of
from lawn.engine.core.working import step
from lawn.engine.mowing import ahead, grid
from lawn.engine.mowing.state import days_of, said, state_of
from lawn.engine.warmth.response import TURFS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_LOOKS = 400
RULER_ERROR_MM = 3.0  # a ruler in grass, and the mower's own height (common practice)
CUT_ERROR_MM = 2.0  # how evenly a mower cuts to its setting (common practice)
LIKELY = 1.2815515655446004  # so many likely errors to either side hold 80 %


def learn(
    *, turf: str, seen: object, days: object, feeds: object = None, belief: object = None
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """What heights read so far tell of how fast a lawn grows.

    Args:
        turf: season of the grass [one of cool, warm]
        seen: heights read after cuts, in any order; may be empty [list]
        seen.cut: day of the cut before [date]
        seen.cut_mm: height it was cut to [mm; 2 to 500]
        seen.looked: day the height was read, before any cut of that day [date]
        seen.height_mm: height of the grass [mm; 2 to 2000]
        seen.error_mm?: likely error of that height; 3 by ruler when not said [mm; 0.5 to 100]
        days: every day from the first cut on, up to the last look at least [list]
        days.date: the day [date]
        days.mean_c: mean temperature of the air [C; -60 to 60]
        days.sd_c?: likely error of it; 0 when not said [K; 0 to 15]
        days.water_share?: share of its water that the grass got; all when not said [share; 0 to 1]
        feeds?: feeds of this lawn, those of two months before the first cut with them [list]
        feeds.date: day it was spread [date]
        feeds.n_kg_m2: its nitrogen [kg/m2; 0 to 5]
        feeds.slow_share?: slow-release share of it; none when not said [share; 0 to 1]
        belief?: what an earlier call answered; looks up to its day are in it already [group of values]
        belief.turf: season of the grass it is of [one of cool, warm]
        belief.day: last look in it, null before the first [date or null]
        belief.looks: looks in it [count; 0 to 100000]
        belief.numbers: its state [list of numbers]
    Returns:
        belief: hand it to mowing.next and to the next mowing.learn [group of values]
        belief.turf: season of the grass [one of cool, warm]
        belief.day: last look in it, null before the first [date or null]
        belief.looks: looks in it [count]
        belief.numbers: its state [list of numbers]
        growth_mm_day: growth on the last day given, 80 % likely between low and high [mm; low, mid and high]
    Raises:
        out_of_range: an argument is outside its range
        impossible: days are left out, or a look is before its cut or not among the days
    Source: computed
    Checked: with no look the growth of a day at its best is 5.5 mm (computed)
    """
    kind = choice("turf", turf, TURFS)
    first, rows = days_of(days, kind, feeds)
    return taught(kind, seen, first, rows, belief)


def taught(
    kind: str, seen: object, first: int, rows: "list[list[tuple[float, float, float]]]", belief: object = None
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """The same, of days whose growth is known."""
    state = state_of(kind, belief)
    looks = _looks(seen, first, len(rows), state["day"])
    answers = state["rows"]
    for looked, cut, grown, error in looks:
        _see(answers, state["day"], looked, rows[cut + 1 - first : looked + 1 - first], grown, error)
        state["day"], state["looks"] = looked, state["looks"] + 1
    weights = grid.weights(answers)
    growth = growth_now(answers, weights, rows[-1])
    value: dict[str, object] = {"belief": said(state), "growth_mm_day": growth}
    return value, _working(looks, state, growth, weights, rows[-1])


def _looks(seen: object, first: int, count: int, since: "int | None") -> "list[tuple[int, int, float, float]]":
    """Looks that are not in the belief yet, by day: day looked, day cut, growth, its error."""
    found: list[tuple[int, int, float, float]] = []
    if not listing("seen", seen, 0, MOST_LOOKS):
        return found
    rows = rows_of("seen", seen, ("cut", "cut_mm", "looked", "height_mm", "error_mm"), MOST_LOOKS)
    for at in range(len(rows)):
        path, row = "seen[" + str(at) + "].", rows[at]
        cut, looked = day_number(path + "cut", row.get("cut")), day_number(path + "looked", row.get("looked"))
        if looked <= cut:
            raise impossible(
                name=path + "looked", value=row.get("looked"), message="A height is read after the cut, not before."
            )
        grown = number(path + "height_mm", row.get("height_mm")) - number(path + "cut_mm", row.get("cut_mm"))
        error = optional_number(path + "error_mm", row.get("error_mm"))
        error = RULER_ERROR_MM if error is None else error
        if since is None or looked > since:
            _among(path, row, cut + 1, looked, first, first + count - 1)
            found.append((looked, cut, grown, error))
    return sorted(found)


def _among(path: str, row: "dict[str, Any]", begin: int, end: int, first: int, last: int) -> None:
    if begin < first or end > last:
        raise impossible(
            name=path + ("cut" if begin < first else "looked"),
            value=row["cut" if begin < first else "looked"],
            message="The days between this cut and this look are not all among the days given.",
            low=day_text(first - 1),
            high=day_text(last),
        )


def _see(
    answers: "list[list[float]]",
    before: "int | None",
    looked: int,
    days: "list[list[tuple[float, float, float]]]",
    grown: float,
    error: float,
) -> None:
    if before is not None:
        grid.wait(answers, (looked - before) / 7.0)
    sums = []
    for at in range(len(answers)):
        plain, fed = 0.0, 0.0
        for day in days:
            plain += day[at][0]
            fed += day[at][1]
        sums.append((plain, fed, 0.0))
    variance = error * error + CUT_ERROR_MM * CUT_ERROR_MM
    grid.look(answers, sums, grown, variance**0.5)


def growth_now(
    answers: "list[list[float]]", weights: list[float], day: "list[tuple[float, float, float]]"
) -> dict[str, float]:
    """Growth of a day with its 80 % range."""
    one_day = ahead.heights(answers, 0.0, 0.0001, [day])[0]
    mean, sd = ahead.moments(weights, one_day)
    return {"low": max(0.0, mean - LIKELY * sd), "mid": mean, "high": mean + LIKELY * sd}


def best_of(answers: "list[list[float]]", weights: list[float]) -> float:
    """Growth of a day at its best, over all rows."""
    found = 0.0
    for at in range(len(answers)):
        found += weights[at] * answers[at][1]
    return found


def _working(
    looks: "list[tuple[int, int, float, float]]",
    state: "dict[str, Any]",
    growth: dict[str, float],
    weights: list[float],
    day: "list[tuple[float, float, float]]",
) -> "list[dict[str, object]]":
    best = best_of(state["rows"], weights)
    share = 0.0
    for at in range(len(weights)):
        share += weights[at] * day[at][0]
    steps = [
        step(
            what="Looks learnt from",
            formula="those before and those new",
            numbers={"new": len(looks)},
            result=state["looks"],
            unit="looks",
            source="computed",
        ),
        step(
            what="Growth of a day at its best",
            formula="begins wide at 5.5 mm; each look moves it by its error against what was known",
            numbers={"grown_mm": [one[2] for one in looks], "error_mm": [one[3] for one in looks]},
            result=best,
            unit="mm",
            source="computed",
        ),
        step(
            what="Share of it that the last day's warmth and water allow",
            formula="answers to temperature with optimum 17, 20 or 23 C (warm-season 28, 31 or 34 C), each counting "
            "by how well it foretold what was seen",
            numbers={"answers": len(weights)},
            result=share,
            unit="share",
            source="woods_2014",
        ),
    ]
    for name, words in (("mid", "expected"), ("low", "1 in 10 below"), ("high", "1 in 10 above")):
        steps.append(
            step(
                what="Growth on the last day, " + words,
                formula="growth at its best times that share, and what feeds add; 1.28 likely errors to either side",
                numbers={"best_mm": best, "share": share},
                result=growth[name],
                unit="mm",
                source="computed",
            )
        )
    return steps
