"""The working of walks: how many strips, how far, how long, and what should be left."""

from lawn.engine.core.numeric import total
from lawn.engine.core.working import COMMON, DEFINITION, step
from lawn.engine.route.plan import OVER_EDGE, Plan

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any


def minutes_of(distance_m: float, speed: float | None) -> float | None:
    """Time for a way, where a speed was given [min]."""
    return None if speed is None else distance_m / speed / 60.0


def plan_steps(
    plan: Plan, swath_m: float, chosen: bool, speed: float | None, load: float | None, rate: float | None
) -> list[dict[str, object]]:
    """The working of a walk over one zone."""
    steps = [
        _step("Area of the ground", "outline less holes", {"rings": "as given"}, plan.area_m2, "m2"),
        _heading_step(plan, chosen),
        _step("Turns", "strips less one", {"strips": len(plan.strips)}, plan.turns, "turns"),
        _step(
            "Way to walk",
            "lengths of all rows and the straight ways between them",
            {"headers": len(plan.headers), "strips": len(plan.strips), "rows_m": plan.length_m},
            plan.distance_m,
            "m",
        ),
    ]
    steps += _shares_steps(plan, swath_m, None) + _over_edge_steps(plan, None)
    return steps + _more_steps(plan.distance_m, plan.area_m2, speed, load, rate)


def _heading_step(plan: Plan, chosen: bool, of: str | None = None) -> dict[str, object]:
    formula = "the edge's direction with fewest strips" if chosen else "as given, or square to it when crossed"
    numbers: dict[str, object] = {"strips": len(plan.strips)}
    source = COMMON if chosen else DEFINITION
    return step(
        what="Heading", formula=formula, numbers=numbers, result=plan.heading_deg, unit="deg", source=source, of=of
    )


def _shares_steps(plan: Plan, swath_m: float, of: str | None) -> list[dict[str, object]]:
    return [
        step(
            what="Ground covered",
            formula="ground within half a swath of a row, over all of it",
            numbers={"swath_m": swath_m, "area_m2": plan.area_m2},
            result=plan.covered_share,
            unit="share",
            source=DEFINITION,
            of=of,
        ),
        step(
            what="Ground covered twice",
            formula="ground under two rows or more, over all of it",
            numbers={"swath_m": swath_m, "area_m2": plan.area_m2},
            result=plan.doubled_share,
            unit="share",
            source=DEFINITION,
            of=of,
        ),
    ]


def over_edge_of(laid: "list[tuple[dict[str, Any], Plan | None]]") -> float | None:
    """Share thrown over the edges of all zones that have one, each by its ground; null where none has."""
    known = [(float(zone["area_m2"]), plan.over_edge_share) for zone, plan in laid if plan is not None]
    shares = [(area, share) for area, share in known if share is not None]
    if not shares:
        return None
    return total([area * share for area, share in shares]) / total([area for area, _ in shares])


def _over_edge_steps(plan: Plan, of: str | None) -> list[dict[str, object]]:
    if plan.over_edge_share is None:
        return []
    return [
        step(
            what="Thrown over the edge by a rotary spreader",
            formula="an eighth of what the outermost strips throw: a peaked throw reaches the next strip, and these "
            "run half a swath in; none with the edge deflector, or from a drop spreader",
            numbers={"edge_m": plan.edge_m, "rows_m": plan.length_m, "eighth": OVER_EDGE},
            result=plan.over_edge_share,
            unit="share",
            source="computed",
            of=of,
        )
    ]


def _all_edges_step(laid: "list[tuple[dict[str, Any], Plan | None]]", share: float) -> dict[str, object]:
    found = [plan.over_edge_share for _, plan in laid if plan is not None and plan.over_edge_share is not None]
    return step(
        what="Thrown over all edges by a rotary spreader",
        formula="the zones' shares, each by its ground",
        numbers={"shares": found},
        result=share,
        unit="share",
        source=DEFINITION,
    )


