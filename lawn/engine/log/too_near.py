"""Two jobs on one zone that lie too near each other, or do not go together at all."""

from lawn.engine.core.numeric import at_least
from lawn.engine.core.working import DEFINITION
from lawn.engine.log.applications import SPRAYED, is_feed, is_quick
from lawn.engine.nutrition.spacing import (
    FEED_DAYS,
    LIME_DAYS,
    LIME_NITROGEN_DAYS,
    PRE_DAYS,
    SOW_DAYS,
    YOUNG_DAYS,
    YOUNG_MOWS,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

# kind, what came first, what came then, days that belong between, source. Where a label says the days, it governs.
RULES = (
    ("interval", "feed", "feed", FEED_DAYS[0], FEED_DAYS[1]),
    ("pre_twice", "pre_emergent", "pre_emergent", PRE_DAYS[0], PRE_DAYS[1]),
    ("seed_after_pre", "pre_emergent", "seed", SOW_DAYS[0], SOW_DAYS[1]),
    ("pre_after_seed", "seed", "pre_emergent", YOUNG_DAYS[0], YOUNG_DAYS[1]),
    ("young", "seed", "post_emergent", YOUNG_DAYS[0], YOUNG_DAYS[1]),
    ("lime_twice", "lime", "lime", LIME_DAYS[0], LIME_DAYS[1]),
    ("lime_nitrogen", "lime", "quick", LIME_NITROGEN_DAYS[0], LIME_NITROGEN_DAYS[1]),
    ("lime_nitrogen", "quick", "lime", LIME_NITROGEN_DAYS[0], LIME_NITROGEN_DAYS[1]),
)
# Kinds that a label's own days take the place of.
BY_LABEL = ("interval", "spacing_quick", "spacing_slow", "pre_twice", "lime_twice")
MOSTLY = 0.5  # a feed counts as slow where at least half of its nitrogen is (common practice)


def too_near(
    *,
    zones: "dict[str, list[dict[str, Any]]]",
    intervals: dict[str, float | None],
    mows: "dict[str, list[float]]",
    rules: "tuple[tuple[str, str, str, float, str], ...]" = RULES,
) -> "list[dict[str, Any]]":
    """Pairs of applications with fewer days between them than belong there, by label or by rule.

    Args:
        zones: applications by zone, in the order done [group of values]
        intervals: least days between applications by product, as entered from the labels [group of values]
        mows: moments of the mows of each zone, in order [group of values]
        rules: kind, what came first, what came then, days between and source; those of the trade when not said [list]
    Returns:
        pairs: each with kind, before and after (walks), zone_id, days_between, interval_days, assumed (true where no
            label says the days), same (one product) and source [list]
    Source: definition
    """
    found: list[dict[str, Any]] = []
    for zone_id in sorted(zones):
        rows = zones[zone_id]
        for at, after in enumerate(rows):
            found.extend(_by_label(zone_id, rows[:at], after, intervals))
            for rule in rules:
                found.extend(_by_rule(zone_id, rows[:at], after, rule, intervals, mows.get(zone_id, [])))
    return found


def _by_label(
    zone_id: str, earlier: "list[dict[str, Any]]", after: "dict[str, Any]", intervals: dict[str, float | None]
) -> "list[dict[str, Any]]":
    product_id = after["spread"]["product_id"] or ""
    least = intervals.get(product_id)
    same = [one for one in earlier if (one["spread"]["product_id"] or "") == product_id]
    if least is None or not same or not after["day"] - same[-1]["day"] < least:
        return []
    return [_pair("interval", zone_id, same[-1], after, least, False, DEFINITION)]


def _by_rule(
    zone_id: str,
    earlier: "list[dict[str, Any]]",
    after: "dict[str, Any]",
    rule: "tuple[str, str, str, float, str]",
    intervals: dict[str, float | None],
    mows: list[float],
) -> "list[dict[str, Any]]":
    kind, first, then, least, source = rule
    if not _is(after, then):
        return []
    fitting = [one for one in earlier if _is(one, first) and not _governed(kind, one, after, intervals)]
    if not fitting or not after["day"] - fitting[-1]["day"] < least:
        return []
    before = fitting[-1]
    if then in SPRAYED and first == "seed" and _mown(before, after, mows) >= YOUNG_MOWS[0]:
        return []
    return [_pair(kind, zone_id, before, after, float(least), True, source)]


def _is(one: "dict[str, Any]", what: str) -> bool:
    if what == "feed":
        return is_feed(one=one)
    if what in ("quick_feed", "slow_feed"):
        return is_feed(one=one) and is_slow(one=one) == (what == "slow_feed")
    if what == "quick":
        return is_quick(one=one) and one["sort"] != "lime"
    return bool(one["sort"] == what)


def is_slow(*, one: "dict[str, Any]") -> bool:
    """Tell whether most of the nitrogen of an application is slow-release.

    Args:
        one: an application [group of values]
    Returns:
        slow: whether at least half of it is known to be [true or false]
    Source: common practice
    """
    n_kg_m2, quick = one["n_kg_m2"], one["quick_n_kg_m2"]
    return n_kg_m2 is not None and quick is not None and at_least(n_kg_m2 * (1.0 - MOSTLY), quick)


def _governed(kind: str, before: "dict[str, Any]", after: "dict[str, Any]", intervals: dict[str, float | None]) -> bool:
    """Whether a label says how many days belong between the two, so that the rule is silent."""
    product_id = after["spread"]["product_id"]
    same = before["spread"]["product_id"] == product_id
    return kind in BY_LABEL and same and intervals.get(product_id or "") is not None


def _mown(before: "dict[str, Any]", after: "dict[str, Any]", mows: list[float]) -> int:
    """Mows noted between the two."""
    return len([at for at in mows if before["spread"]["moment_s"] < at <= after["spread"]["moment_s"]])


def _pair(
    kind: str,
    zone_id: str,
    before: "dict[str, Any]",
    after: "dict[str, Any]",
    least: float,
    assumed: bool,
    source: str,
) -> "dict[str, Any]":
    return {
        "kind": kind,
        "zone_id": zone_id,
        "before": before["spread"],
        "after": after["spread"],
        # Two time zones may write the later one with the earlier date.
        "days_between": max(0, after["day"] - before["day"]),
        "interval_days": least,
        "assumed": assumed,
        "same": before["spread"]["product_id"] == after["spread"]["product_id"],
        "source": source,
    }
