"""A job's draft as its calls read it: what was planned, and each pass that stands in the log."""

from collections import namedtuple

from lawn.engine.core.numeric import flag, group, listing, number, optional_number, total, whole
from lawn.engine.core.working import DEFINITION, step

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_PASSES = 100
MOST_PARTS = 100
MEASURES = ("top_length_m", "top_width_m", "bottom_length_m", "bottom_width_m", "height_m")

Plan = namedtuple("Plan", ("load_kg", "target_kg", "passes"))
# A pass of the log; parts are (ground, product) of its stretches, empty where one setting served throughout.
Done = namedtuple("Done", ("used_kg", "left_kg", "added_kg", "area_m2", "ran_out", "nothing_came", "parts"))


def read_plan(value: object) -> Plan:
    """Read what the job set out with."""
    plan = group("plan", value, ("load_kg", "target_kg", "passes"))
    return Plan(
        number("plan.load_kg", plan.get("load_kg")),
        number("plan.target_kg", plan.get("target_kg")),
        whole("plan.passes", plan.get("passes")),
    )


def read_passes(value: object) -> list[Done]:
    """Read the passes of a job that stand in the log, in the order walked."""
    found = []
    for at, item in enumerate(listing("passes", value, 0, MOST_PASSES)):
        path = "passes[" + str(at) + "]"
        one = item if isinstance(item, dict) else group(path, item, ())
        found.append(
            Done(
                number(path + ".used_kg", one.get("used_kg")),
                number(path + ".left_kg", one.get("left_kg")),
                optional_number(path + ".added_kg", one.get("added_kg")) or 0.0,
                number(path + ".area_m2", one.get("area_m2")),
                flag(path + ".ran_out", one.get("ran_out")),
                flag(path + ".nothing_came", one.get("nothing_came")),
                _parts(path + ".parts", one.get("parts")),
            )
        )
    return found


def _parts(path: str, value: object) -> list[tuple[float, float]]:
    rows = []
    for at, item in enumerate(listing(path, value, 0, MOST_PARTS) if value is not None else []):
        here = path + "[" + str(at) + "]"
        part = item if isinstance(item, dict) else group(here, item, ())
        area_m2 = number(here + ".area_m2", part.get("area_m2"), 0.0)
        rows.append((area_m2, number(here + ".used_kg", part.get("used_kg"))))
    return rows


def read_hopper(path: str, value: object, more: tuple[str, ...] = ()) -> "dict[str, Any]":
    """Read the hopper's inner measures, and whatever else stands in the same group."""
    given = group(path, value, MEASURES + more)
    sides: dict[str, Any] = {name: number(path + "." + name, given.get(name)) for name in MEASURES[:4] + more}
    sides["height_m"] = number(path + ".height_m", given.get("height_m"), 0.05, 2.0)
    return sides


def used_step(passes: list[Done]) -> tuple[float, dict[str, object]]:
    """Product put down by all passes so far, with its step."""
    used_kg = total([one.used_kg for one in passes])
    numbers: dict[str, object] = {"passes_kg": [one.used_kg for one in passes]}
    return used_kg, kg_step("Put down so far", "what the passes put down, added", numbers, used_kg)


def left_step(plan: Plan, passes: list[Done]) -> tuple[float, dict[str, object]]:
    """What is in hopper and bag by the last reading, with its step."""
    left_kg = passes[-1].left_kg if passes else plan.load_kg
    numbers: dict[str, object] = {"load_kg": plan.load_kg, "passes_left_kg": [one.left_kg for one in passes]}
    return left_kg, kg_step("Left now", "what the last pass left; before the first, the load", numbers, left_kg)


def loaded_step(plan: Plan, passes: list[Done], added_kg: float) -> tuple[float, dict[str, object]]:
    """All that was loaded for the job so far, with its step."""
    pours = [one.added_kg for one in passes] + [added_kg]
    loaded_kg = total([plan.load_kg] + pours)
    numbers: dict[str, object] = {"load_kg": plan.load_kg, "added_kg": pours}
    return loaded_kg, kg_step("Loaded so far", "the load and all poured in after it", numbers, loaded_kg)


def may_add_step(plan: Plan, loaded_kg: float) -> tuple[float, dict[str, object]]:
    """What of the target is not loaded yet, with its step."""
    may_add_kg = max(0.0, plan.target_kg - loaded_kg)
    numbers: dict[str, object] = {"target_kg": plan.target_kg, "loaded_kg": loaded_kg}
    return may_add_kg, kg_step("May still be loaded", "target less loaded, never below 0", numbers, may_add_kg)


def share_steps(plan: Plan, used_kg: float) -> "tuple[float | None, list[dict[str, object]]]":
    """What was put down over the target, with its step; nothing where there is no target."""
    if not plan.target_kg > 0.0:
        return None, []
    share = used_kg / plan.target_kg
    numbers: dict[str, object] = {"used_kg": used_kg, "target_kg": plan.target_kg}
    one = step(
        what="Share of the target",
        formula="put down over target",
        numbers=numbers,
        result=share,
        unit="share",
        source=DEFINITION,
    )
    return share, [one]


def kg_step(what: str, formula: str, numbers: dict[str, object], result: object) -> dict[str, object]:
    """A step whose result is a mass."""
    return step(what=what, formula=formula, numbers=numbers, result=result, unit="kg", source=DEFINITION)


def kg_m2_step(what: str, formula: str, numbers: dict[str, object], result: object) -> dict[str, object]:
    """A step whose result is a mass over an area."""
    return step(what=what, formula=formula, numbers=numbers, result=result, unit="kg/m2", source=DEFINITION)


def m2_step(what: str, formula: str, numbers: dict[str, object], result: object) -> dict[str, object]:
    """A step whose result is an area."""
    return step(what=what, formula=formula, numbers=numbers, result=result, unit="m2", source=DEFINITION)
