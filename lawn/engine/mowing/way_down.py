"""Bringing long grass down, cut by cut, each taking no more than a third."""

from lawn.engine.core.numeric import at_least, number, optional_number, whole_down
from lawn.engine.core.working import COMMON, step
from lawn.engine.mowing.cut import HIGHEST_MM, THIRD_SOURCE, lowest_cut_mm
from lawn.engine.mowing.notch import lowest, notches_of

MOST_CUTS = 30
USUAL_DAYS = 3  # between cuts: twice a week (common practice)


def way_down(
    *,
    height_mm: float,
    target_mm: float,
    growth_mm_day: float | None = None,
    days_between: float | None = None,
    highest_mm: float | None = None,
    notches: object = None,
    since_days: float | None = None,
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
    grown = 0.0 if growth is None else growth * between
    since = optional_number("since_days", since_days)
    wait = 0 if since is None else max(0, between - whole_down(since))
    first_mm = number("height_mm", height_mm)
    if since is not None and growth is not None:
        first_mm += growth * (whole_down(since) + wait)
    beyond = not at_least(reach, lowest_cut_mm(height_mm=first_mm))
    steps, reaches = _cuts(first_mm, target, grown, rows)
    for at in range(len(steps)):
        steps[at]["day"] = wait + at * between
    value: dict[str, object] = {"steps": steps, "reaches": reaches, "beyond_mower": beyond, "cuts": len(steps)}
    return value, _working(steps, target, grown, between, reach, wait)


def _cuts(
    height: float, target: float, grown: float, rows: "list[tuple[float, str]] | None"
) -> "tuple[list[dict[str, object]], bool]":
    """The cuts, and whether the last is to the height wanted; growth that outruns the cuts ends the list."""
    goal = _setting(target, rows)[0]
    found: list[dict[str, object]] = []
    before = height
    while len(found) < MOST_CUTS:
        wanted = max(target, lowest_cut_mm(height_mm=before))
        to, name = _setting(wanted, rows)
        to = min(to, before)
        if at_least(to, before) or (found and at_least(to, float(str(found[-1]["to_mm"])))):
            return found, at_least(goal, before)
        found.append(
            {
                "from_mm": before,
                "to_mm": to,
                "removed_share": 1.0 - to / before,
                "notch": name,
            }
        )
        if at_least(goal, to):
            return found, True
        before = to + grown
    return found, False


def _setting(wanted: float, rows: "list[tuple[float, str]] | None") -> "tuple[float, str | None]":
    """The height a mower can be set to; where it cannot go so high, the height itself."""
    found = lowest(rows, wanted) if rows else None
    return (wanted, None) if found is None else found


def _working(
    steps: "list[dict[str, object]]", target: float, grown: float, between: int, reach: float, wait: int
) -> "list[dict[str, object]]":
    found = []
    for at in range(len(steps)):
        one = steps[at]
        number_of = "Cut " + str(at + 1)
        found.append(
            _step(
                number_of + ", height before",
                "height after the cut before, and what grows until then",
                {"growth_mm": grown, "days": one["day"]},
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
        words = "days still to wait since the last cut, and days from cut to cut times the cuts before"
        numbers = {"wait_days": wait, "days_between": between, "cuts_before": at}
        found.append(_step(number_of + ", day", words, numbers, one["day"], "day", COMMON))
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


def _step(
    what: str, formula: str, numbers: "dict[str, object]", result: object, unit: str, source: str
) -> "dict[str, object]":
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source=source)
