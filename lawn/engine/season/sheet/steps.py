"""The working beside a sheet: what each group asks for and gets, and what each step of the plan takes."""

from lawn.engine.core.working import COMMON, DEFINITION, N_UNIT, step

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

SUMS = (
    ("need_n_kg_m2", "Nitrogen asked for", "yearly aim by the windows of these weeks, added", "illinois_n"),
    ("put_n_kg_m2", "Nitrogen put down and to be put down", "feeds of these weeks, added", DEFINITION),
    ("free_n_kg_m2", "Nitrogen that comes free", "that of every week by kind and usual soil, added", "cornell_n"),
)
FLAGS = (
    ("n_kg_m2", "Nitrogen of the step", "rate times nitrogen on the label", N_UNIT),
    ("kg", "Product of the step", "rate times the area of its zones", "kg"),
    ("bags", "Bags of the step", "product over the weight of a bag", "bags"),
)


def working_of(value: "dict[str, Any]") -> "list[dict[str, object]]":
    """Steps for every sum, every feed that was done and every step of the plan."""
    found: list[dict[str, object]] = []
    for band, row in zip(value["bands"], value["sums"]):  # noqa: B905  # MicroPython's zip has no strict
        found.extend(_sums(band, row))
        for flag in band["flags"]:
            found.extend(_flag(flag))
        for bar in band["bars"]:
            if bar["step"] is None:
                numbers = {"date": bar["date"]}
                found.append(_n("Nitrogen of a feed", "as the log has it", numbers, bar["n_kg_m2"], COMMON, None))
    numbers = {"bands": len(value["bands"])}
    what, formula = (
        "Nitrogen where a week has most",
        "the largest of needs, of what comes free, and of what is put down",
    )
    found.append(_n(what, formula, numbers, value["top_n_kg_m2"], DEFINITION, None))
    return found


def _sums(band: "dict[str, Any]", row: "dict[str, Any]") -> "list[dict[str, object]]":
    each = {
        "need_n_kg_m2": band["need_n_kg_m2"],
        "put_n_kg_m2": [one["n_kg_m2"] for one in band["bars"]],
        "free_n_kg_m2": band["free_n_kg_m2"],
    }
    return [
        _n(what, formula, {"each_n_kg_m2": each[name]}, row[name], source, row["group"] or None)
        for name, what, formula, source in SUMS
        if row[name] is not None
    ]


def _flag(flag: "dict[str, Any]") -> "list[dict[str, object]]":
    numbers: dict[str, object] = {"from": flag["from"], "to": flag["to"]}
    return [
        step(
            what=what,
            formula=formula,
            numbers=numbers,
            result=flag[name],
            unit=unit,
            source=DEFINITION,
            of=flag["step"],
        )
        for name, what, formula, unit in FLAGS
        if flag[name] is not None
    ]


def _n(
    what: str, formula: str, numbers: "dict[str, object]", result: object, source: str, of: str | None
) -> "dict[str, object]":
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=N_UNIT, source=source, of=of)
