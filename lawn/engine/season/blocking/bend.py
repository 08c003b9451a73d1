"""An elastic model: every rule may be broken at a cost, so that the cheapest values tell which rules give."""

from lawn.engine.core.numeric import listing, number
from lawn.engine.core.working import COMMON, step
from lawn.engine.season.assemble import assemble

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

LEAST = 1e-6  # below it a rule is kept, to the solver's last digits
FAR = 1e6


def blocked(
    *,
    groups: object,
    products: object,
    climate: object,
    rules: object,
    wishes: object,
    done: object,
    locked: object,
    today: str,
    solution: object = None,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Which rules give where no plan can keep them all: a model to be solved first, then read with its values.

    Args:
        groups: as season.build takes them [list as season.build]
        products: likewise [list as season.build]
        climate: likewise [group of values as season.build]
        rules: likewise [group of values as season.build]
        wishes: likewise [group of values as season.build]
        done: likewise [list as season.build]
        locked: likewise [list as season.build]
        today: the day of planning [date]
        solution?: values of the columns of this model, in their order [list of numbers]
    Returns:
        model: columns and rows as season.build gives them; its cost is what all rules together give [group of values]
        model.columns: unknowns [list]
        model.columns.name: what it stands for [text]
        model.columns.low: least value [value]
        model.columns.high: greatest value [value]
        model.columns.cost: what one of it costs [value]
        model.columns.integer: whether it must be whole [true or false]
        model.rows: what must hold [list]
        model.rows.name: what it is about [text]
        model.rows.low: least sum; null where there is none [value or null]
        model.rows.high: greatest sum, likewise [value or null]
        model.rows.terms: pairs of a column's place and its factor [list of corners]
        gives: the rules that give, where a solution was handed in [list]
        gives.name: the rule [text]
        gives.says: the same as a sentence, with groups and products by their ids [text]
        gives.by: how much, in the rule's own unit [value]
    Raises:
        out_of_range: a number is outside its range
        wrong_count: there are more or fewer values than columns
    Source: definition
    """
    plain, _ = assemble(
        groups=groups,
        products=products,
        climate=climate,
        rules=rules,
        wishes=wishes,
        done=done,
        locked=locked,
        today=today,
    )
    model, slacks = bent({"columns": plain.columns, "rows": plain.rows})
    gives = [] if solution is None else giving(slacks, _read(solution, len(model["columns"])))
    working = [
        step(
            what="Rules that give",
            formula="the least that all of them together must give, each by its largest factor",
            numbers={"rules": len(slacks)},
            result=len(gives),
            unit="rules",
            source=COMMON,
        )
    ]
    working += [
        step(
            what=row["name"],
            formula="what the values are beyond its bounds",
            numbers={"rules": len(slacks)},
            result=row["by"],
            unit="value",
            source=COMMON,
        )
        for row in gives
    ]
    return {"model": model, "gives": gives}, working


def bent(model: "dict[str, Any]") -> "tuple[dict[str, Any], list[tuple[dict[str, Any], int]]]":
    """The model with two columns for every rule, by which it may be broken at a cost, and no other cost."""
    columns = [_free(one) for one in model["columns"]]
    rows, slacks = [], []
    for row in model["rows"]:
        terms = list(row["terms"])
        if row["rule"]:
            slacks.append((row, len(columns)))
            cost = 1.0 / (max([abs(pair[1]) for pair in terms] or [1.0]) or 1.0)
            for factor in (1.0, -1.0):
                terms.append([len(columns), factor])
                columns.append({"name": "gives", "low": 0.0, "high": FAR, "cost": cost, "integer": False})
        rows.append({"name": row["name"], "low": row["low"], "high": row["high"], "terms": terms})
    return {"columns": columns, "rows": rows}, slacks


def _free(column: "dict[str, Any]") -> "dict[str, Any]":
    found = dict(column)
    found["cost"] = 0.0
    return found


def _read(solution: object, count: int) -> list[float]:
    return [number("solution", one) for one in listing("solution", solution, count, count)]


def giving(slacks: "list[tuple[dict[str, Any], int]]", values: list[float]) -> "list[dict[str, Any]]":
    """The rules that values of a bent model break, each with by how much."""
    pairs = [(row, values[at] + values[at + 1]) for row, at in slacks]
    return [{"name": row["name"], "says": row["says"], "by": by} for row, by in pairs if by > LEAST]
