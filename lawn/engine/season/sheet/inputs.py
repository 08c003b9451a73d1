"""Reads what a sheet is drawn from: ground, products, steps of the plan and what was put down."""

from lawn.engine.core.dates import day_number
from lawn.engine.core.numeric import choice, flag, group, listing, number, optional_number, text
from lawn.engine.season.inputs import SOURCES
from lawn.engine.warmth.response import TURFS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_GROUPS = 60
MOST_ROWS = 2000
STATES = ("planned", "done", "put_off")
STEP = ("id", "job", "zones", "from", "to", "product", "rate_kg_m2", "locked", "state")
DONE = ("date", "group", "product", "n_kg_m2", "slow_n_share")


def groups_of(groups: object) -> "list[dict[str, Any]]":
    """The feeding groups with their zones; what else is known of one is let pass."""
    found = []
    for path, row in _open_rows("groups", groups, MOST_GROUPS):
        zones = listing(path + ".zones", row.get("zones"), 0, MOST_ROWS)
        turf = row.get("turf")
        found.append(
            {
                "id": text(path + ".id", row.get("id")),
                "zones": [text(path + ".zones", one) for one in zones],
                "turf": None if turf is None else choice(path + ".turf", turf, TURFS),
                "aim_n_kg_m2": optional_number(path + ".aim_n_kg_m2", row.get("aim_n_kg_m2")),
            }
        )
    return found


def areas_of(zones: object) -> "dict[str, float | None]":
    """Area of each zone, where it is known."""
    found = {}
    for path, row in _open_rows("zones", zones, MOST_ROWS):
        found[text(path + ".id", row.get("id"))] = optional_number(path + ".area_m2", row.get("area_m2"))
    return found


def products_of(products: object) -> "dict[str, dict[str, Any]]":
    """What the drawing takes of each label."""
    found = {}
    for path, row in _open_rows("products", products, MOST_ROWS):
        source = row.get("source")
        one: dict[str, Any] = {"source": "soluble" if source is None else choice(path + ".source", source, SOURCES)}
        for name in ("n_percent", "slow_n_share", "net_kg"):
            one[name] = optional_number(path + "." + name, row.get(name))
        found[text(path + ".id", row.get("id"))] = one
    return found


def steps_of(steps: object) -> "list[dict[str, Any]]":
    """The steps of the plan, each checked."""
    found = []
    for path, row in _rows("steps", steps, STEP):
        one: dict[str, Any] = {
            "id": text(path + ".id", row.get("id")),
            "job": text(path + ".job", row.get("job")),
            "zones": [text(path + ".zones", each) for each in listing(path + ".zones", row.get("zones"), 0, MOST_ROWS)],
            "from": day_number(path + ".from", row.get("from")),
            "product": None if row.get("product") is None else text(path + ".product", row.get("product")),
            "rate_kg_m2": optional_number(path + ".rate_kg_m2", row.get("rate_kg_m2")),
            "locked": flag(path + ".locked", row.get("locked")),
            "state": choice(path + ".state", row.get("state") or STATES[0], STATES),
        }
        one["to"] = max(one["from"], day_number(path + ".to", row.get("to")))
        found.append(one)
    return found


def done_of(done: object) -> "list[dict[str, Any]]":
    """What was put down, group by group, as season.gather tells it."""
    found = []
    for path, row in _rows("done", done, DONE):
        found.append(
            {
                "day": day_number(path + ".date", row.get("date")),
                "group": text(path + ".group", row.get("group")),
                "product": None if row.get("product") is None else text(path + ".product", row.get("product")),
                "n_kg_m2": number(path + ".n_kg_m2", row.get("n_kg_m2")),
                "slow_n_share": optional_number(path + ".slow_n_share", row.get("slow_n_share")),
            }
        )
    return found


def _rows(name: str, value: object, known: tuple[str, ...]) -> "list[tuple[str, dict[str, Any]]]":
    rows = listing(name, value, 0, MOST_ROWS)
    paths = [name + "[" + str(at) + "]" for at in range(len(rows))]
    return [(paths[at], group(paths[at], rows[at], known)) for at in range(len(rows))]


def _open_rows(name: str, value: object, most: int) -> "list[tuple[str, dict[str, Any]]]":
    """Rows that may say more than is asked for."""
    found = []
    for at, item in enumerate(listing(name, value, 0, most)):
        path = name + "[" + str(at) + "]"
        found.append((path, item if isinstance(item, dict) else group(path, item, ())))
    return found
