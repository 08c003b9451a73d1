"""Too much: at once, over the days of a rule, in a year; of nitrogen, phosphate, lime and the product itself."""

from lawn.engine.core.dates import day_text
from lawn.engine.core.numeric import at_least, total
from lawn.engine.limits.found import LABEL, breach
from lawn.engine.log.too_much import down_within
from lawn.engine.nutrition.ceilings import GENTLE, SHADE_SHARE
from lawn.engine.nutrition.spacing import YEAR_DAYS, YOUNG_DAYS, YOUNG_MOWS
from lawn.engine.nutrition.strictest import strictest

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Rows = list[dict[str, Any]]
    Zone = dict[str, Any]
    Rules = dict[str, list[dict[str, Any]]]

UNKNOWN_GRASS = "unknown"
STARTER_DAYS = 14  # a starter feed may go down so long before the seed (common practice)
LABEL_RULE: "dict[str, Any]" = {"source": LABEL, "looser": None, "date": None}
ROUNDED = 1e-6  # figures of the tables have seven digits, so 0.5 lb twice is not more than 1 lb
ADDED = "what was put down on the zone in those days, added"


def too_much(*, rows: "Rows", zone: "Zone", rules: "Rules", tests: "Rows") -> "Rows":
    """Every application of a zone that brings too much of anything.

    Args:
        rows: applications of the zone, in the order done [list]
        zone: the zone [group of values]
        rules: the rules that hold, by kind [group of values]
        tests: soil tests [list]
    Returns:
        breaches: each with its steps [list]
    Source: definition
    """
    found: Rows = []
    for at, one in enumerate(rows):
        if one["spread"]["at"]:
            found.extend(_nitrogen(rows, at, zone, rules))
            found.extend(_phosphate(rows, at, zone, rules, tests))
            found.extend(_lime(rows, at, rules))
            found.extend(_label(rows, at))
    return found


def _nitrogen(rows: "Rows", at: int, zone: "Zone", rules: "Rules") -> "Rows":
    if not rows[at]["n_kg_m2"]:
        return []
    found: Rows = []
    quick, whole = _row(rules, "quick_once"), _row(rules, "all_once")
    gentle = _row(rules, "gentle_once")
    if gentle is not None and is_gentle(rows=rows, at=at, zone=zone):
        whole = gentle if whole is None or gentle["most_kg_m2"] <= whole["most_kg_m2"] else whole
    found.extend(_over(rows, at, "quick_once", "quick_n_kg_m2", quick, 1.0, _shares(rows[at : at + 1])))
    once = "all_once" if whole is not gentle else "gentle_once"
    found.extend(_over(rows, at, once, "n_kg_m2", whole, 1.0, []))
    for kind, what, most in (("quick_days", "quick_n_kg_m2", quick), ("all_days", "n_kg_m2", whole)):
        row = _row(rules, kind)
        if row is not None and not found:
            found.extend(_days(rows, at, kind, what, row, most))
    found.extend(_year(rows, at, zone, rules))
    slow = _row(rules, "slow_least")
    share = rows[at]["spread"]["slow_n_share"]
    if slow is not None and not at_least(share or 0.0, slow["least_slow_share"]):
        found.append(_one(rows[at], "slow_least", slow, share, slow["least_slow_share"], {"slow_share": share}))
    return found


def _days(rows: "Rows", at: int, kind: str, what: str, row: "dict[str, Any]", most: "dict[str, Any] | None") -> "Rows":
    """What adds up over the days of a rule, against its own figure or that of one application."""
    limit = row["most_kg_m2"] if row["most_kg_m2"] is not None else None if most is None else most["most_kg_m2"]
    if limit is None:
        return []
    held = dict(row)
    held["most_kg_m2"] = limit
    held["looser"] = row["looser"] if most is None else row["looser"] or most["looser"]
    if most is not None and row["most_kg_m2"] is None:
        held["source"] = most["source"]
    days = row["over_days"]
    return _over(rows, at, kind, what, held, days, _shares(rows[: at + 1]) if kind == "quick_days" else [], days)


