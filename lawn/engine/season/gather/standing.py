"""Steps as they are kept, in the words of season.gather: a dated job by its row of the year's skeleton."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import choice, flag, group, listing, text
from lawn.engine.season.gather.steps import MOST_STEPS
from lawn.engine.season.turning import growth_of, next_open
from lawn.engine.season.windows import job_of, span_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

KEPT = ("from_on", "to_on", "zones", "product", "job", "locked", "state")
STEP_JOBS = ("feed", "pre_emergent", "overseed", "lime", "aerate", "soil_test", "other")
STATES = ("planned", "done", "put_off")


def standing_of(
    steps: object, jobs: "list[dict[str, Any]]", turfs: "dict[str, str]", year: "dict[str, Any]", day: int
) -> "list[dict[str, Any]]":
    """Those still to be done. What was done is told by the log; what was put off is planned anew."""
    found = []
    for at, item in enumerate(listing("steps", [] if steps is None else steps, 0, MOST_STEPS)):
        step = _step("steps[" + str(at) + "]", group("steps[" + str(at) + "]", item, KEPT))
        if step["state"] != "planned" or step["last"] < day or not step["zones"] or step["job"] == "other":
            continue
        kept: dict[str, Any] = {"date": day_text(max(step["first"], day)), "zones": step["zones"]}
        kept["locked"] = step["locked"]
        if step["product"] is not None:
            kept["product"] = step["product"]
        if step["job"] != "feed":
            kept["job"] = _row(step, jobs, turfs, year, day)
        if kept.get("job", kept.get("product")) is not None:
            found.append(kept)
    return found


def _step(path: str, row: "dict[str, Any]") -> "dict[str, Any]":
    zones = [
        text(path + ".zones[" + str(at) + "]", zone)
        for at, zone in enumerate(listing(path + ".zones", row.get("zones") or [], 0, 1000))
    ]
    return {
        "first": day_number(path + ".from_on", row.get("from_on")),
        "last": day_number(path + ".to_on", row.get("to_on")),
        "zones": zones,
        "product": None if row.get("product") is None else text(path + ".product", row.get("product")),
        "job": choice(path + ".job", row.get("job"), STEP_JOBS),
        "locked": flag(path + ".locked", row.get("locked")),
        "state": "planned" if row.get("state") is None else choice(path + ".state", row.get("state"), STATES),
    }


def _row(
    step: "dict[str, Any]", jobs: "list[dict[str, Any]]", turfs: "dict[str, str]", year: "dict[str, Any]", day: int
) -> "str | None":
    """The row of that sort for the grass of its zones whose window the step lies in, or is nearest to."""
    grown = [turfs[zone] for zone in step["zones"] if zone in turfs]
    best, name = 0, None
    for row in jobs:
        if row.get("sort") != step["job"] or row.get("turf") not in grown:
            continue
        span = span_of(_of_turf(year, row["turf"]), job_of("jobs", row))
        if span is None:
            continue
        opens = next_open(year, span[0], span[1] - span[0], day)
        off = max(opens - step["last"], step["first"] - (opens + span[1] - span[0]), 0)
        if name is None or off < best:
            best, name = off, str(row["job"])
    return name


def _of_turf(year: "dict[str, Any]", turf: str) -> "dict[str, Any]":
    of_turf = dict(year)
    of_turf["growth"] = growth_of(year, turf)
    return of_turf
