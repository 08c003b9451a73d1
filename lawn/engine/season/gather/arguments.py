"""From a household's book to what season.build takes: one chain, for the server and for phones."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import choice, group, listing, text
from lawn.engine.limits.rules import rules_of
from lawn.engine.nutrition.aim import yearly_aim
from lawn.engine.season.gather.asked import MOVED_COST, wishes_of
from lawn.engine.season.gather.gather import gather
from lawn.engine.season.gather.held import barred_of, ceilings_of, closed_days
from lawn.engine.season.gather.skeleton import skeleton
from lawn.engine.season.gather.standing import standing_of
from lawn.engine.season.turning import is_southern, year_of
from lawn.engine.warmth.response import TURFS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_ZONES = 1000
CLIMATE = ("monthly_mean_c", "warmest_c", "coldest_c", "southern")
TABLES = ("grasses", "general", "rules", "places", "seasons")
JOBS = ("pre_emergent", "overseed", "aerate", "soil_test")  # lime waits for a test that asks for it
ZONE = ("id", "area_m2", "grass", "sun", "use", "near_water", "apart")
USED = ("fertilizer", "pre_emergent", "seed", "lime", None)  # None: its sort is what it lacks
YEAR_ROW = ("low_kg_m2", "high_kg_m2", "sources")
JOB_ROW = ("job", "sort", "opens", "closes", "shares")


def arguments(
    *,
    zones: object,
    products: object,
    entries: object,
    climate: object,
    today: str,
    tables: object,
    place: str | None = None,
    own_rules: object = None,
    wishes: object = None,
    steps: object = None,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """What season.build takes, from a household's book, its wishes, its place and published tables.

    Aims and ceilings go by grass, the jobs of the year by the skeleton that suits the climate. What cannot be planned
    is named with the field it lacks, or the rule that bars it.

    Args:
        zones: the zones, up to 1000 [list]
        zones.id: the zone, once only [text]
        zones.area_m2?: its area [m2; 0.5 to 100000]
        zones.grass?: key of its grass [text]
        zones.sun?: sun, part_shade or shade [text]
        zones.use?: what it is used for [text]
        zones.near_water?: whether water is near [true or false]
        zones.apart?: a group of its own, by hand [true or false]
        products: the products of the shed, as season.gather takes them [list as season.gather]
        entries: the log, as record.totals takes it [list]
        climate: the place's usual year [group of values]
        climate.monthly_mean_c?: means of the twelve months, January first [list of numbers]
        climate.warmest_c?: mean of the warmest month, where the twelve are not known [C; -60 to 60]
        climate.coldest_c?: mean of the coldest month, with it [C; -60 to 60]
        climate.southern?: true where January is warm; asked for only with these two [true or false]
        today: the day of planning [date]
        tables: what is published [group of values]
        tables.grasses: grasses, as fixtures/published/grasses.json has them [list]
        tables.grasses.key: the grass [text]
        tables.grasses.season: its season [one of cool, warm]
        tables.grasses.nitrogen_year_rows: printed ranges of the year, as feeding.yearly_aim takes them [list]
        tables.general: printed ranges of lawns in general [list]
        tables.rules: printed rules, as limits.rules takes them [list as limits.rules]
        tables.places: the places there are, likewise [list as limits.rules]
        tables.seasons: the skeletons of the year, as fixtures/published/season_a.json has the first [list]
        tables.seasons.key: its letter [text]
        tables.seasons.jobs: its rows [list]
        place?: key of the household's place; not known when not said [text]
        own_rules?: rules the household entered itself, or turned off [list as limits.rules]
        wishes?: what the household wishes, as its plan record says it [group of values]
        wishes.level?: how green it is to be; middle when not said [one of low, middle, high]
        wishes.clippings?: what becomes of them; they stay when not said [one of left, collected]
        wishes.budget?: money to spend at most [money; 0 to 1000000]
        wishes.evenings_week?: evenings a week [evenings; 0 to 7]
        wishes.minutes_evening?: minutes of one [min; 5 to 1440]
        wishes.only_gentle?: only feeds that are mostly slow [true or false]
        wishes.skip_months?: months in which nothing is done, January being 1 [list of numbers]
        steps?: steps of the plan that stands, up to 2000 [list]
        steps.from_on: its first day [date]
        steps.to_on: its last day [date]
        steps.zones?: its zones [list of texts]
        steps.product?: its product [text]
        steps.job: what it is [one of feed, pre_emergent, overseed, lime, aerate, soil_test, other]
        steps.locked?: whether it stays where it is [true or false]
        steps.state?: how it stands; planned when not said [one of planned, done, put_off]
    Returns:
        plan: what season.build and season.read take [group of values]
        plan.groups: ground that is fed alike [list as season.gather]
        plan.products: what a plan may use [list as season.gather]
        plan.climate: the place's usual year [group of values]
        plan.climate.monthly_mean_c?: means of the twelve months, January first [list of numbers]
        plan.climate.warmest_c?: mean of the warmest month [C]
        plan.climate.coldest_c?: mean of the coldest month [C]
        plan.climate.southern?: true where January is warm [true or false]
        plan.climate.jobs: what is done in a year [list]
        plan.climate.jobs.job: its name [text]
        plan.climate.jobs.sort: what it is [text]
        plan.climate.jobs.turf: the season of grass it is for [one of cool, warm]
        plan.climate.jobs.opens: when it opens [group of values]
        plan.climate.jobs.opens.measure: what it goes by [text]
        plan.climate.jobs.opens.way?: on the way up or down [text]
        plan.climate.jobs.opens.edge_c?: temperature [C]
        plan.climate.jobs.opens.edge_potential?: share of the best growth [share]
        plan.climate.jobs.opens.month?: month of the northern year [month]
        plan.climate.jobs.opens.shift_days?: so many days after that [day]
        plan.climate.jobs.closes: when it closes [group of values]
        plan.climate.jobs.closes.measure: what it goes by [text]
        plan.climate.jobs.closes.way?: on the way up or down [text]
        plan.climate.jobs.closes.edge_c?: temperature [C]
        plan.climate.jobs.closes.edge_potential?: share of the best growth [share]
        plan.climate.jobs.closes.month?: month of the northern year [month]
        plan.climate.jobs.closes.shift_days?: so many days after that [day]
        plan.climate.jobs.shares?: its share of the year's nitrogen by yearly aim [list]
        plan.climate.jobs.shares.aim_lb_kft2: yearly aim [lb/1000 ft2]
        plan.climate.jobs.shares.share: share of the year [share]
        plan.rules: what holds at the place [group of values]
        plan.rules.closed: spans of days on which nothing is spread [list]
        plan.rules.closed.first: first day [date]
        plan.rules.closed.last: last day [date]
        plan.wishes: what the household would like [group of values]
        plan.wishes.evenings_week?: evenings a week [evenings]
        plan.wishes.evening_minutes?: minutes of one [min]
        plan.wishes.spend_most?: money to spend at most [money]
        plan.wishes.gentle_only: only feeds that are mostly slow [true or false]
        plan.wishes.skip: spans of days in which nothing is to be done [list]
        plan.wishes.skip.first: first day [date]
        plan.wishes.skip.last: last day [date]
        plan.wishes.moved_cost?: what a step that is not in the present plan counts for more [money]
        plan.wishes.present?: steps of the present plan, where there are any [list]
        plan.wishes.present.date: day of the step [date]
        plan.wishes.present.group: the group [text]
        plan.wishes.present.product?: its product [text]
        plan.wishes.present.job?: its job, where it is a dated one [text]
        plan.done: what was put down in the last 365 days, group by group [list as season.gather]
        plan.locked: steps that stay where they are [list as season.gather]
        plan.today: the day of planning [date]
        rules: the rules that hold, as limits.check takes them [list as limits.rules]
        state: whether rules of the place are known [one of known, unlisted, unknown]
        lacking_zones: zones no plan can take [list as season.gather]
        lacking_products: products no plan can take [list as season.gather]
        barred_products: products that a rule of the place keeps out [list]
        barred_products.id: the product [text]
        barred_products.rule: the kind of rule [one of pesticide_ban, slow_least]
        unpriced: products whose price nobody entered [list of texts]
        unknown: entries of the last 365 days whose nitrogen nobody entered [list of texts]
    Raises:
        out_of_range: a number is outside its range
        repeated: a zone, a product or an entry stands twice
        unknown_place: the place is not among the places
    Source: definition
    """
    day = day_number("today", today)
    given = group("tables", tables, TABLES)
    usual = dict(group("climate", climate, CLIMATE))
    year = year_of(usual)
    level, left, wished = wishes_of(wishes, day)
    held, working = rules_of(
        rules=given.get("rules"),  # type: ignore[arg-type]
        places=given.get("places"),  # type: ignore[arg-type]
        place=place,
        own_rules=own_rules,  # type: ignore[arg-type]
        grasses=given.get("grasses"),  # type: ignore[arg-type]
        general=given.get("general"),  # type: ignore[arg-type]
        southern=is_southern(year),
    )
    rules: Any = held["rules"]
    ground, added = _ground(zones, given.get("grasses"), level, left, rules)
    jobs, offered = _jobs(usual, ground, given.get("seasons"))
    turfs = {zone["id"]: zone["turf"] for zone in ground if "turf" in zone}
    standing = standing_of(steps, jobs, turfs, year, day)
    of_plan = [one for one in _listed("products", products, 500) if one.get("sort") in USED]
    found, gathered = gather(zones=ground, products=of_plan, entries=entries, today=today, steps=standing)
    barred = barred_of(found["products"], rules)  # type: ignore[arg-type]
    usual["jobs"] = jobs
    plan = _plan_of(found, [one["id"] for one in barred], wished)
    plan["climate"], plan["today"] = usual, today
    plan["rules"] = {"closed": closed_days(rules, int(day_text(day)[:4]))}
    value: dict[str, object] = {"plan": plan, "rules": rules, "state": held["state"], "barred_products": barred}
    for name in ("lacking_zones", "lacking_products", "unpriced", "unknown"):
        value[name] = found[name]
    return value, working + added + offered + gathered


def _plan_of(found: "dict[str, Any]", barred: list[str], wished: "dict[str, Any]") -> "dict[str, Any]":
    """What was gathered, less the products that a rule keeps out; a step that stands moves for a gain only."""
    if found["present"]:
        wished["present"], wished["moved_cost"] = found["present"], MOVED_COST
    plan = {name: found[name] for name in ("groups", "done", "locked")}
    plan["products"] = [one for one in found["products"] if one["id"] not in barred]
    plan["wishes"] = wished
    return plan


def _listed(name: str, value: object, most: int) -> "list[dict[str, Any]]":
    rows = listing(name, value, 0, most)
    return [row if isinstance(row, dict) else group(name, row, ()) for row in rows]


def _ground(
    zones: object, grasses: object, level: str, left: bool, rules: "list[dict[str, Any]]"
) -> "tuple[list[dict[str, Any]], list[dict[str, object]]]":
    """The zones as season.gather takes them, with the aim and the ceilings of their grass."""
    known = {row.get("key"): row for row in _listed("tables.grasses", grasses, MOST_ZONES)}
    ground, working = [], []
    for at, item in enumerate(listing("zones", zones, 0, MOST_ZONES)):
        path = "zones[" + str(at) + "]"
        row = group(path, item, ZONE)
        zone = {name: row[name] for name in ZONE if row.get(name) is not None}
        grass = known.get(zone.get("grass"))
        if grass is not None and "id" in zone:
            zone["turf"] = choice("tables.grasses.season", grass.get("season"), TURFS)
            zone["jobs"] = list(JOBS)
            limits, why = ceilings_of(zone, rules)
            aim, how = _aim(zone, grass, level, left)
            zone.update(limits)
            if aim is not None:
                zone["aim_n_kg_m2"] = min(aim, limits.get("n_year_kg_m2", aim))
            working += why + how
        ground.append(zone)
    return ground, working


def _aim(
    zone: "dict[str, Any]", grass: "dict[str, Any]", level: str, left: bool
) -> "tuple[float | None, list[dict[str, object]]]":
    rows = [
        {name: row[name] for name in YEAR_ROW if row.get(name) is not None}
        for row in _listed("tables.grasses.nitrogen_year_rows", grass.get("nitrogen_year_rows") or [], 100)
    ]
    asked: dict[str, Any] = {name: zone[name] for name in ("id", "grass", "sun") if name in zone}
    asked["year_rows"] = rows
    value, working = yearly_aim(zones=[asked], level=level, clippings=left)
    found: Any = value["zones"]
    return found[0]["n_year_kg_m2"], working


def _jobs(
    climate: "dict[str, Any]", ground: "list[dict[str, Any]]", seasons: object
) -> "tuple[list[dict[str, Any]], list[dict[str, object]]]":
    """Rows of the skeletons that suit the climate and the grass, each for one season of grass."""
    grown = [{name: zone[name] for name in ("turf", "grass") if name in zone} for zone in ground if "turf" in zone]
    value, working = skeleton(climate=climate, ground=grown)
    known = {text("tables.seasons.key", one.get("key")): one for one in _listed("tables.seasons", seasons, 20)}
    found = []
    offered: Any = value["offered"]
    for one in offered:
        for row in _listed("tables.seasons.jobs", known.get(one["key"], {}).get("jobs"), 100):
            if row.get("turf", one["turf"]) == one["turf"]:
                job = {name: row[name] for name in JOB_ROW if row.get(name) is not None}
                job["turf"] = one["turf"]
                found.append(job)
    return found, working