def _over(
    rows: "Rows",
    at: int,
    kind: str,
    what: str,
    row: "dict[str, Any] | None",
    days: float,
    loosens: "list[str]",
    said: float | None = None,
) -> "Rows":
    if row is None or not rows[at][what]:
        return []
    within = down_within(rows=rows, at=at, what=what, days=days)
    amounts = [one[what] for one in within]
    amount, limit = total(amounts), row["most_kg_m2"]
    if at_least(limit, amount, ROUNDED):
        return []
    ready = None
    if at_least(limit, rows[at][what], ROUNDED) and len(within) > 1:
        ready = day_text(_room(within, what, rows[at][what], limit, days))
    return [
        breach(
            job=rows[at]["spread"],
            kind=kind,
            row=row,
            figure=amount,
            ceiling=limit,
            numbers={"days": [one["spread"]["date"] for one in within], "each_kg_m2": amounts},
            formula=ADDED,
            days=said,
            others=_others(within),
            loosens=loosens,
            ready=ready,
        )
    ]


def _room(within: "Rows", what: str, amount: float, limit: float, days: float) -> int:
    """The first day on which this amount fits with what is then still counted."""
    left = within[:-1]
    while left and not at_least(limit, total([one[what] for one in left] + [amount]), ROUNDED):
        day = left[0]["day"] + int(-(-days // 1))
        left = left[1:]
    return int(day)


def _others(within: "Rows") -> "list[str]":
    return [one["spread"]["id"] for one in within[:-1]]


def _shares(rows: "Rows") -> "list[str]":
    unknown = [one for one in rows if one["n_kg_m2"] and one["spread"]["slow_n_share"] is None]
    return ["slow_share"] if unknown else []


def _year(rows: "Rows", at: int, zone: "Zone", rules: "Rules") -> "Rows":
    """Nitrogen of the calendar year up to the job, or else of the last 365 days, against the strictest ceiling."""
    limits = [row for row in rules.get("year", []) if _for_grass(row, zone)]
    if not limits:
        return []
    figures = [_year_most(row, zone) for row in limits]
    row = dict(limits[strictest(figures)])
    row["most_kg_m2"] = min(figures)
    first = [one for one in rows[: at + 1] if one["spread"]["year"] == rows[at]["spread"]["year"]]
    this_year = _over(first, len(first) - 1, "year", "n_kg_m2", row, 400.0, [])
    return this_year or _over(rows, at, "year", "n_kg_m2", row, YEAR_DAYS[0], [], YEAR_DAYS[0])


def _for_grass(row: "dict[str, Any]", zone: "Zone") -> bool:
    return row["grass"] is None or row["grass"] == (zone["grass"] or UNKNOWN_GRASS)


def _year_most(row: "dict[str, Any]", zone: "Zone") -> float:
    """What a year allows: a law as it stands, what a grass takes by half in shade."""
    most: float = row["most_kg_m2"]
    return most * SHADE_SHARE if zone["shade"] and row["grass"] is not None else most


def is_gentle(*, rows: "Rows", at: int, zone: "Zone") -> bool:
    """Tell whether grass takes little at once: by its kind, or as long as it is young.

    Args:
        rows: applications of the zone, in the order done [list]
        at: place of the one asked about [place]
        zone: the zone [group of values]
    Returns:
        gentle: whether it does [true or false]
    Source: common practice
    """
    return zone["grass"] in GENTLE or is_young(rows=rows, at=at, zone=zone)


def is_young(*, rows: "Rows", at: int, zone: "Zone") -> bool:
    """Tell whether grass was sown lately and not yet mown three times.

    Args:
        rows: applications of the zone, in the order done [list]
        at: place of the one asked about [place]
        zone: the zone [group of values]
    Returns:
        young: whether it is [true or false]
    Source: MAINE-SEED
    """
    one = rows[at]
    sown = [each for each in rows if each["sort"] == "seed" and 0 <= one["day"] - each["day"] < YOUNG_DAYS[0]]
    if not sown:
        return False
    since = sown[-1]["spread"]["moment_s"]
    return len([mow for mow in zone["mows"] if since < mow <= one["spread"]["moment_s"]]) < YOUNG_MOWS[0]


def _phosphate(rows: "Rows", at: int, zone: "Zone", rules: "Rules", tests: "Rows") -> "Rows":
    if not rows[at]["p2o5_kg_m2"]:
        return []
    found: Rows = []
    row = _row(rules, "phosphate")
    if row is not None and not _opened(rows, at, row, tests):
        figure = rows[at]["p2o5_kg_m2"]
        found.append(_one(rows[at], "phosphate", row, figure, 0.0, {"p2o5_kg_m2": figure}, ["soil_test"]))
    found.extend(_over(rows, at, "phosphate_once", "p2o5_kg_m2", _row(rules, "phosphate_once"), 1.0, []))
    if not found:
        year = _row(rules, "phosphate_year")
        found.extend(_over(rows, at, "phosphate_year", "p2o5_kg_m2", year, YEAR_DAYS[0], [], YEAR_DAYS[0]))
    return found


def _opened(rows: "Rows", at: int, row: "dict[str, Any]", tests: "Rows") -> bool:
    """Whether a soil test asks for phosphate, or it goes with a sowing."""
    one = rows[at]
    if one["spread"]["phosphate_needed"] or one["sort"] == "seed":
        return True
    for other in rows:
        if other["sort"] == "seed" and -STARTER_DAYS <= one["day"] - other["day"] < YOUNG_DAYS[0]:
            return True
    days = row["within_years"] * YEAR_DAYS[0]
    for test in tests:
        here = test["zone"] in (None, one["spread"]["zone"]) and 0 <= one["day"] - test["day"] <= days
        if here and (test["phosphate_needed"] or _is_low(test, row)):
            return True
    return False


def _is_low(test: "dict[str, Any]", row: "dict[str, Any]") -> bool:
    if not test["comparable"] or test["p_mg_kg"] is None or row["p_mg_kg"] is None:
        return False
    return at_least(row["p_mg_kg"], test["p_mg_kg"])


def _lime(rows: "Rows", at: int, rules: "Rules") -> "Rows":
    if rows[at]["sort"] != "lime":
        return []
    limed = [one for one in rows[: at + 1] if one["sort"] == "lime"]
    return _over(limed, len(limed) - 1, "lime_once", "rate_kg_m2", _row(rules, "lime_once"), 1.0, [])


def _label(rows: "Rows", at: int) -> "Rows":
    """What the label of the product allows: its rate, uses and amount of a year."""
    one, job = rows[at], rows[at]["spread"]
    same = [each for each in rows[: at + 1] if each["spread"]["product_id"] == job["product_id"]]
    within = [each for each in same if one["day"] - each["day"] < YEAR_DAYS[0]]
    found: Rows = []
    rate, most, uses = one["rate_kg_m2"], job["label_kg_m2"], job["uses_year"]
    if rate is not None and most is not None and not at_least(most, rate, ROUNDED):
        found.append(_one(one, "label_rate", _label_row("label_rate"), rate, most, {"rate_kg_m2": rate}))
    if job["product_id"] is None:
        return found
    if uses is not None and len(within) > uses:
        row = _label_row("label_uses")
        found.append(_one(one, "label_uses", row, float(len(within)), uses, {"others": len(within) - 1}))
    if job["year_kg_m2"] is not None:
        row = _label_row("label_year")
        row["most_kg_m2"] = job["year_kg_m2"]
        found.extend(_over(same, len(same) - 1, "label_year", "rate_kg_m2", row, YEAR_DAYS[0], [], YEAR_DAYS[0]))
    return found


def _label_row(kind: str) -> "dict[str, Any]":
    row = dict(LABEL_RULE)
    row["id"] = kind
    return row


def _row(rules: "Rules", kind: str) -> "dict[str, Any] | None":
    held = rules.get(kind, [])
    return held[0] if held else None


def _one(
    one: "dict[str, Any]",
    kind: str,
    row: "dict[str, Any]",
    figure: float | None,
    ceiling: float | None,
    numbers: "dict[str, object]",
    loosens: "list[str] | None" = None,
) -> "dict[str, Any]":
    return breach(
        job=one["spread"],
        kind=kind,
        row=row,
        figure=figure,
        ceiling=ceiling,
        numbers=numbers,
        formula="as the job has it",
        loosens=loosens,
    )
