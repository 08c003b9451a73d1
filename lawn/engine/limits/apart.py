"""Too near: two jobs on one zone with fewer days between them than a label or a rule has."""

from lawn.engine.core.dates import day_text
from lawn.engine.limits.amounts import LABEL_RULE
from lawn.engine.limits.found import breach
from lawn.engine.log.too_near import too_near

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

# Kind of rule: what came first, what came then. A pair in both orders stands twice.
PAIRS = (
    ("spacing_quick", "quick_feed", "feed"),
    ("spacing_slow", "slow_feed", "feed"),
    ("pre_twice", "pre_emergent", "pre_emergent"),
    ("seed_after_pre", "pre_emergent", "seed"),
    ("pre_after_seed", "seed", "pre_emergent"),
    ("young", "seed", "post_emergent"),
    ("lime_twice", "lime", "lime"),
    ("lime_nitrogen", "lime", "quick"),
    ("lime_nitrogen", "quick", "lime"),
)
FORMULA = "days between the two, against the least days between them"


def apart(
    *, zone_id: str, rows: "list[dict[str, Any]]", zone: "dict[str, Any]", rules: "dict[str, list[dict[str, Any]]]"
) -> "list[dict[str, Any]]":
    """Every job of a zone that follows another too soon.

    Args:
        zone_id: the zone [text]
        rows: its applications, in the order done [list]
        zone: the zone [group of values]
        rules: the rules that hold, by kind [group of values]
    Returns:
        breaches: each with its steps [list]
    Source: definition
    """
    intervals = {one["spread"]["product_id"] or "": one["spread"]["interval_days"] for one in rows}
    held = [(pair, rules[pair[0]][0]) for pair in PAIRS if rules.get(pair[0])]
    asked = tuple((pair[0], pair[1], pair[2], row["over_days"], row["source"]) for pair, row in held)
    known = {pair[0]: row for pair, row in held}
    found = []
    for pair in too_near(zones={zone_id: rows}, intervals=intervals, mows={zone_id: zone["mows"]}, rules=asked):
        if pair["after"]["at"] and not _allowed(pair):
            found.append(_breach(pair, known))
    return found


def _allowed(pair: "dict[str, Any]") -> bool:
    """Whether the label of a pre-emergent gives days to sowing of its own, and they have passed."""
    own = pair["before"]["seed_wait_days"] if pair["kind"] == "seed_after_pre" else None
    return own is not None and pair["days_between"] >= own


def _breach(pair: "dict[str, Any]", known: "dict[str, dict[str, Any]]") -> "dict[str, Any]":
    kind = "label_interval" if pair["kind"] == "interval" else pair["kind"]
    row, days = known.get(kind), pair["interval_days"]
    own = pair["before"]["seed_wait_days"] if kind == "seed_after_pre" else None
    if row is None or own is not None:
        row = dict(LABEL_RULE)
        row["id"], days = kind, days if own is None else own
    before = pair["before"]
    return breach(
        job=pair["after"],
        kind=kind,
        row=row,
        figure=float(pair["days_between"]),
        ceiling=days,
        numbers={"least_days": days, "before": before["date"]},
        formula=FORMULA,
        days=days,
        others=[before["id"]] if before["at"] else [],
        loosens=["mows"] if kind in ("pre_after_seed", "young") else [],
        ready=day_text(before["day"] + int(-(-days // 1))),
    )
