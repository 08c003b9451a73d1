"""A breach: what it holds, how it reads, and the working beside it."""

from lawn.engine.core.working import DEFINITION, N_UNIT, step

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

LABEL = "label"
# What is held against the rule, unit, and the sentence: what to do, then why. Figures stand beside it, in the person's
# own units; days are the same in both.
SAYS: "dict[str, tuple[str, str, str]]" = {
    "quick_once": (
        "Nitrogen, quick, at once",
        N_UNIT,
        "Put down less. This is more quick nitrogen than goes on at once.",
    ),
    "all_once": ("Nitrogen at once", N_UNIT, "Put down less. This is more nitrogen than goes on at once."),
    "gentle_once": (
        "Nitrogen at once on gentle or new grass",
        N_UNIT,
        "Put down less. This grass takes little nitrogen at once.",
    ),
    "quick_days": (
        "Nitrogen, quick, over the days of the rule",
        N_UNIT,
        "Wait, or put down less. Quick nitrogen adds up over {days} days, whoever put it down.",
    ),
    "all_days": (
        "Nitrogen over the days of the rule",
        N_UNIT,
        "Wait, or put down less. Nitrogen adds up over {days} days, whoever put it down.",
    ),
    "year": (
        "Nitrogen of a year",
        N_UNIT,
        "Leave this out, or put down less. The zone would get more nitrogen than a year allows.",
    ),
    "slow_least": (
        "Slow-release share of the nitrogen",
        "share",
        "Use a product with more slow-release nitrogen. The rule here asks for it.",
    ),
    "phosphate": (
        "Phosphate (P2O5) without a soil test or sowing",
        "kg/m2",
        "Use a product without phosphate. It needs a soil test that asks for it, or new seed.",
    ),
    "phosphate_once": (
        "Phosphate (P2O5) at once",
        "kg/m2",
        "Put down less. This is more phosphate than goes on at once.",
    ),
    "phosphate_year": (
        "Phosphate (P2O5) of a year",
        "kg/m2",
        "Leave this out, or put down less. The zone would get more phosphate than a year allows.",
    ),
    "label_interval": (
        "Days since the same product",
        "days",
        "Too soon by the label. Wait {days} days between two uses of this product.",
    ),
    "label_uses": ("Uses in a year", "uses", "Leave this out. The label allows no more uses in a year."),
    "label_year": (
        "Product of a year",
        "kg/m2",
        "Leave this out, or put down less. The label allows no more of it in a year.",
    ),
    "label_rate": ("Product at once", "kg/m2", "Put down less. This is more than the rate of the label."),
    "spacing_quick": ("Days since a quick feed", "days", "Too soon after the last feed. Wait {days} days."),
    "spacing_slow": (
        "Days since a slow-release feed",
        "days",
        "Too soon after the last feed. It is slow-release, so wait {days} days.",
    ),
    "closed": ("", "", "Move this job. Feeding is closed here on this day of the year."),
    "summer_ban": ("", "", "Move this job. Feeding is banned here in summer."),
    "pesticide_ban": (
        "",
        "",
        "Leave this out. Home use of it is banned here, or needs a license.",
    ),
    "water": (
        "Ground kept clear of water",
        "m",
        "Keep clear of the water. Nothing goes on the strip beside it.",
    ),
    "frozen": ("Soil temperature", "C", "Wait. The ground is frozen, and what you put down would wash off."),
    "saturated": ("Rain of the last days", "mm", "Wait until the ground drains. Rain would wash the product off."),
    "heat": (
        "Mean air of the last week",
        "C",
        "Wait for cooler days, or use a slow-release feed. Quick nitrogen burns grass in heat.",
    ),
    "cold": (
        "Mean soil of the last three days",
        "C",
        "Wait for warmer soil. This grass cannot use quick nitrogen yet.",
    ),
    "drought": (
        "Rain of the last two weeks",
        "mm",
        "Water first, or wait for rain. Quick nitrogen burns dry grass.",
    ),
    "water_in": (
        "Rain of the day",
        "mm",
        "Water it in on the same day. Quick nitrogen left on the leaves burns them.",
    ),
    "seed_after_pre": (
        "Days since the pre-emergent",
        "days",
        "Wait {days} days from the pre-emergent, or as its label says. It stops grass seed too.",
    ),
    "pre_after_seed": (
        "Days since sowing",
        "days",
        "Wait for three mows or {days} days. A pre-emergent can kill seedlings.",
    ),
    "young": ("Days since sowing", "days", "Wait for three mows or {days} days. Weed killer can hurt new grass."),
    "pre_twice": (
        "Days since the pre-emergent",
        "days",
        "Wait {days} days, or as the label says. The first one still works.",
    ),
    "lime_once": ("Lime at once", "kg/m2", "Put down less. Spread the rest of the lime half a year later."),
    "lime_twice": ("Days since liming", "days", "Wait {days} days between two limings."),
    "lime_nitrogen": (
        "Days between lime and quick nitrogen",
        "days",
        "Keep lime and quick nitrogen {days} days apart. Lime drives the nitrogen into the air.",
    ),
}
LOOSENS = {
    "place": "Say where your yard is. Some places allow more.",
    "local_rule": "Enter your local rule. Some places allow more.",
    "soil_test": "A soil test of the last {years} years that asks for phosphorus allows it.",
    "slow_share": "Enter the slow-release share from the label. Until then all nitrogen counts as quick.",
    "setback": "Enter how far your rule keeps clear of water. A drop spreader may go nearer.",
    "mows": "Log the mows. After three of them the grass counts as grown.",
    "watered": "Say that you water this zone.",
}


