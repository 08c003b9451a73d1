"""Product poured in on the way: what there is then, and how much of the target may still be loaded."""

from lawn.engine.core.errors import out_of_range
from lawn.engine.core.measuring import LOAD_SHARE
from lawn.engine.core.numeric import group, number, optional_number
from lawn.engine.spread.draft import kg_step, loaded_step, may_add_step, read_passes, read_plan

ON_FOOT = ("added_kg", "there_kg", "base_kg")


def pour(
    *,
    plan: dict[str, object],
    passes: list[object],
    on_foot: dict[str, object],
    added_kg: float | None = None,
    in_bag_kg: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """What there is once product was poured in, from the bag beside or as extra product.

    Extra product counts towards the target: more than that is refused, but for what a scale cannot be set finer than.
    What comes from the bag changes what is in the hopper, not what there is.

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
        on_foot: the pass being walked [group of values]
        on_foot.there_kg: what there was when this setting began, pours since included [kg; 0 to 5000]
        on_foot.base_kg: what the expected level counts from, pours since included [kg; 0 to 5000]
        on_foot.added_kg?: product poured in on its way so far [kg; 0 to 5000]
        added_kg?: extra product poured in now [kg; 0 to 5000]
        in_bag_kg?: what is still in the bag; as before when not said [kg; 0 to 5000]
    Returns:
        added_kg: extra product poured in on the way of this pass, this pour included [kg]
        there_kg: what there was when this setting began, with it [kg]
        base_kg: what the expected level counts from, with it [kg]
        loaded_kg: loaded for the job so far, with it [kg]
        may_add_kg: of the target not loaded yet, after it [kg]
    Raises:
        out_of_range: a number is outside its range; more is poured in than the target leaves (high is what it leaves,
            0 where all of it is loaded); or more is said to be in the bag than there is
    Source: common practice
    """
    set_out = read_plan(plan)
    done = read_passes(passes)
    foot = group("on_foot", on_foot, ON_FOOT)
    there_kg = number("on_foot.there_kg", foot.get("there_kg"))
    base_kg = number("on_foot.base_kg", foot.get("base_kg"))
    before_kg = optional_number("on_foot.added_kg", foot.get("added_kg")) or 0.0
    more_kg = optional_number("added_kg", added_kg) or 0.0
    in_bag = optional_number("in_bag_kg", in_bag_kg) or 0.0
    if in_bag > there_kg + more_kg:
        raise out_of_range(name="in_bag_kg", value=in_bag, low=0.0, high=there_kg + more_kg)
    loaded_before_kg, _ = loaded_step(set_out, done, before_kg)
    most_kg, most = may_add_step(set_out, loaded_before_kg)
    spare_kg = LOAD_SHARE * set_out.target_kg
    if more_kg > 0.0 and more_kg > most_kg + spare_kg:
        raise out_of_range(name="added_kg", value=more_kg, low=0.0, high=most_kg if most_kg >= spare_kg else 0.0)
    all_kg = before_kg + more_kg
    loaded_kg, loaded = loaded_step(set_out, done, all_kg)
    may_add_kg, may_add = may_add_step(set_out, loaded_kg)
    most["what"] = "Could be loaded before it"
    working = [
        most,
        _added("Poured in on the way of this pass", before_kg, more_kg),
        _added("There at this setting, with it", there_kg, more_kg),
        _added("The expected level counts from", base_kg, more_kg),
        loaded,
        may_add,
    ]
    value: dict[str, object] = {
        "added_kg": all_kg,
        "there_kg": there_kg + more_kg,
        "base_kg": base_kg + more_kg,
        "loaded_kg": loaded_kg,
        "may_add_kg": may_add_kg,
    }
    return value, working


def _added(what: str, before_kg: float, more_kg: float) -> dict[str, object]:
    numbers: dict[str, object] = {"before_kg": before_kg, "poured_kg": more_kg}
    return kg_step(what, "what there was and what is poured in", numbers, before_kg + more_kg)
