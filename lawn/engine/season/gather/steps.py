"""Steps of the plan that stands, told by their zones, as the groups of today take them."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import flag, group, listing, text

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_STEPS = 2000
STEP = ("date", "zones", "product", "job", "locked")


def steps_of(
    steps: object, groups: "list[dict[str, Any]]", day: int
) -> "tuple[list[dict[str, object]], list[dict[str, object]]]":
    """Those that are locked, and all that stand, from today on; one per group that holds a zone of the step."""
    locked: list[dict[str, object]] = []
    present: list[dict[str, object]] = []
    for at, item in enumerate(listing("steps", steps, 0, MOST_STEPS)):
        path = "steps[" + str(at) + "]"
        row = group(path, item, STEP)
        when = day_number(path + ".date", row.get("date"))
        zones = [text(path + ".zones", zone) for zone in listing(path + ".zones", row.get("zones"), 1, 1000)]
        step: dict[str, object] = {"date": day_text(when)}
        for name in ("product", "job"):
            if row.get(name) is not None:
                step[name] = text(path + "." + name, row.get(name))
        fixed = flag(path + ".locked", row.get("locked"))
        for of in groups:
            if when >= day and any(zone in of["zones"] for zone in zones):
                one = dict(step)
                one["group"] = of["id"]
                present.append(one)
                if fixed:
                    locked.append(one)
    return locked, present
