"""What a job brought to each of its zones: pass by pass, by the ground each one really covered."""

from lawn.engine.core.errors import impossible, out_of_range
from lawn.engine.core.numeric import at_least, group, listing, number, optional_number, text, total
from lawn.engine.core.working import DEFINITION, N_UNIT, nitrogen_step, phosphate_step, step
from lawn.engine.dial.amounts import MOST_OUT
from lawn.engine.product.bags import zone_rows
from lawn.engine.product.label import refuse_over_whole

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_ZONES = 60
MOST_PASSES = 20
MOST_STRETCHES = 100
PASS_FIELDS = ("used_kg", "area_m2", "parts", "out")
NEXT_TO = 1e-12  # of the ground: an end of a stretch this near to the edge of a zone is that edge
SHORTEST = 1e-6  # of the pass: what went down on less than this is counted with the other stretches


def split(
    *,
    zones: list[object],
    used_kg: float | None = None,
    passes: list[object] | None = None,
    n_percent: float | None = None,
    p2o5_percent: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Share out what a job put down among its zones, for the log entry.

    A pass covers the zones in the order walked, so where it ended early or ran out the zones after that got none of
    it, and a stretch walked at another setting counts with its own rate. Without passes, used_kg is shared by area: as
    if all of it had gone down evenly.

    Args:
        zones: the zones in the order walked, 1 to 60 [list]
        zones.id: the zone [text]
        zones.area_m2: its area [m2; 0.5 to 100000]
        used_kg?: product put down on all of them evenly; only where no passes are given [kg; 0 to 5000]
        passes?: what was walked, up to 20; a pass on which nothing came used 0 kg [list]
        passes.used_kg: product the pass put down [kg; 0 to 5000]
        passes.area_m2: ground it covered, from the start of the first zone [m2; 0.5 to 100000]
        passes.out?: ground it left out, such as scorched strips; not counted in its area_m2 [list]
        passes.out.zone_id: the zone [text]
        passes.out.area_m2: ground of it left out [m2; 0 to 100000]
        passes.parts?: its stretches in order, where the setting was changed on the way [list]
        passes.parts.area_m2: ground of the stretch [m2; 0 to 100000]
        passes.parts.used_kg: product put down on it [kg; 0 to 5000]
        n_percent?: nitrogen on the label [%; 0 to 100]
        p2o5_percent?: phosphate, P2O5, on the label [%; 0 to 100]
    Returns:
        zones: what each zone got [list]
        zones.zone_id: the zone [text]
        zones.area_m2: its area [m2]
        zones.used_kg: product put down on it [kg]
        zones.covered_m2: the most of it one pass covered [m2]
        zones.rate_kg_m2: product over all of it [kg/m2]
        zones.n_kg_m2: nitrogen over all of it; null where the label's percent is unknown [kg/m2 or null]
        zones.n_most_kg_m2: the most nitrogen any of its ground got; null likewise [kg/m2 or null]
        zones.p2o5_kg_m2: phosphate over all of it; null likewise [kg/m2 or null]
        used_kg: product put down in all [kg]
        rate_kg_m2: product over the ground of all zones [kg/m2]
    Raises:
        out_of_range: an argument is outside its range, or a pass covered or left out more than there is
        impossible: neither passes nor used_kg, or both; or ground left out lies in none of the zones
        over_whole: nitrogen and phosphate on the label are over 100 % together
        repeated: a zone stands twice in the list
    Source: definition
    """
    rows = zone_rows("zones", zones, MOST_ZONES)
    ground_m2 = total([row[1] for row in rows])
    percents = {"n": optional_number("n_percent", n_percent), "p2o5": optional_number("p2o5_percent", p2o5_percent)}
    refuse_over_whole(n_percent=n_percent, p2o5_percent=p2o5_percent)
    walked = _walked(used_kg, passes, rows)
    shared: list[dict[str, object]] = []
    working: list[dict[str, object]] = []
    edges_m2 = [0.0 for _ in walked]
    for at, (zone_id, area_m2) in enumerate(rows):
        got = []
        for k, (stretches, grounds) in enumerate(walked):
            got.append(_on_zone(stretches, edges_m2[k], grounds[at], ground_m2))
            edges_m2[k] += grounds[at]
        row = _zone_row(zone_id, area_m2, got, percents)
        shared.append(row)
        working.extend(_zone_steps(row, got, percents))
    all_kg = total([used for stretches, _ in walked for _, _, used in stretches])
    working.extend(_whole_steps(all_kg, ground_m2, [total([one[2] for one in each]) for each, _ in walked]))
    return {"zones": shared, "used_kg": all_kg, "rate_kg_m2": all_kg / ground_m2}, working


def _walked(
    used_kg: object, passes: object, zones: "list[tuple[str, float]]"
) -> "list[tuple[list[tuple[float, float, float]], list[float]]]":
    """Every pass as its stretches (from, to, used kg), and what it had to cover of each zone.

    The ground of a pass is counted on through the zones in the order walked, without what it left out.
    """
    if (used_kg is None) == (passes is None):
        message = "Give either the passes walked or what was used in all."
        raise impossible(name="passes", value=None if passes is None else "passes and used_kg", message=message)
    if passes is None:
        grounds = [area_m2 for _, area_m2 in zones]
        return [([(0.0, total(grounds), number("used_kg", used_kg))], grounds)]
    found = []
    for at, item in enumerate(listing("passes", passes, 0, MOST_PASSES)):
        path = "passes[" + str(at) + "]"
        grounds = _grounds(path + ".out", group(path, item, PASS_FIELDS).get("out"), zones)
        found.append((_stretches(path, item, total(grounds)), grounds))
    return found


def _grounds(path: str, value: object, zones: "list[tuple[str, float]]") -> list[float]:
    """What a pass had to cover of each zone: all of it, or less where ground was left out."""
    names = [zone_id for zone_id, _ in zones]
    outs: list[list[float]] = [[] for _ in zones]
    for at, item in enumerate(listing(path, value, 0, MOST_OUT) if value is not None else []):
        here = path + "[" + str(at) + "]"
        one = group(here, item, ("zone_id", "area_m2"))
        zone_id = text(here + ".zone_id", one.get("zone_id"))
        if zone_id not in names:
            message = "Ground can be left out of the zones in the list only."
            raise impossible(name=here + ".zone_id", value=zone_id, message=message)
        place = names.index(zone_id)
        outs[place].append(number(here + ".area_m2", one.get("area_m2"), 0.0))
        if not at_least(zones[place][1], total(outs[place])):
            raise out_of_range(name=here + ".area_m2", value=total(outs[place]), low=0.0, high=zones[place][1])
    return [max(0.0, zones[k][1] - total(outs[k])) for k in range(len(zones))]


def _stretches(path: str, item: object, ground_m2: float) -> "list[tuple[float, float, float]]":
    """The stretches of one pass; what they put down adds up to what the pass did, by whatever its parts differ."""
    given = group(path, item, PASS_FIELDS)
    used = number(path + ".used_kg", given.get("used_kg"))
    area_m2 = number(path + ".area_m2", given.get("area_m2"))
    if not at_least(ground_m2, area_m2):
        raise out_of_range(name=path + ".area_m2", value=area_m2, low=0.5, high=ground_m2)
    if used == 0.0:
        return []
    parts = _parts(path + ".parts", given.get("parts"))
    least_m2 = SHORTEST * total([row[0] for row in parts])
    parts = [row for row in parts if row[0] > least_m2]
    parts_kg, parts_m2 = total([row[1] for row in parts]), total([row[0] for row in parts])
    if parts_kg <= 0.0:
        return [(0.0, min(area_m2, ground_m2), used)]
    found = []
    done_m2 = 0.0
    for part_m2, part_kg in parts:
        from_m2 = done_m2
        done_m2 += part_m2 * min(area_m2, ground_m2) / parts_m2
        found.append((from_m2, done_m2, part_kg * used / parts_kg))
    return found


def _parts(path: str, value: object) -> list[tuple[float, float]]:
    """Ground and product of each stretch of a pass; other fields of a stretch are not looked at."""
    rows = []
    for at, item in enumerate(listing(path, value, 0, MOST_STRETCHES) if value is not None else []):
        here = path + "[" + str(at) + "]"
        part = item if isinstance(item, dict) else group(here, item, ())
        ground_m2 = number(here + ".area_m2", part.get("area_m2"), 0.0)
        rows.append((ground_m2, number(here + ".used_kg", part.get("used_kg"))))
    return rows


def _on_zone(
    stretches: "list[tuple[float, float, float]]", low_m2: float, area_m2: float, ground_m2: float
) -> "tuple[float, float, float]":
    """What one pass brought to the zone that begins at a mark: kg, ground covered, and its highest rate."""
    high_m2 = low_m2 + area_m2
    near_m2 = NEXT_TO * ground_m2
    kgs, grounds, highest = [], [], 0.0
    for from_m2, to_m2, used in stretches:
        whole = from_m2 <= low_m2 + near_m2 and to_m2 >= high_m2 - near_m2
        common_m2 = area_m2 if whole else min(high_m2, to_m2) - max(low_m2, from_m2)
        if common_m2 <= near_m2 or used <= 0.0:
            continue
        rate_kg_m2 = used / (to_m2 - from_m2)
        kgs.append(rate_kg_m2 * common_m2)
        grounds.append(common_m2)
        highest = max(highest, rate_kg_m2)
    return total(kgs), total(grounds), highest


def _zone_row(
    zone_id: str, area_m2: float, got: "list[tuple[float, float, float]]", percents: "dict[str, float | None]"
) -> "dict[str, Any]":
    used_kg = total([one[0] for one in got])
    most_kg_m2 = total([one[2] for one in got])
    n_percent, p2o5_percent = percents["n"], percents["p2o5"]
    return {
        "zone_id": zone_id,
        "area_m2": area_m2,
        "used_kg": used_kg,
        "covered_m2": max([0.0] + [one[1] for one in got]),
        "rate_kg_m2": used_kg / area_m2,
        "n_kg_m2": None if n_percent is None else used_kg / area_m2 * n_percent / 100.0,
        "n_most_kg_m2": None if n_percent is None else most_kg_m2 * n_percent / 100.0,
        "p2o5_kg_m2": None if p2o5_percent is None else used_kg / area_m2 * p2o5_percent / 100.0,
    }


def _zone_steps(
    row: "dict[str, Any]", got: "list[tuple[float, float, float]]", percents: "dict[str, float | None]"
) -> list[dict[str, object]]:
    zone_id, area_m2, used_kg = row["zone_id"], row["area_m2"], row["used_kg"]
    kgs: dict[str, object] = {"passes_kg": [one[0] for one in got]}
    grounds: dict[str, object] = {"passes_m2": [one[1] for one in got]}
    rates: dict[str, object] = {"passes_kg_m2": [one[2] for one in got], "n_percent": percents["n"]}
    over = {"used_kg": used_kg, "area_m2": area_m2}
    shares = "each pass by the ground it covered, in the order walked; added"
    steps = [
        _step("Product on a zone", shares, kgs, used_kg, "kg", zone_id),
        _step("Ground of it covered", "the most that one pass covered", grounds, row["covered_m2"], "m2", zone_id),
        _step("Product per area on it", "product over its area", over, row["rate_kg_m2"], "kg/m2", zone_id),
    ]
    n_percent, p2o5_percent = percents["n"], percents["p2o5"]
    if n_percent is not None:
        steps.append(nitrogen_step(row["rate_kg_m2"], n_percent, row["n_kg_m2"], of=zone_id))
        formula = "highest rate of each pass, added, times its share on the label"
        most = row["n_most_kg_m2"]
        steps.append(_step("Nitrogen where most of it fell", formula, rates, most, N_UNIT, zone_id))
    if p2o5_percent is not None:
        steps.append(phosphate_step(row["rate_kg_m2"], p2o5_percent, row["p2o5_kg_m2"], of=zone_id))
    return steps


def _whole_steps(all_kg: float, ground_m2: float, passes_kg: list[float]) -> list[dict[str, object]]:
    addends: dict[str, object] = {"passes_kg": passes_kg}
    over: dict[str, object] = {"used_kg": all_kg, "area_m2": ground_m2}
    formula = "product put down over the area of all zones"
    return [
        _step("Put down in all", "what the passes put down, added", addends, all_kg, "kg", None),
        _step("Product per area on all zones", formula, over, all_kg / ground_m2, "kg/m2", None),
    ]


def _step(
    what: str, formula: str, numbers: dict[str, object], result: object, unit: str, of: str | None
) -> dict[str, object]:
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source=DEFINITION, of=of)
