"""Where a job stands: what was used, what is left, what is still to do, and how the hopper should stand now."""

from lawn.engine.core.errors import EngineError
from lawn.engine.core.numeric import group, optional_number, total
from lawn.engine.core.working import DEFINITION, step
from lawn.engine.spread.draft import (
    Done,
    Plan,
    kg_m2_step,
    kg_step,
    left_step,
    loaded_step,
    m2_step,
    may_add_step,
    read_hopper,
    read_passes,
    read_plan,
    share_steps,
    used_step,
)
from lawn.engine.spreader.hopper import level

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

ON_FOOT = ("added_kg", "expected_kg", "in_bag_kg", "covered_m2", "ground_m2")


def standing(
    *,
    plan: dict[str, object],
    passes: list[object],
    on_foot: dict[str, object] | None = None,
    hopper: dict[str, object] | None = None,
    bulk_density_kg_m3: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Every sum of a job that is under way, from its draft and its passes in the log.

    Args:
        plan: what the job set out with [group of values]
        plan.load_kg: product loaded at the start [kg; 0 to 5000]
        plan.target_kg: product the target takes [kg; 0 to 5000]
        plan.passes: passes planned [passes; 1 to 20]
        passes: its passes in the log, in the order walked, up to 100; other fields may stand in them [list]
        passes.used_kg: product the pass put down [kg; 0 to 5000]
        passes.left_kg: product it left, hopper and bag together [kg; 0 to 20000]
        passes.area_m2: ground it covered [m2; 0.5 to 100000]
        passes.added_kg?: product poured in on the way [kg; 0 to 5000]
        passes.ran_out?: it ran out before its end [true or false]
        passes.nothing_came?: nothing came out, so that it is walked again [true or false]
        passes.parts?: its stretches in order, where the setting was changed on the way [list]
        passes.parts.area_m2: ground of the stretch [m2; 0 to 100000]
        passes.parts.used_kg: product put down on it [kg; 0 to 5000]
        on_foot?: the pass being walked [group of values]
        on_foot.added_kg?: product poured in on its way [kg; 0 to 5000]
        on_foot.expected_kg?: what should be there now, hopper and bag together [kg; 0 to 20000]
        on_foot.in_bag_kg?: of that not yet in the hopper [kg; 0 to 5000]
        on_foot.covered_m2?: ground it has covered [m2; 0 to 6000000]
        on_foot.ground_m2?: ground it has to cover [m2; 0 to 6000000]
        hopper?: the hopper's inner measures, all or none [group of values]
        hopper.top_length_m: inside length at the rim [m; 0.05 to 2]
        hopper.top_width_m: inside width at the rim [m; 0.05 to 2]
        hopper.bottom_length_m: inside length at the floor [m; 0.01 to 2]
        hopper.bottom_width_m: inside width at the floor [m; 0.01 to 2]
        hopper.height_m: inside height [m; 0.05 to 2]
        bulk_density_kg_m3?: mass of the loose product per volume [kg/m3; 100 to 2500]
    Returns:
        used_kg: put down by all passes so far [kg]
        left_kg: in hopper and bag by the last reading, before the first pass the load [kg]
        loaded_kg: loaded for the job so far, all pours included [kg]
        may_add_kg: of the target not loaded yet [kg]
        share_of_target: put down over the target; null where the target is nothing [share or null]
        passes_to_go: passes still to walk as planned, none once one ran out [passes]
        passes: for each pass how it stands [list]
        passes.used_kg: put down by the pass [kg]
        passes.covered_m2: ground it covered [m2]
        passes.rate_kg_m2: put down over that [kg/m2]
        passes.there_kg: what there was where its last stretch began [kg]
        passes.from_m2: ground of the pass covered before that [m2]
        to_go_m2: ground the pass on foot has still to cover; null where it is not known [m2 or null]
        hopper_kg: what should be in the hopper now, without the bag; null where it is not known [kg or null]
        level_share: the level at which that should stand; null where measures or density are not known, or it holds
            less [share or null]
    Raises:
        out_of_range: a number is outside its range
    Source: definition
    """
    set_out = read_plan(plan)
    done = read_passes(passes)
    foot = _on_foot(on_foot)
    used_kg, used = used_step(done)
    left_kg, left = left_step(set_out, done)
    loaded_kg, loaded = loaded_step(set_out, done, foot["added_kg"] or 0.0)
    may_add_kg, may_add = may_add_step(set_out, loaded_kg)
    share, shares = share_steps(set_out, used_kg)
    to_go = _to_go(set_out, done)
    working = [used, left, loaded, may_add] + shares + [_to_go_step(set_out, done, to_go)]
    rows = [_pass_row(one, at, working) for at, one in enumerate(done)]
    value: dict[str, object] = {
        "used_kg": used_kg,
        "left_kg": left_kg,
        "loaded_kg": loaded_kg,
        "may_add_kg": may_add_kg,
        "share_of_target": share,
        "passes_to_go": to_go,
        "passes": rows,
        "to_go_m2": _ground_to_go(foot, working),
    }
    hopper_kg = _in_hopper(foot, working)
    value["hopper_kg"] = hopper_kg
    value["level_share"] = _level(hopper_kg, hopper, bulk_density_kg_m3, working)
    return value, working


def _on_foot(value: object) -> "dict[str, Any]":
    given = {} if value is None else group("on_foot", value, ON_FOOT)
    return {name: optional_number("on_foot." + name, given.get(name)) for name in ON_FOOT}


def _to_go(plan: Plan, passes: list[Done]) -> int:
    """Passes still to walk; after a run-out none, since what was covered got too much."""
    if any(one.ran_out for one in passes):
        return 0
    walked = len([one for one in passes if not one.nothing_came])
    return int(max(0, plan.passes - walked))


def _to_go_step(plan: Plan, passes: list[Done], to_go: int) -> dict[str, object]:
    numbers: dict[str, object] = {
        "planned": plan.passes,
        "walked": len([one for one in passes if not one.nothing_came]),
        "ran_out": len([one for one in passes if one.ran_out]),
    }
    return step(
        what="Passes to go",
        formula="planned less walked, those on which nothing came aside; none once one ran out",
        numbers=numbers,
        result=to_go,
        unit="passes",
        source=DEFINITION,
    )


def _pass_row(one: Done, at: int, working: list[dict[str, object]]) -> dict[str, object]:
    """Sums of one pass: its rate, and what there was where its last stretch began."""
    which = " of pass " + str(at + 1)
    last_kg = one.parts[-1][1] if one.parts else one.used_kg
    there_kg = total([last_kg, one.left_kg])
    before_m2 = [part[0] for part in one.parts[:-1]]
    from_m2 = total(before_m2)
    rate_kg_m2 = one.used_kg / one.area_m2
    over: dict[str, object] = {"used_kg": one.used_kg, "area_m2": one.area_m2}
    there: dict[str, object] = {"used_kg": last_kg, "left_kg": one.left_kg}
    working.append(kg_m2_step("Product per area" + which, "put down over ground covered", over, rate_kg_m2))
    working.append(kg_step("There at its last setting" + which, "used on it and left after it", there, there_kg))
    if before_m2:
        grounds: dict[str, object] = {"parts_m2": before_m2}
        working.append(m2_step("Covered before its last setting" + which, "stretches before, added", grounds, from_m2))
    return {
        "used_kg": one.used_kg,
        "covered_m2": one.area_m2,
        "rate_kg_m2": rate_kg_m2,
        "there_kg": there_kg,
        "from_m2": from_m2,
    }


def _ground_to_go(foot: "dict[str, Any]", working: list[dict[str, object]]) -> float | None:
    covered_m2, ground_m2 = foot["covered_m2"], foot["ground_m2"]
    if covered_m2 is None or ground_m2 is None:
        return None
    to_go_m2: float = max(0.0, ground_m2 - covered_m2)
    numbers: dict[str, object] = {"ground_m2": ground_m2, "covered_m2": covered_m2}
    working.append(m2_step("Ground to go", "ground of the pass less what is covered", numbers, to_go_m2))
    return to_go_m2


def _in_hopper(foot: "dict[str, Any]", working: list[dict[str, object]]) -> float | None:
    """What should be in the hopper now; nothing where more is said to be in the bag than should be there at all."""
    expected_kg, in_bag_kg = foot["expected_kg"], foot["in_bag_kg"] or 0.0
    if expected_kg is None or in_bag_kg > expected_kg:
        return None
    hopper_kg: float = expected_kg - in_bag_kg
    numbers: dict[str, object] = {"expected_kg": expected_kg, "in_bag_kg": in_bag_kg}
    working.append(kg_step("In the hopper now", "what should be there less what is in the bag", numbers, hopper_kg))
    return hopper_kg


def _level(hopper_kg: float | None, hopper: object, density: object, working: list[dict[str, object]]) -> float | None:
    """The level at which that stands; nothing where it is more than the hopper holds, so some is still in the bag."""
    kg_m3 = optional_number("bulk_density_kg_m3", density)
    if hopper is None:
        return None
    sides = read_hopper("hopper", hopper)
    if kg_m3 is None or hopper_kg is None:
        return None
    try:
        value, steps = level(mass_kg=hopper_kg, bulk_density_kg_m3=kg_m3, **sides)
    except EngineError as error:
        if error.name == "mass_kg":
            return None
        raise
    working.extend([row for row in steps if row["unit"] == "share"])
    share: Any = value["level_share"]
    return float(share)
