"""What a spreading job aims for, and which ground a bag just covers. Never above the rate of the label entered."""

from lawn.engine.core.errors import EngineError, missing
from lawn.engine.core.measuring import LOAD_SHARE
from lawn.engine.core.numeric import at_least, choice, group, listing, number, optional_number, text, total
from lawn.engine.core.working import COMMON, DEFINITION, nitrogen_step, phosphate_step, step
from lawn.engine.product.beyond import refuse_beyond_any_label
from lawn.engine.product.label import (
    nutrient_rate_kg_m2,
    product_rate_kg_m2,
    rate_for_nitrogen,
    refuse_over_whole,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_ZONES = 30  # every set of up to four out of 30 is about 32,000 sets
SET_SIZE = 4
MOST_CHOICES = 12
TOLERANCE = 0.05  # "within 5 %" is how close an application should come to its rate
TOLERANCE_SOURCE = "UMASS-SPREAD"


def aim(
    *,
    aim: dict[str, object],
    area_m2: float,
    net_kg: float,
    coverage_m2: float | None = None,
    n_percent: float | None = None,
    p2o5_percent: float | None = None,
    sort: str | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """What to put down: the label's rate, a wanted nitrogen, or bags over this ground; never what no label could allow.

    Args:
        aim: the aim as chosen [group of values]
        aim.kind: label, nitrogen or bag [one of label, nitrogen, bag]
        aim.n_kg_m2?: nitrogen wanted, for kind nitrogen [kg/m2; 0.000001 to 5]
        aim.bags?: bags to put down, for kind bag [bags; 0.001 to 1000]
        area_m2: ground to cover [m2; 0.5 to 100000]
        net_kg: net weight of one bag [kg; 0.01 to 2000]
        coverage_m2?: ground one bag covers by its label; needed for kind label [m2; 0.5 to 100000]
        n_percent?: nitrogen on the label; needed for kind nitrogen [%; 0 to 100]
        p2o5_percent?: phosphate, P2O5, on the label [%; 0 to 100]
        sort?: sort of the product [text]
    Returns:
        target_kg_m2: product per area [kg/m2]
        mass_kg: product for the ground [kg]
        load_most_kg: what a scale may show of it, since none can be set finer than 2 % [kg]
        bags: the same in bags, not rounded [bags]
        n_kg_m2: nitrogen per area, null if the label's nitrogen is unknown [kg/m2 or null]
        p2o5_kg_m2: phosphate per area, null if the label's is unknown [kg/m2 or null]
        label_share: aim over label rate, null if the coverage is unknown [share or null]
        over_label: false, since an aim over the label is refused; null if the coverage is unknown [true or false or
            null]
    Raises:
        over_label: the aim is more than the label's rate; high is the most allowed
        beyond_any_label: more than any label could allow of this sort; low or high is the limit of the field named
        over_whole: nitrogen and phosphate on the label are over 100 % together
        missing_argument: the kind of aim needs a value that was not given
        out_of_range: an argument is outside its range
    Source: RUTGERS-FERT
    Checked: 1 lb of nitrogen per 1,000 ft2 from a 20 % product takes 5 lb (RUTGERS-FERT)
    """
    chosen = group("aim", aim, ("kind", "n_kg_m2", "bags"))
    kind = choice("aim.kind", chosen.get("kind"), ("label", "nitrogen", "bag"))
    number("area_m2", area_m2)
    number("net_kg", net_kg)
    coverage = optional_number("coverage_m2", coverage_m2)
    nitrogen = optional_number("n_percent", n_percent)
    refuse_over_whole(n_percent=n_percent, p2o5_percent=p2o5_percent)
    label_kg_m2 = None if coverage is None else product_rate_kg_m2(net_kg=net_kg, coverage_m2=coverage)
    target_kg_m2, working = _target(kind, chosen, area_m2, net_kg, coverage, nitrogen)
    number("target_kg_m2", target_kg_m2)
    _refuse_over_label(kind, chosen, target_kg_m2, label_kg_m2, area_m2, net_kg, nitrogen)
    refuse_beyond_any_label(
        kind=kind,
        sort=sort,
        target_kg_m2=target_kg_m2,
        area_m2=area_m2,
        net_kg=net_kg,
        n_percent=nitrogen,
        given={"bags": chosen.get("bags"), "n_kg_m2": chosen.get("n_kg_m2"), "coverage_m2": coverage_m2},
    )
    mass_kg = target_kg_m2 * area_m2
    working.append(_mass_step(target_kg_m2, area_m2, mass_kg))
    working.append(_load_step(mass_kg))
    if label_kg_m2 is not None:
        working.append(_share_step(target_kg_m2, label_kg_m2))
    n_kg_m2 = None
    if nitrogen is not None:
        n_kg_m2 = nutrient_rate_kg_m2(rate_kg_m2=target_kg_m2, percent=nitrogen)
        working.append(nitrogen_step(target_kg_m2, nitrogen, n_kg_m2))
    p2o5 = optional_number("p2o5_percent", p2o5_percent)
    p2o5_kg_m2 = None
    if p2o5 is not None:
        p2o5_kg_m2 = nutrient_rate_kg_m2(rate_kg_m2=target_kg_m2, percent=p2o5)
        working.append(phosphate_step(target_kg_m2, p2o5, p2o5_kg_m2))
    working.append(_bags_step(mass_kg, net_kg))
    value: dict[str, object] = {
        "target_kg_m2": target_kg_m2,
        "mass_kg": mass_kg,
        "load_most_kg": (1.0 + LOAD_SHARE) * mass_kg,
        "bags": mass_kg / net_kg,
        "n_kg_m2": n_kg_m2,
        "p2o5_kg_m2": p2o5_kg_m2,
        "label_share": None if label_kg_m2 is None else target_kg_m2 / label_kg_m2,
        "over_label": None if label_kg_m2 is None else False,
    }
    return value, working


def match(
    *, coverage_m2: float, zones: list[object], tolerance_share: float | None = None, net_kg: float | None = None
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Sets of up to four zones that suit one bag, best first.

    A set a little larger than the coverage gets a little less than the label's rate from the whole bag. A set a little
    smaller gets the label's rate, and the rest stays in the bag: the whole bag would be over the label.

    Args:
        coverage_m2: ground one bag covers by its label [m2; 0.5 to 100000]
        zones: the zones to choose from, 1 to 30 [list]
        zones.id: the zone [text]
        zones.area_m2: its area [m2; 0.5 to 100000]
        tolerance_share?: how far below the label's rate a set may come, or how much of the bag may stay in it; 0.05
            when not said [share; 0 to 0.5]
        net_kg?: net weight of the bag, for what stays in it [kg; 0.01 to 2000]
    Returns:
        choices: up to 12 sets of zones [list]
        choices.ids: its zones [list of texts]
        choices.area_m2: their ground [m2]
        choices.rate_share: rate over label rate, never over 1 [share]
        choices.left_share: share of the bag, staying in it [share]
        choices.left_kg: the same as a mass; null without a net weight [kg or null]
    Raises:
        out_of_range: an argument is outside its range
        repeated: a zone stands twice in the list
    Source: UMASS-SPREAD
    Checked: 5.0 lb wanted counts as met from 4.75 lb upwards (UMASS-SPREAD)
    """
    coverage = number("coverage_m2", coverage_m2)
    given = optional_number("tolerance_share", tolerance_share)
    tolerance = TOLERANCE if given is None else given
    rows = zone_rows("zones", zones, MOST_ZONES)
    net = optional_number("net_kg", net_kg)
    found: list[tuple[float, int, list[str], float]] = []
    for ids, area_m2 in _sets(rows):
        fit = min(coverage, area_m2) / max(coverage, area_m2)
        if at_least(fit, 1.0 - tolerance):
            found.append((-fit, len(ids), ids, area_m2))
    found.sort(key=lambda row: (row[0], row[1], row[2]))
    working = [_match_step(coverage, tolerance, len(found))]
    choices = []
    for _fit, _size, ids, area_m2 in found[:MOST_CHOICES]:
        chosen: dict[str, object] = {"ids": ids, "area_m2": area_m2}
        rate_share, left_share = min(1.0, coverage / area_m2), max(0.0, 1.0 - area_m2 / coverage)
        left_kg = None if net is None else left_share * net
        chosen.update({"rate_share": rate_share, "left_share": left_share, "left_kg": left_kg})
        choices.append(chosen)
        working.extend(_set_steps(coverage, ids, area_m2, rate_share))
        working.extend(_left_steps(coverage, area_m2, left_share, net))
    return {"choices": choices}, working


def zone_rows(path: str, zones: object, most: int) -> list[tuple[str, float]]:
    """Read a list of zones with id and area_m2.

    Args:
        path: where the list stands, for error names [text]
        zones: the list [list]
        most: how many there may be [zones]
    Returns:
        rows: (id, area in m2) in the order given [list]
    Raises:
        repeated: a zone stands twice in the list
        out_of_range: an area is outside its range
    Source: definition
    """
    rows: list[tuple[str, float]] = []
    for at, item in enumerate(listing(path, zones, 1, most)):
        here = path + "[" + str(at) + "]"
        zone = group(here, item, ("id", "area_m2"))
        zone_id = text(here + ".id", zone.get("id"))
        if any(row[0] == zone_id for row in rows):
            raise EngineError(
                code="repeated", name=here + ".id", value=zone_id, message="This zone stands twice in the list."
            )
        rows.append((zone_id, number(here + ".area_m2", zone.get("area_m2"))))
    return rows


def _target(
    kind: str,
    chosen: dict[str, object],
    area_m2: float,
    net_kg: float,
    coverage_m2: float | None,
    n_percent: float | None,
) -> tuple[float, list[dict[str, object]]]:
    if kind == "label":
        if coverage_m2 is None:
            raise missing(name="coverage_m2", low=0.5, high=100000.0)
        label_kg_m2 = product_rate_kg_m2(net_kg=net_kg, coverage_m2=coverage_m2)
        label: dict[str, object] = {"net_kg": net_kg, "coverage_m2": coverage_m2}
        return label_kg_m2, [_target_step("net weight over coverage", label, label_kg_m2, DEFINITION)]
    if kind == "nitrogen":
        wanted = number("aim.n_kg_m2", chosen.get("n_kg_m2"), 0.000001)
        percent = number("n_percent", n_percent, 0.01)
        found, steps = rate_for_nitrogen(n_kg_m2=wanted, n_percent=percent)
        shown: Any = steps[0]
        rate: Any = found["rate_kg_m2"]
        return rate, [_target_step(shown["formula"], shown["numbers"], rate, shown["source"])]
    bags = number("aim.bags", chosen.get("bags"))
    result = bags * net_kg / area_m2
    formula = "bags times net weight over the ground"
    return result, [_target_step(formula, {"bags": bags, "net_kg": net_kg, "area_m2": area_m2}, result, DEFINITION)]


def _refuse_over_label(
    kind: str,
    chosen: dict[str, object],
    target_kg_m2: float,
    label_kg_m2: float | None,
    area_m2: float,
    net_kg: float,
    n_percent: float | None,
) -> None:
    """Refuse more than the label allows, saying the most allowed in the terms the aim was given in."""
    if label_kg_m2 is None or at_least(label_kg_m2, target_kg_m2):
        return
    field, most = "bags", label_kg_m2 * area_m2 / net_kg
    if kind == "nitrogen" and n_percent is not None:
        field, most = "n_kg_m2", label_kg_m2 * n_percent / 100.0
    raise EngineError(
        code="over_label",
        name="aim." + field,
        value=chosen.get(field),
        low=0.0,
        high=most,
        message="This is more than the rate on the label, and the label comes first.",
    )


def _sets(rows: list[tuple[str, float]]) -> list[tuple[list[str], float]]:
    """Every set of one to four zones, with its area."""
    sets: list[tuple[list[str], list[float], int]] = [([], [], 0)]
    done: list[tuple[list[str], float]] = []
    for _ in range(SET_SIZE):
        grown: list[tuple[list[str], list[float], int]] = []
        for ids, areas, first in sets:
            for at in range(first, len(rows)):
                grown.append((ids + [rows[at][0]], areas + [rows[at][1]], at + 1))
        done.extend([(ids, total(areas)) for ids, areas, _first in grown])
        sets = grown
    return done


def _target_step(formula: str, numbers: dict[str, object], result: float, source: str) -> dict[str, object]:
    return step(
        what="Product to put down per area",
        formula=formula,
        numbers=numbers,
        result=result,
        unit="kg/m2",
        source=source,
    )


def _mass_step(target_kg_m2: float, area_m2: float, mass_kg: float) -> dict[str, object]:
    return step(
        what="Product for the area",
        formula="product per area times the area",
        numbers={"target_kg_m2": target_kg_m2, "area_m2": area_m2},
        result=mass_kg,
        unit="kg",
        source="UNL-BYF",
    )


def _share_step(target_kg_m2: float, label_kg_m2: float) -> dict[str, object]:
    return step(
        what="Share of the label's rate",
        formula="product per area over the rate of the label",
        numbers={"target_kg_m2": target_kg_m2, "label_kg_m2": label_kg_m2},
        result=target_kg_m2 / label_kg_m2,
        unit="share",
        source=DEFINITION,
    )


def _match_step(coverage_m2: float, tolerance_share: float, count: int) -> dict[str, object]:
    return step(
        what="Sets of zones that suit a bag",
        formula="sets of up to four zones whose area is the coverage, a little more or a little less; best is nearest",
        numbers={"coverage_m2": coverage_m2, "tolerance_share": tolerance_share},
        result=count,
        unit="sets",
        source=TOLERANCE_SOURCE,
    )


def _load_step(mass_kg: float) -> dict[str, object]:
    return step(
        what="Taken as exactly that on a scale",
        formula="the product for the ground and what a scale cannot be set finer than",
        numbers={"mass_kg": mass_kg, "share": LOAD_SHARE},
        result=(1.0 + LOAD_SHARE) * mass_kg,
        unit="kg",
        source=COMMON,
    )


def _bags_step(mass_kg: float, net_kg: float) -> dict[str, object]:
    return step(
        what="Bags that is",
        formula="product for the area over net weight of a bag",
        numbers={"mass_kg": mass_kg, "net_kg": net_kg},
        result=mass_kg / net_kg,
        unit="bags",
        source=DEFINITION,
    )


def _set_steps(coverage_m2: float, ids: list[str], area_m2: float, rate_share: float) -> list[dict[str, object]]:
    return [
        step(
            what="Area of a set",
            formula="areas of its zones, added",
            numbers={"zones": ids},
            result=area_m2,
            unit="m2",
            source=DEFINITION,
        ),
        step(
            what="Share of the label's rate on that set",
            formula="coverage over the set's area, and never more than the label's rate",
            numbers={"coverage_m2": coverage_m2, "area_m2": area_m2},
            result=rate_share,
            unit="share",
            source=DEFINITION,
        ),
    ]


def _left_steps(coverage_m2: float, area_m2: float, left_share: float, net_kg: float | None) -> list[dict[str, object]]:
    steps = [
        step(
            what="Share of the bag that stays in it",
            formula="1 less the set's area over the coverage, none where the set is larger",
            numbers={"coverage_m2": coverage_m2, "area_m2": area_m2},
            result=left_share,
            unit="share",
            source=DEFINITION,
        )
    ]
    if net_kg is not None:
        steps.append(
            step(
                what="Product that stays in the bag",
                formula="share that stays times net weight",
                numbers={"left_share": left_share, "net_kg": net_kg},
                result=left_share * net_kg,
                unit="kg",
                source=DEFINITION,
            )
        )
    return steps
