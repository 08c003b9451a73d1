"""The whole model of a season, from what a plan is made from."""

from lawn.engine.core.numeric import listing
from lawn.engine.season import arcs, jobs, rows
from lawn.engine.season.inputs import read
from lawn.engine.season.model import Model
from lawn.engine.season.weeks import needs_of, weeks_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


def assemble(
    *,
    groups: object,
    products: object,
    climate: object,
    rules: object,
    wishes: object,
    done: object,
    locked: object,
    today: object,
) -> "tuple[Model, dict[str, Any]]":
    """The model, and the plan it was made from.

    Args:
        groups, products, climate, rules, wishes, done, locked, today: as season.build takes them [group of values]
    Returns:
        model, plan: columns and rows; everything checked and dated [group of values]
    """
    plan = read(groups, products, rules, wishes, done, locked, today)
    plan["weeks"] = weeks_of(climate, plan)
    given = climate.get("jobs") if isinstance(climate, dict) else None
    skeleton = listing("climate.jobs", [] if given is None else given, 0, 100)
    model = Model()
    plan["spans"] = []
    for of in plan["groups"]:
        of["needs"] = needs_of(of, plan, skeleton)
        arcs.add_group(model, plan, of)
        arcs.add_kilograms(model, plan, of)
        arcs.add_locked(model, plan, of)
        jobs.add_jobs(model, plan, of, skeleton)
        jobs.add_exclusions(model, plan, of)
        rows.add_ceilings(model, plan, of)
        rows.add_intervals(model, plan, of)
    rows.add_evenings(model, plan)
    rows.add_bags(model, plan)
    return model, plan