def _more_steps(
    distance_m: float, area_m2: float, speed: float | None, load: float | None, rate: float | None
) -> list[dict[str, object]]:
    """Steps for the time, where a speed was given, and for what is left, where load and rate were."""
    found = []
    if speed is not None:
        numbers: dict[str, object] = {"distance_m": distance_m, "speed_m_s": speed}
        found.append(_step("Time to walk it", "way over speed, over 60", numbers, minutes_of(distance_m, speed), "min"))
    if load is not None and rate is not None:
        given: dict[str, object] = {"load_kg": load, "rate_kg_m2": rate, "area_m2": area_m2}
        end = max(0.0, load - rate * area_m2)
        found.append(_step("Left at the end", "load less rate times ground done, never below none", given, end, "kg"))
    return found


def tour_steps(
    value: "dict[str, Any]",
    laid: "list[tuple[dict[str, Any], Plan | None]]",
    swath_m: float,
    speed: float | None,
    load: float | None,
    rate: float | None,
) -> list[dict[str, object]]:
    """The working of a walk over several zones."""
    distance_m, area_m2 = value["distance_m"], value["area_m2"]
    counts: dict[str, object] = {"zones": len(laid)}
    steps = [
        _step("Area of all zones", "added", counts, area_m2, "m2"),
        _step("Way in all zones with an outline", "added", counts, distance_m, "m"),
        _step("Rows", "headers and strips; one for a zone without an outline", counts, value["strips_total"], "rows"),
    ]
    if value["out_m2"] > 0.0:
        outs: dict[str, object] = {"zones_m2": [zone["out_m2"] for zone in value["zones"]]}
        formula = "part of each row's width within half a swath of a row taken out; added"
        steps.append(_step("Ground that gets no more", formula, outs, value["out_m2"], "m2"))
    steps += _more_steps(distance_m, area_m2, speed, load, rate)
    for zone, plan in laid:
        if plan is not None:
            steps += [_heading_step(plan, zone["heading_deg"] is None, zone["id"])] + _way_steps(
                plan, speed, zone["id"]
            )
            steps += _shares_steps(plan, swath_m, zone["id"]) + _over_edge_steps(plan, zone["id"])
            steps += _clear_steps(plan, zone)
    if value["over_edge_share"] is not None:
        steps.append(_all_edges_step(laid, value["over_edge_share"]))
    return steps


def _clear_steps(plan: Plan, zone: "dict[str, Any]") -> list[dict[str, object]]:
    """Where some of a zone stays clear of water: the ground its rows lie on."""
    if plan.ground_m is None:
        return []
    numbers: dict[str, object] = {"setback_m": zone["setback_m"], "edges": len(zone["water_edges"])}
    what, formula = "Ground the rows lie on", "outline less holes, less all nearer to the edges at the water than that"
    return [
        step(
            what=what,
            formula=formula,
            numbers=numbers,
            result=plan.area_m2,
            unit="m2",
            source=DEFINITION,
            of=zone["id"],
        )
    ]


def _way_steps(plan: Plan, speed: float | None, of: str) -> list[dict[str, object]]:
    numbers: dict[str, object] = {"headers": len(plan.headers), "strips": len(plan.strips), "rows_m": plan.length_m}
    what, formula = "Way in the zone", "lengths of all rows and the straight ways between them"
    found = [
        step(what=what, formula=formula, numbers=numbers, result=plan.distance_m, unit="m", source=DEFINITION, of=of)
    ]
    if speed is not None:
        given: dict[str, object] = {"distance_m": plan.distance_m, "speed_m_s": speed}
        what, formula = "Time in the zone", "way over speed, over 60"
        result = minutes_of(plan.distance_m, speed)
        found.append(
            step(what=what, formula=formula, numbers=given, result=result, unit="min", source=DEFINITION, of=of)
        )
    return found


def _step(what: str, formula: str, numbers: dict[str, object], result: object, unit: str) -> dict[str, object]:
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source=DEFINITION)
