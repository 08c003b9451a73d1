"""What is checked, read and checked itself: jobs, zones, labels, soil tests and days of weather."""

from lawn.engine.core.dates import day_number, day_text, moment_s, year_of
from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import flag, group, listing, optional_number, text
from lawn.engine.log.entries import NO_NITROGEN

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_JOBS = 5000
MOST_ZONES = 1000
MOST_PRODUCTS = 1000
MOST_DAYS = 4000
MOST_MOWS = 5000
MOST_TESTS = 1000
FEEDS = ("fertilizer", "other")  # what may bring nitrogen that nobody entered
SOWN = "sown"  # stands for a sowing that is told of the zone, not among the jobs
LABEL = ("interval_days", "uses_year", "year_kg_m2", "label_kg_m2", "seed_wait_days")
TOLD = ("id", "date", "zone", "sort", "product", "rate_kg_m2", "n_kg_m2", "p2o5_kg_m2", "slow_n_share", "watered_in")
JOB = TOLD + ("clear_m", "guarded", "phosphate_needed") + LABEL
DAY = ("date", "soil_c", "mean_c", "rain_mm")


def jobs_of(*, jobs: object, products: object) -> "list[dict[str, Any]]":
    """Every job with what its label says, in the order done: by day, those of one day as they stand in the list.

    Args:
        jobs: the jobs, planned or done, as `limits.check` takes them [list]
        products: what labels say, likewise [list]
    Returns:
        jobs: each checked, in the shape that the rules of the log read [list]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a date is none
        repeated: a job stands twice for one zone
    Source: definition
    """
    labels = _labels(products)
    rows: list[tuple[int, int, dict[str, Any]]] = []
    seen: set[tuple[str, str]] = set()
    for at, item in enumerate(listing("jobs", jobs, 0, MOST_JOBS)):
        job = _job("jobs[" + str(at) + "]", item, labels)
        if (job["id"], job["zone"]) in seen:
            raise repeated("jobs[" + str(at) + "]", job["id"], "This job stands twice for one zone.")
        seen.add((job["id"], job["zone"]))
        rows.append((job["day"], at, job))
    rows.sort(key=lambda row: (row[0], row[1]))
    return [row[2] for row in rows]


def _labels(products: object) -> "dict[str, dict[str, float | None]]":
    found: dict[str, dict[str, float | None]] = {}
    for at, item in enumerate(listing("products", products, 0, MOST_PRODUCTS) if products is not None else []):
        path = "products[" + str(at) + "]"
        row = group(path, item, ("id",) + LABEL)
        one = text(path + ".id", row.get("id"))
        if one in found:
            raise repeated(path, one, "This product stands twice in the list.")
        found[one] = {name: optional_number(path + "." + name, row.get(name)) for name in LABEL}
    return found


def _job(path: str, item: object, labels: "dict[str, dict[str, float | None]]") -> "dict[str, Any]":
    given = group(path, item, JOB)
    job: dict[str, Any] = {"id": text(path + ".id", given.get("id")), "zone": text(path + ".zone", given.get("zone"))}
    job["day"] = day_number(path + ".date", given.get("date"))
    job["date"], job["year"] = day_text(job["day"]), year_of(job["day"])
    job["moment_s"] = moment_s(path + ".date", given.get("date"))
    sort, product = given.get("sort"), given.get("product")
    job["sort"] = "fertilizer" if sort is None else text(path + ".sort", sort)
    job["product_id"] = None if product is None else text(path + ".product", product)
    for name in ("rate_kg_m2", "n_kg_m2", "p2o5_kg_m2", "slow_n_share", "clear_m"):
        job[name] = optional_number(path + "." + name, given.get(name))
    if job["n_kg_m2"] is None and (job["sort"] in NO_NITROGEN or job["sort"] not in FEEDS):
        job["n_kg_m2"] = 0.0
    for name in ("guarded", "phosphate_needed"):
        job[name] = flag(path + "." + name, given.get(name))
    watered = given.get("watered_in")
    job["watered_in"] = None if watered is None else flag(path + ".watered_in", watered)
    label = labels.get(job["product_id"] or "", {})
    for name in LABEL:
        own = optional_number(path + "." + name, given.get(name))
        job[name] = label.get(name) if own is None else own
    return job


def by_zone(*, jobs: "list[dict[str, Any]]", zones: "dict[str, dict[str, Any]]") -> "dict[str, list[dict[str, Any]]]":
    """The jobs of each zone as applications, in the order done; a sowing told of the zone stands among them.

    Args:
        jobs: jobs as `jobs_of` gives them [list]
        zones: zones as `zones_of` gives them [group of values]
    Returns:
        zones: by zone id its applications, as `log.applications` has them [group of values]
    Source: definition
    """
    found: dict[str, list[dict[str, Any]]] = {}
    for job in jobs:
        found.setdefault(job["zone"], []).append(_application(job))
    for zone_id in found:
        day = zones[zone_id]["sown"]
        if day is not None:
            before = [one for one in found[zone_id] if one["day"] < day]
            found[zone_id] = before + [_application(_sowing(zone_id, day))] + found[zone_id][len(before) :]
    return found


