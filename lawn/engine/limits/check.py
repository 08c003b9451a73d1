"""Looks at any plan or log, and says which rules it breaks."""

from lawn.engine.core.errors import EngineError
from lawn.engine.core.numeric import text
from lawn.engine.core.working import DEFINITION, step
from lawn.engine.limits.amounts import too_much
from lawn.engine.limits.apart import apart
from lawn.engine.limits.conditions import wrong_day
from lawn.engine.limits.given import by_zone, days_of, jobs_of, tests_of, zones_of
from lawn.engine.limits.rows import holding, read_rules

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

NOT_THE_LAW = "Rules as printed or entered, not legal advice. The label and your local law come first."


def check(
    *,
    jobs: list[object],
    zones: list[object],
    rules: list[object],
    place: str | None = None,
    soil_tests: list[object] | None = None,
    days: list[object] | None = None,
    products: list[object] | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Which rules a plan, a log, or both together break. It knows no planner: only jobs, ground and rules.

    Of the rules of one kind (and grass) the strictest of the place holds; where the place is not known the strictest of
    all. Nitrogen of unknown release counts as quick. Weather that is not known speaks against nothing.

    Args:
        jobs: jobs planned or done, a row a zone, up to 5000 [list]
        jobs.id: the job; the same on each of its zones [text]
        jobs.date: day it is to be done [date]
        jobs.zone: its zone [text]
        jobs.sort?: sort of product, as a record has it; fertilizer when not said [text]
        jobs.product?: its product [text]
        jobs.rate_kg_m2?: product per area [kg/m2; 0.000001 to 50]
        jobs.n_kg_m2?: nitrogen per area; not known when not said, none for what brings none [kg/m2; 0 to 5]
        jobs.p2o5_kg_m2?: phosphate per area [kg/m2; 0 to 5]
        jobs.slow_n_share?: slow-release share of its nitrogen; none when not said [share; 0 to 1]
        jobs.watered_in?: whether it is watered in [true or false]
        jobs.clear_m?: ground it keeps clear of water [m; 0 to 100]
        jobs.guarded?: whether a drop spreader or an edge deflector is used [true or false]
        jobs.phosphate_needed?: a soil test asks for its phosphate, or it is for seeding [true or false]
        jobs.interval_days?: least days between two uses by its label [day; 0 to 365]
        jobs.uses_year?: most uses in a year by its label [uses; 0 to 100]
        jobs.year_kg_m2?: most of the product in a year by its label [kg/m2; 0 to 50]
        jobs.label_kg_m2?: most of it at once by its label [kg/m2; 0 to 50]
        jobs.seed_wait_days?: days from it to sowing by its label [day; 0 to 400]
        zones: the zones of the jobs; what else is known of one may stand there too [list]
        zones.id: the zone, once only [text]
        zones.grass?: key of its grass [text]
        zones.turf?: season of the grass, cool or warm; where not said heat counts as for cool [text]
        zones.near_water?: whether it runs down to water [true or false]
        zones.setback_m?: what stays clear of water by its label or local rule [m; 0 to 100]
        zones.shade?: whether it lies in shade [true or false]
        zones.sown?: day it was last sown [date]
        zones.mows?: days or moments it was mown since [list of texts]
        zones.watered?: whether it is watered in dry weather [true or false]
        rules: rules as `limits.rules` gives them [list]
        rules.kind: what it is about [one of all_days, all_once, closed, cold, drought, frozen, gentle_once, heat,
            lime_nitrogen, lime_once, lime_twice, pesticide_ban, phosphate, phosphate_once, phosphate_year,
            pre_after_seed, pre_twice, quick_days, quick_once, saturated, seed_after_pre, slow_least, spacing_quick,
            spacing_slow, summer_ban, water, water_in, year, young]
        rules.id?: its name in the answer; its kind when not said [text]
        rules.where?: key of the place it holds for; everywhere when not said [text]
        rules.grass?: the grass it holds for, or unknown; any when not said [text]
        rules.sort?: the sort of product it bans; any when not said [text]
        rules.most_kg_m2?: most at once, over its days, or in a year [kg/m2; 0 to 50]
        rules.over_days?: days between, or that it is added up over [day; 0 to 400]
        rules.within_years?: years a soil test counts [year; 0 to 20]
        rules.p_mg_kg?: phosphorus in the soil up to which a test asks for more [mg/kg; 0 to 5000]
        rules.limit_c?: temperature it turns at [C; -20 to 50]
        rules.limit_mm?: rain it turns at [mm; 0 to 500]
        rules.clear_m?: ground kept clear of water [m; 0 to 100]
        rules.guarded_m?: the same with a drop spreader or an edge deflector [m; 0 to 100]
        rules.least_slow_share?: slow-release share from which a feed counts as slow [share; 0 to 1]
        rules.from?: first closed day of every year, as 11-16 [text]
        rules.to?: last closed day, as 02-29 [text]
        rules.cap?: never passed, whatever the place allows [true or false]
        rules.only_here?: does not hold where the place is not known [true or false]
        rules.assumed?: the strictest of all, since the place is not known [true or false]
        rules.off?: does not hold [true or false]
        rules.source?: who printed it, or entered by you; common practice when not said [text]
        rules.sources?: the same as a list, the first counts [list of texts]
        rules.date?: as of when [text]
        rules.printed?: how it is printed [text]
        place?: key of the place; not known when not said [text]
        soil_tests?: soil tests; what else one says may stand there too [list]
        soil_tests.date: day of the sample [date]
        soil_tests.zone?: its zone; the whole yard when not said [text]
        soil_tests.p_mg_kg?: phosphorus found [mg/kg; 0 to 5000]
        soil_tests.p_method?: how the lab drew it out; the figure counts for mehlich_3, or where not said [text]
        soil_tests.phosphate_needed?: whether its report asks for phosphate [true or false]
        days?: days of weather, past and forecast, in any order [list]
        days.date: the day [date]
        days.soil_c?: mean soil temperature [C; -40 to 60]
        days.mean_c?: mean air temperature [C; -60 to 60]
        days.rain_mm?: rain [mm; 0 to 1000]
        products?: what labels say, for jobs that name the product [list]
        products.id: the product, once only [text]
        products.interval_days?: as of a job [day; 0 to 365]
        products.uses_year?: as of a job [uses; 0 to 100]
        products.year_kg_m2?: as of a job [kg/m2; 0 to 50]
        products.label_kg_m2?: as of a job [kg/m2; 0 to 50]
        products.seed_wait_days?: as of a job [day; 0 to 400]
    Returns:
        breaches: every rule that is broken, by day, in the order of the jobs [list]
        breaches.job: the job that breaks it [text]
        breaches.rule: the rule, by its id [text]
        breaches.kind: what it is about, as of the rules, and label_interval, label_uses, label_year, label_rate [one of
            all_days, all_once, closed, cold, drought, frozen, gentle_once, heat, label_interval, label_rate,
            label_uses, label_year, lime_nitrogen, lime_once, lime_twice, pesticide_ban, phosphate, phosphate_once,
            phosphate_year, pre_after_seed, pre_twice, quick_days, quick_once, saturated, seed_after_pre, slow_least,
            spacing_quick, spacing_slow, summer_ban, water, water_in, year, young]
        breaches.zone: the zone [text]
        breaches.date: day of the job [date]
        breaches.figure: what was found; null where nothing is measured [number or null]
        breaches.ceiling: what the rule allows, likewise [number or null]
        breaches.unit: unit of both, likewise [text or null]
        breaches.source: who says so: a source, label, common practice, or entered by you [text]
        breaches.since: as of when, where the rule says it [text or null]
        breaches.says: what to do and why, in plain words without figures of a unit [text]
        breaches.days: days of the rule, where it has some [day or null]
        breaches.others: other jobs that count in it [list of texts]
        breaches.right_from: the day from which it would be right, null where waiting alone does not help [date or null]
        breaches.loosened_by: which answers would loosen it: place, local_rule, soil_test, slow_share, setback, mows,
            watered [list of texts]
        breaches.loosens: the same as sentences [list of texts]
        rules: how many rules held [rules]
        not_the_law: that this is not the law, in a sentence [text]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a date is none
        not_a_choice: a rule is of no known kind
        missing_argument: a rule lacks the figure of its kind
        unknown_zone: a job is on a zone that is not among the zones
        repeated: a zone or a product stands twice, or a job twice on one zone
    Source: definition
    """
    held = holding(rows=read_rules(rules=rules), places=None if place is None else [text("place", place)])
    by_kind: dict[str, list[dict[str, Any]]] = {}
    for row in held:
        by_kind.setdefault(row["kind"], []).append(row)
    ground = zones_of(zones=zones)
    read = jobs_of(jobs=jobs, products=products)
    _check_zones(read, ground)
    tests, weather = tests_of(soil_tests=soil_tests), days_of(days=days)
    found: list[dict[str, Any]] = []
    applications = by_zone(jobs=read, zones=ground)
    for zone_id in sorted(applications):
        rows, zone = applications[zone_id], ground[zone_id]
        found.extend(apart(zone_id=zone_id, rows=rows, zone=zone, rules=by_kind))
        found.extend(too_much(rows=rows, zone=zone, rules=by_kind, tests=tests))
        for one in rows:
            if one["spread"]["at"]:
                found.extend(wrong_day(one=one, zone=zone, rules=by_kind, days=weather))
    return _answer(found, read, len(held))


def _check_zones(jobs: "list[dict[str, Any]]", zones: "dict[str, Any]") -> None:
    for job in jobs:
        if job["zone"] not in zones:
            message = "This job is on a zone that is not in the list of zones."
            raise EngineError(code="unknown_zone", name="jobs.zone", value=job["zone"], message=message)


def _answer(
    found: "list[dict[str, Any]]", jobs: "list[dict[str, Any]]", rules: int
) -> tuple[dict[str, object], list[dict[str, object]]]:
    order = {(job["id"], job["zone"]): at for at, job in enumerate(jobs)}
    keyed = [
        (order[(one["breach"]["job"], one["breach"]["zone"])], one["breach"]["kind"], at, one)
        for at, one in enumerate(found)
    ]
    keyed.sort(key=lambda row: row[:3])
    breaches = [row[3]["breach"] for row in keyed]
    working = [one for row in keyed for one in row[3]["steps"]]
    working.append(
        step(
            what="Rules that hold",
            formula="of each kind the strictest of the place, of all places where it is not known",
            numbers={"jobs": len(jobs), "breaches": len(breaches)},
            result=rules,
            unit="rules",
            source=DEFINITION,
        )
    )
    value: dict[str, object] = {"breaches": breaches, "rules": rules, "not_the_law": NOT_THE_LAW}
    return value, working
