"""The working beside a clash or a warning: the rule with its source, then what was found."""

from lawn.engine.core.working import COMMON, DEFINITION, N_UNIT, step

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

AMOUNTS = {
    "nitrogen": "Nitrogen over the zone's ceiling for a year",
    "quick": "Nitrogen, quick, over the ceiling of one feed",
    "all_n": "Nitrogen over the ceiling of one feed",
    "phosphate": "Phosphate (P2O5) over the zone's ceiling for a year",
    "phosphate_once": "Phosphate (P2O5) at once",
    "lime_once": "Lime at once",
}
RULES = {
    "interval": "days between two feeds of any product",
    "pre_twice": "days that a pre-emergent protects",
    "seed_after_pre": "longest published wait from a pre-emergent to sowing",
    "pre_after_seed": "days until new grass is established, or three mows",
    "young": "days until new grass is established, or three mows",
    "lime_twice": "half a year between two limings",
    "lime_nitrogen": "days between lime and quick nitrogen",
}


def steps_of(*, clash: "dict[str, Any]") -> list[dict[str, object]]:
    """The steps that lead to one clash.

    Args:
        clash: a clash with its addends [group of values]
    Returns:
        steps: its working, each step about the clash's key [list]
    Source: definition
    """
    if clash["ceiling_kg_m2"] is not None:
        return _amount_steps(clash)
    if clash["interval_days"] is not None:
        return _day_steps(clash)
    entries = len(clash["entry_ids"])
    rule = "mows of one zone on one day by two people"
    if clash["kind"] == "step_twice":
        rule = "entries that name one step of the season plan"
    return [_said(clash, "One job noted twice", rule, {"entries": entries}, entries, "entries", COMMON)]


def count_step(*, entries: int, found: int) -> dict[str, object]:
    """The last step: how many were looked at.

    Args:
        entries: entries that are not struck out [entries]
        found: clashes found [clashes]
    Returns:
        step: the step [group of values]
    Source: definition
    """
    return step(
        what="Clashes found",
        formula="spreading and mows that are not crossed out, in the order done",
        numbers={"entries": entries},
        result=found,
        unit="clashes",
        source=DEFINITION,
    )


def _amount_steps(clash: "dict[str, Any]") -> list[dict[str, object]]:
    kind = clash["kind"]
    nitrogen = kind in ("nitrogen", "quick", "all_n")
    unit = N_UNIT if nitrogen else "kg/m2"
    name = "n_kg_m2" if nitrogen else "each_kg_m2"
    ceiling: dict[str, object] = {"zones": 1}
    addends: dict[str, object] = {
        "days": [day for day, _ in clash["addends"]],
        name: [amount for _, amount in clash["addends"]],
        "ceiling_" + name: clash["ceiling_kg_m2"],
    }
    over = "of this calendar year" if clash["window_days"] is None else "of so many days"
    if clash["window_days"] is not None:
        addends["window_days"] = clash["window_days"]
    formula = "what was put down there where most of it fell, " + over + ", added; against the ceiling"
    first = ("Nitrogen ceiling of the zone" if nitrogen else "Ceiling of the zone") + (
        " for a year" if kind in ("nitrogen", "phosphate") else " for one application"
    )
    return [
        _said(clash, first, "as handed in", ceiling, clash["ceiling_kg_m2"], unit, DEFINITION),
        _said(clash, AMOUNTS[kind], formula, addends, clash["amount_kg_m2"], unit, clash["source"]),
    ]


def _day_steps(clash: "dict[str, Any]") -> list[dict[str, object]]:
    rule = RULES[clash["kind"]] if clash["assumed"] else "as entered from the label"
    least = clash["interval_days"]
    between = "days between the two, against the least days between them"
    return [
        _said(clash, "Least days between the two", rule, {"entries": 2}, least, "days", clash["source"]),
        _said(clash, "Put down too soon", between, {"least_days": least}, clash["days_between"], "days", DEFINITION),
    ]


def _said(
    clash: "dict[str, Any]",
    what: str,
    formula: str,
    numbers: dict[str, object],
    result: object,
    unit: str,
    source: str,
) -> dict[str, object]:
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source=source, of=clash["key"])