def breach(
    *,
    job: "dict[str, Any]",
    kind: str,
    row: "dict[str, Any]",
    figure: float | None,
    ceiling: float | None,
    numbers: "dict[str, object]",
    formula: str,
    days: float | None = None,
    others: "list[str] | None" = None,
    loosens: "list[str] | None" = None,
    ready: "str | None" = None,
) -> "dict[str, Any]":
    """Put a breach together, with the steps it came from.

    Args:
        job: the job that breaks the rule [group of values]
        kind: what is broken [text]
        row: the rule [group of values]
        figure: what was found [number]
        ceiling: what the rule allows [number]
        numbers: what went into the figure [group of values]
        formula: how the figure was found [text]
        days: days of the rule, to be said [day]
        others: jobs that count in it too [list of texts]
        loosens: which answers would loosen it [list of texts]
        ready: the day from which it is right, where waiting is enough [date]
    Returns:
        breach: what is answered, and its steps [group of values]
    Source: definition
    """
    what, unit, says = SAYS[kind]
    ways = ([] if row.get("looser") is None else [row["looser"]]) + (loosens or [])
    found: dict[str, Any] = {
        "job": job["id"],
        "rule": row["id"],
        "kind": kind,
        "zone": job["zone"],
        "date": job["date"],
        "figure": figure,
        "ceiling": ceiling,
        "unit": unit or None,
        "source": row["source"],
        "since": row.get("date"),
        "says": _said(says, days, row),
        "days": days,
        "others": others or [],
        "right_from": ready,
        "loosened_by": ways,
        "loosens": [_said(LOOSENS[way], days, row) for way in ways],
    }
    return {"breach": found, "steps": _steps(found, what, numbers, formula)}


def _said(words: str, days: float | None, row: "dict[str, Any]") -> str:
    said = words if days is None else _counted(words, "day", days)
    years = row.get("within_years")
    return said if years is None else _counted(said, "year", years)


def _counted(words: str, of: str, number: float) -> str:
    """Put a whole number in; one of a thing is not many."""
    whole = int(-(-number // 1))
    if whole == 1:
        words = words.replace("{" + of + "s} " + of + "s", "1 " + of)
    return words.replace("{" + of + "s}", str(whole))


def _steps(found: "dict[str, Any]", what: str, numbers: "dict[str, object]", formula: str) -> "list[dict[str, object]]":
    source = DEFINITION if found["source"] == LABEL else found["source"]
    rows = []
    if found["days"] is not None:
        rows.append(_step(found, "Days of the rule", "as the rule or the label says", {"rules": 1}, "days", source))
        rows[-1]["result"] = found["days"]
    if found["ceiling"] is not None:
        said = "as the rule or the label says; half of a grass's year in shade"
        rows.append(_step(found, what + ", as the rule has it", said, {"rules": 1}, found["unit"], source))
        rows[-1]["result"] = found["ceiling"]
    if found["figure"] is not None:
        rows.append(_step(found, what + ", found", formula, numbers, found["unit"], DEFINITION))
    return rows


def _step(
    found: "dict[str, Any]", what: str, formula: str, numbers: "dict[str, object]", unit: str, source: str
) -> "dict[str, object]":
    return step(
        what=what,
        formula=formula,
        numbers=numbers,
        result=found["figure"],
        unit=unit,
        source=source,
        of=found["job"],
    )
