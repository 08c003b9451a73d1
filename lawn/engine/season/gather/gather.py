"""From the book to what a season is planned from, in one answer."""

from lawn.engine.core.dates import day_number
from lawn.engine.core.working import COMMON, DEFINITION, N_UNIT, step
from lawn.engine.season.gather.doings import done_of, lately_of, put_down, unknown_of
from lawn.engine.season.gather.groups import groups_of, zones_of
from lawn.engine.season.gather.shed import products_of
from lawn.engine.season.gather.steps import steps_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


def gather(
    *, zones: object, products: object, entries: object, today: str, steps: object = None
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """What season.build takes, out of a household's book; what cannot be planned is named with the field it lacks.

    Zones become groups that are fed alike, labels products, the log of the last 365 days what is done. Zones are fed
    alike where grass, sun, use, water, what may go on and the jobs wanted are the same, and where what was put down on
    them in the last 42 days fell in the same weeks.

    Args:
        zones: the zones, up to 1000 [list]
        zones.id: the zone, once only [text]
        zones.area_m2?: its area [m2; 0.5 to 100000]
        zones.turf?: season of its grass [one of cool, warm]
        zones.grass?: key of its grass [text]
        zones.sun?: sun, part_shade or shade [text]
        zones.use?: what it is used for [text]
        zones.near_water?: whether water is near [true or false]
        zones.phosphate?: whether phosphate may go on [true or false]
        zones.jobs?: dated jobs that are wanted, as season.build takes them [list of texts]
        zones.apart?: a group of its own, by hand [true or false]
        zones.aim_n_kg_m2?: nitrogen of a year [kg/m2; 0 to 0.1]
        zones.n_once_kg_m2?: nitrogen at once at most [kg/m2; 0 to 5]
        zones.n_quick_once_kg_m2?: its quick part at most [kg/m2; 0 to 5]
        zones.n_year_kg_m2?: nitrogen of a year at most [kg/m2; 0 to 5]
        products: the products of the shed, up to 500 [list]
        products.id: the product, once only [text]
        products.sort?: what it is [one of fertilizer, pre_emergent, post_emergent, lime, seed, other]
        products.net_kg?: weight of a bag [kg; 0.01 to 2000]
        products.coverage_m2?: ground a bag covers by its label [m2; 0.5 to 100000]
        products.price?: price of a bag [money; 0 to 100000]
        products.left_kg?: what is left, as record.totals tells it; below 0 counts as nothing [kg; -20000 to 20000]
        products.n_percent?: nitrogen on the label [%; 0 to 100]
        products.p2o5_percent?: phosphate on the label [%; 0 to 100]
        products.slow_n_share?: slow-release share of its nitrogen [share; 0 to 1]
        products.source?: kind of nitrogen
            [one of soluble, sulfur_coated, polymer_coated, condensed, ibdu, natural]
        products.interval_days?: least days between uses by the label [day; 0 to 365]
        products.wait_days?: days from this pre-emergent to seeding [day; 0 to 365]
        entries: the log, as record.totals takes it [list]
        today: the day of planning [date]
        steps?: steps of the plan that stands, up to 2000 [list]
        steps.date: day of the step [date]
        steps.zones: its zones [list of texts]
        steps.product?: its product [text]
        steps.job?: its job, where it is a dated one [text]
        steps.locked?: whether it stays where it is [true or false]
    Returns:
        groups: ground that is fed alike, the largest first, named by the first of its zones by id [list]
        groups.id: the group [text]
        groups.zones: its zones [list of texts]
        groups.area_m2: its area [m2]
        groups.turf: season of its grass [one of cool, warm]
        groups.phosphate: whether phosphate may go on [true or false]
        groups.jobs: dated jobs that are wanted [list of texts]
        groups.aim_n_kg_m2?: nitrogen of a year, where it was said [kg/m2]
        groups.n_once_kg_m2?: nitrogen at once at most, likewise [kg/m2]
        groups.n_quick_once_kg_m2?: its quick part at most, likewise [kg/m2]
        groups.n_year_kg_m2?: nitrogen of a year at most, likewise [kg/m2]
        products: what a plan may use [list]
        products.id: the product [text]
        products.sort: what it is [one of fertilizer, pre_emergent, post_emergent, lime, seed, other]
        products.net_kg: weight of a bag [kg]
        products.price: price of a bag, the dearest of the others taken where nobody entered one [money]
        products.rate_kg_m2: the label's rate [kg/m2]
        products.stock_kg: what is in the shed [kg]
        products.n_percent?: nitrogen on the label, where it was said [%]
        products.p2o5_percent?: phosphate, likewise [%]
        products.slow_n_share?: slow-release share, likewise [share]
        products.source?: kind of nitrogen, likewise
            [one of soluble, sulfur_coated, polymer_coated, condensed, ibdu, natural]
        products.interval_days?: least days between uses, likewise [day]
        products.wait_days?: days to seeding, likewise [day]
        done: what was put down in the last 365 days, group by group [list]
        done.date: day [date]
        done.group: the group [text]
        done.n_kg_m2: nitrogen that came with it, the most that a zone of the group had [kg/m2]
        done.product?: the product, where it is known [text]
        done.slow_n_share?: slow-release share of its nitrogen, likewise [share]
        locked: steps from today on that stay where they are, by group [list]
        locked.date: day of the step [date]
        locked.group: the group [text]
        locked.product?: its product [text]
        locked.job?: its job [text]
        present: all steps from today on, by group [list]
        present.date: day of the step [date]
        present.group: the group [text]
        present.product?: its product [text]
        present.job?: its job [text]
        lacking_zones: zones no plan can take [list]
        lacking_zones.id: the zone [text]
        lacking_zones.lacks: the field it lacks [one of area_m2, turf]
        lacking_products: products no plan can take [list]
        lacking_products.id: the product [text]
        lacking_products.lacks: the field it lacks [one of sort, net_kg, coverage_m2, n_percent]
        unpriced: products whose price nobody entered [list of texts]
        unknown: entries of the last 365 days whose nitrogen nobody entered; it counts as none [list of texts]
    Raises:
        out_of_range: a number is outside its range
        repeated: a zone, a product or an entry stands twice
    Source: definition
    """
    day = day_number("today", today)
    ground, lacking_zones = zones_of(zones)
    rows = put_down(entries, day)
    groups = groups_of(ground, lately_of(rows, day))
    shed, lacking_products, unpriced = products_of(products)
    done = done_of(rows, groups)
    locked, present = steps_of([] if steps is None else steps, groups, day)
    value: dict[str, object] = {
        "groups": groups,
        "products": shed,
        "done": done,
        "locked": locked,
        "present": present,
        "lacking_zones": lacking_zones,
        "lacking_products": lacking_products,
        "unpriced": unpriced,
        "unknown": unknown_of(rows),
    }
    return value, _working(groups, shed, done, unpriced)


def _working(
    groups: "list[dict[str, Any]]", shed: "list[dict[str, Any]]", done: "list[dict[str, Any]]", unpriced: list[str]
) -> list[dict[str, object]]:
    rows = [
        step(
            what="Area of the group",
            formula="areas of its zones added",
            numbers={"zones": len(of["zones"])},
            result=of["area_m2"],
            unit="m2",
            source=DEFINITION,
            of=of["id"],
        )
        for of in groups
    ]
    rows += [
        step(
            what="Nitrogen of a feed on the group",
            formula="the most that any of its zones had",
            numbers={"date": one["date"]},
            result=one["n_kg_m2"],
            unit=N_UNIT,
            source=COMMON,
            of=one["group"],
        )
        for one in done
    ]
    rows += [
        step(
            what="Rate of the product",
            formula="net weight by coverage",
            numbers={"net_kg": one["net_kg"]},
            result=one["rate_kg_m2"],
            unit="kg/m2",
            source=DEFINITION,
            of=one["id"],
        )
        for one in shed
    ]
    rows += [
        step(
            what="Price where none was entered",
            formula="like the dearest of the others, for the same nitrogen or weight",
            numbers={"net_kg": one["net_kg"]},
            result=one["price"],
            unit="money",
            source=COMMON,
            of=one["id"],
        )
        for one in shed
        if one["id"] in unpriced
    ]
    return rows
