"""Which jobs taken the log says are done: who said it counts for nothing, what was done for everything."""

from lawn.engine.core.dates import DATE_LENGTH, day_number
from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import choice, group, listing, optional_number, text
from lawn.engine.core.working import DEFINITION, step
from lawn.engine.log.applications import SPRAYED, is_application
from lawn.engine.log.entries import MOST_ZONES, in_order

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

JOBS = ("mow", "feed", "spray", "water", "other")
MOST_CLAIMS = 1000
NO_SORT = (None, "other")  # entries of before the sort was noted, and other products: feeds by their nitrogen


def claims(
    *, claims: list[object], entries: list[object], yard: list[str] | None = None
) -> "tuple[dict[str, Any], list[dict[str, object]]]":
    """For each job taken, whether the log says that it is done, by whomever.

    Done by an entry that names it (watering has no entry of its own), or by entries of that job and day that together
    cover its zones; one that names no zones is of the whole yard. A zone that got nothing is not covered. Lime and seed
    feed nothing.

    Args:
        claims: jobs taken [list]
        claims.id: the job taken, once only [text]
        claims.job: what is to be done [one of mow, feed, spray, water, other]
        claims.day: for which day [date]
        claims.zone_ids?: its zones; none for the whole yard [list of texts]
        entries: the log in any order; other fields may stand among these [list]
        entries.id: the entry, once only [text]
        entries.kind: mow, spread, pass, observation, stock_count or tray_test [text]
        entries.occurred_at: moment it was done; its day is as written, by the clock of who did it [moment]
        entries.void?: struck out [true or false]
        entries.zone_ids?: its zones [list of texts]
        entries.sort?: sort of the product [text]
        entries.n_percent?: nitrogen on the product's label [%; 0 to 100]
        entries.used_kg?: product put down; 0 is nothing [kg; 0 to 5000]
        entries.zones?: of a spreading job, for each zone what it got [list]
        entries.zones.zone_id: the zone [text]
        entries.zones.used_kg?: product on it; 0 is nothing [kg; 0 to 5000]
        entries.claim_id?: the job taken that it names [text]
        yard?: every zone there is, for jobs of the whole yard [list of texts]
    Returns:
        claims: by id of the job taken [groups by id]
        claims.done: whether it is done [true or false]
        claims.entry_ids: entries that did it, or a part of it, in the order done [list of texts]
        claims.open_zone_ids: its zones that nobody has done yet [list of texts]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a day or a moment is none
        repeated: a job taken or an entry stands twice in its list
    Source: definition
    """
    doings = _doings(entries)
    whole = _texts("yard", yard)
    found: dict[str, Any] = {}
    working: list[dict[str, object]] = []
    for at, item in enumerate(listing("claims", claims, 0, MOST_CLAIMS)):
        claim = _claim("claims[" + str(at) + "]", item)
        if claim["id"] in found:
            raise repeated("claims[" + str(at) + "]", claim["id"], "This job taken stands twice in the list.")
        wanted = claim["zone_ids"] or whole
        found[claim["id"]] = _standing(claim, wanted, doings)
        working.append(_step(claim["id"], len(wanted), found[claim["id"]]))
    return {"claims": found}, working or [_step("", 0, {"entry_ids": [], "open_zone_ids": []})]


def _claim(here: str, item: object) -> "dict[str, Any]":
    row = group(here, item, ("id", "job", "day", "zone_ids"))
    day = text(here + ".day", row.get("day"))
    day_number(here + ".day", day)
    return {
        "id": text(here + ".id", row.get("id")),
        "job": choice(here + ".job", row.get("job"), JOBS),
        "day": day[:DATE_LENGTH],
        "zone_ids": _texts(here + ".zone_ids", row.get("zone_ids")),
    }


def _texts(path: str, value: object) -> list[str]:
    if value is None:
        return []
    return [text(path + "[" + str(at) + "]", item) for at, item in enumerate(listing(path, value, 0, MOST_ZONES))]


def _doings(entries: object) -> "list[dict[str, Any]]":
    """Every entry that counts: id, day, job it does, zones it was done on, job taken it names."""
    rows = in_order(entries=entries)
    given: dict[str, Any] = {}
    for at, item in enumerate(entries if isinstance(entries, (list, tuple)) else []):
        given[item["id"]] = ("entries[" + str(at) + "].", item)
    return [_doing(row, given[row["id"]][0], given[row["id"]][1]) for row in rows]


def _doing(row: "dict[str, Any]", here: str, given: "dict[str, Any]") -> "dict[str, Any]":
    n_percent = optional_number(here + "n_percent", given.get("n_percent"))
    claim_id = given.get("claim_id")
    return {
        "id": row["id"],
        "date": row["date"],
        "job": _job_of(row, n_percent or 0.0),
        "zone_ids": _done_on(row, here, given),
        "claim_id": None if claim_id is None else text(here + "claim_id", claim_id),
    }


def _job_of(row: "dict[str, Any]", n_percent: float) -> str | None:
    if row["kind"] == "mow":
        return "mow"
    if not is_application(row=row):
        return None
    if row["sort"] in SPRAYED:
        return "spray"
    feeds = row["sort"] == "fertilizer" or (row["sort"] in NO_SORT and n_percent > 0.0)
    return "feed" if feeds else None


def _done_on(row: "dict[str, Any]", here: str, given: "dict[str, Any]") -> list[str]:
    """Zones an entry was really done on: of those a job set out for, the ones that got something."""
    if row["used_kg"] == 0.0:
        return []
    without: list[str] = []
    for at, zone in enumerate(given.get("zones") or []):
        if optional_number(here + "zones[" + str(at) + "].used_kg", zone.get("used_kg")) == 0.0:
            without.append(zone["zone_id"])
    return [zone_id for zone_id in row["zone_ids"] if zone_id not in without]


def _standing(claim: "dict[str, Any]", wanted: list[str], doings: "list[dict[str, Any]]") -> "dict[str, Any]":
    named = [one["id"] for one in doings if one["claim_id"] == claim["id"]]
    of_it = [one for one in doings if one["date"] == claim["day"] and one["job"] == claim["job"] and one["zone_ids"]]
    covered = [zone_id for one in of_it for zone_id in one["zone_ids"]]
    left = [] if named else [zone_id for zone_id in wanted if zone_id not in covered]
    by = named or [one["id"] for one in of_it if not wanted or [zone for zone in one["zone_ids"] if zone in wanted]]
    return {"done": not left and bool(by), "entry_ids": by, "open_zone_ids": left}


def _step(claim_id: str, zones: int, found: "dict[str, Any]") -> dict[str, object]:
    return step(
        what="Zones still to do",
        formula="zones of the job taken less those that entries of that job and day cover; none once an entry names it",
        numbers={"zones": zones, "entries": len(found["entry_ids"])},
        result=len(found["open_zone_ids"]),
        unit="zones",
        source=DEFINITION,
        of=claim_id,
    )
