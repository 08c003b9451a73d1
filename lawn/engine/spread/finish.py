"""The end of a job: what went down in all and on each zone, against the target, and what is left over."""

from lawn.engine.core.numeric import group, listing
from lawn.engine.dial.sharing import split
from lawn.engine.spread.draft import MOST_PASSES, left_step, loaded_step, read_passes, read_plan, share_steps

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

SHARED = ("used_kg", "area_m2", "parts", "out")


def finish(
    *,
    plan: dict[str, object],
    zones: list[object],
    passes: list[object],
    n_percent: float | None = None,
    p2o5_percent: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Every figure of a finished job: the whole of it against the target, and each zone's share.

    Args:
        plan: what the job set out with [group of values]
        plan.load_kg: product loaded at the start [kg; 0 to 5000]
        plan.target_kg: product the target takes [kg; 0 to 5000]
        plan.passes: passes planned [passes; 1 to 20]
        zones: the zones in the order walked, 1 to 60 [list]
        zones.id: the zone [text]
        zones.area_m2: its area [m2; 0.5 to 100000]
        passes: its passes in the log, in the order walked, up to 20; other fields may stand in them [list]
        passes.used_kg: product the pass put down [kg; 0 to 5000]
        passes.left_kg: product it left, hopper and bag together [kg; 0 to 20000]
        passes.area_m2: ground it covered, from the start of the first zone [m2; 0.5 to 100000]
        passes.added_kg?: product poured in on the way [kg; 0 to 5000]
        passes.out?: ground it left out, such as scorched strips; not counted in its area_m2 [list]
        passes.out.zone_id: the zone [text]
        passes.out.area_m2: ground of it left out [m2; 0 to 100000]
        passes.parts?: its stretches in order, where the setting was changed on the way [list]
        passes.parts.area_m2: ground of the stretch [m2; 0 to 100000]
        passes.parts.used_kg: product put down on it [kg; 0 to 5000]
        n_percent?: nitrogen on the label [%; 0 to 100]
        p2o5_percent?: phosphate, P2O5, on the label [%; 0 to 100]
    Returns:
        used_kg: product put down in all [kg]
        share_of_target: put down over the target; null where the target is nothing [share or null]
        left_kg: left over, hopper and bag together [kg]
        loaded_kg: loaded in all, pours included [kg]
        rate_kg_m2: product over the ground of all zones [kg/m2]
        zones: what each zone got [list as spreading.split]
        reached: ids of the zones that got something; where nothing came out at all, of all of them [list of texts]
    Raises:
        out_of_range: an argument is outside its range, or a pass covered or left out more than there is
        impossible: ground left out lies in none of the zones
        over_whole: nitrogen and phosphate on the label are over 100 % together
        repeated: a zone stands twice in the list
    Source: definition
    """
    set_out = read_plan(plan)
    done = read_passes(passes)
    shared, working = split(zones=zones, passes=_to_share(passes), n_percent=n_percent, p2o5_percent=p2o5_percent)
    rows: Any = shared["zones"]
    used_kg: Any = shared["used_kg"]
    share, shares = share_steps(set_out, used_kg)
    left_kg, left = left_step(set_out, done)
    loaded_kg, loaded = loaded_step(set_out, done, 0.0)
    got = [row["zone_id"] for row in rows if row["used_kg"] > 0.0]
    value: dict[str, object] = {
        "used_kg": used_kg,
        "share_of_target": share,
        "left_kg": left_kg,
        "loaded_kg": loaded_kg,
        "rate_kg_m2": shared["rate_kg_m2"],
        "zones": rows,
        "reached": got if got else [row["zone_id"] for row in rows],
    }
    return value, working + shares + [left, loaded]


def _to_share(passes: object) -> "list[object]":
    """The passes with what their ground and product are shared out by."""
    found: list[object] = []
    for at, item in enumerate(listing("passes", passes, 0, MOST_PASSES)):
        one: Any = item if isinstance(item, dict) else group("passes[" + str(at) + "]", item, ())
        found.append({name: one[name] for name in SHARED if one.get(name) is not None})
    return found