def _application(job: "dict[str, Any]") -> "dict[str, Any]":
    job.setdefault("at", 1)
    n_kg_m2, slow = job["n_kg_m2"], job["slow_n_share"]
    return {
        "spread": job,
        "day": job["day"],
        "sort": job["sort"],
        "n_kg_m2": n_kg_m2,
        # Nitrogen of unknown release counts as quick: the cautious side.
        "quick_n_kg_m2": None if n_kg_m2 is None else n_kg_m2 * (1.0 - (slow or 0.0)),
        "p2o5_kg_m2": job["p2o5_kg_m2"],
        "rate_kg_m2": job["rate_kg_m2"],
    }


def _sowing(zone_id: str, day: int) -> "dict[str, Any]":
    job: dict[str, Any] = dict.fromkeys(("product_id", "p2o5_kg_m2", "slow_n_share", "rate_kg_m2") + LABEL)
    job.update({"id": SOWN, "zone": zone_id, "sort": "seed", "n_kg_m2": 0.0, "at": 0})
    job.update({"day": day, "date": day_text(day), "year": year_of(day), "moment_s": day * 86400.0})
    return job


ZONE = ("id", "grass", "turf", "near_water", "shade", "sun", "sown", "area_m2", "setback_m", "watered", "mows")


def zones_of(*, zones: object) -> "dict[str, dict[str, Any]]":
    """The zones by id; whatever else a zone is told to have is let pass.

    Args:
        zones: the zones, as `limits.check` takes them [list]
    Returns:
        zones: by id, each checked [group of values]
    Raises:
        out_of_range: a number is outside its range
        repeated: a zone stands twice in the list
    Source: definition
    """
    found: dict[str, dict[str, Any]] = {}
    for at, item in enumerate(listing("zones", zones, 0, MOST_ZONES)):
        path = "zones[" + str(at) + "]"
        given = item if isinstance(item, dict) else group(path, item, ZONE)
        one = text(path + ".id", given.get("id"))
        if one in found:
            raise repeated(path, one, "This zone stands twice in the list.")
        found[one] = _zone(path, given)
    return found


def _zone(path: str, given: "dict[Any, Any]") -> "dict[str, Any]":
    zone: dict[str, Any] = {}
    for name in ("grass", "turf"):
        zone[name] = None if given.get(name) is None else text(path + "." + name, given.get(name))
    zone["near_water"] = flag(path + ".near_water", given.get("near_water"))
    zone["shade"] = flag(path + ".shade", given.get("shade"))
    zone["watered"] = flag(path + ".watered", given.get("watered"))
    zone["setback_m"] = optional_number(path + ".setback_m", given.get("setback_m"))
    zone["sown"] = None if given.get("sown") is None else day_number(path + ".sown", given.get("sown"))
    mows = listing(path + ".mows", given.get("mows") or [], 0, MOST_MOWS)
    zone["mows"] = sorted([moment_s(path + ".mows[" + str(at) + "]", one) for at, one in enumerate(mows)])
    return zone


TEST = ("date", "zone", "p_mg_kg", "p_method", "phosphate_needed")
P_METHOD = "mehlich_3"  # the figures of the rules are of this one; other methods draw more or less out


def tests_of(*, soil_tests: object) -> "list[dict[str, Any]]":
    """Soil tests with what they say of phosphorus; what else they say is let pass.

    Args:
        soil_tests: the tests, as `limits.check` takes them [list]
    Returns:
        tests: each with day, zone (null: the whole yard), p_mg_kg and phosphate_needed [list]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a date is none
    Source: definition
    """
    found = []
    for at, item in enumerate(listing("soil_tests", soil_tests, 0, MOST_TESTS) if soil_tests is not None else []):
        path = "soil_tests[" + str(at) + "]"
        given = item if isinstance(item, dict) else group(path, item, TEST)
        zone, method = given.get("zone"), given.get("p_method")
        found.append(
            {
                "comparable": method is None or text(path + ".p_method", method) == P_METHOD,
                "day": day_number(path + ".date", given.get("date")),
                "zone": None if zone is None else text(path + ".zone", zone),
                "p_mg_kg": optional_number(path + ".p_mg_kg", given.get("p_mg_kg")),
                "phosphate_needed": flag(path + ".phosphate_needed", given.get("phosphate_needed")),
            }
        )
    return found


def days_of(*, days: object) -> "dict[int, dict[str, float | None]]":
    """Days of weather by their number; what else is known of a day is let pass.

    Args:
        days: the days, as `limits.check` takes them [list]
    Returns:
        days: by day number, each with soil_c, mean_c and rain_mm, null where not known [group of values]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a date is none
    Source: definition
    """
    found: dict[int, dict[str, float | None]] = {}
    for at, item in enumerate(listing("days", days, 0, MOST_DAYS) if days is not None else []):
        path = "days[" + str(at) + "]"
        given = item if isinstance(item, dict) else group(path, item, DAY)
        day = day_number(path + ".date", given.get("date"))
        found[day] = {name: optional_number(path + "." + name, given.get(name)) for name in DAY[1:]}
    return found
