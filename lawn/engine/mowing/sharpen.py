"""When the mower's blade wants sharpening: by hours of use, and by the season."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import listing, total
from lawn.engine.core.rows import column, rows_of
from lawn.engine.core.working import DEFINITION, step

MOST_MOWS = 5000
HOURS = 10.0  # of use (ksu_blade, a weak source)
DAYS = 182  # at least twice a year (purdue_blade)


def sharpen(
    *, mows: object, today: str, sharpened: str | None = None
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Whether the blade wants sharpening.

    Args:
        mows: mows with this mower, in any order; may be empty [list]
        mows.date: the day [date]
        mows.minutes: minutes mown [minute; 0 to 1440]
        today: day asked about [date]
        sharpened?: day it was last sharpened; else all mows since the first count [date]
    Returns:
        hours: hours of use since [h]
        hours_left: until it is due by use, 0 where it is [h]
        due: true where it is due [true or false]
        why: what makes it due [one of hours, season, not_due]
        due_on: day it is due by the season; null where nothing is known to count from [date or null]
    Raises:
        out_of_range: an argument is outside its range
    Source: purdue_blade
    Checked: a blade is sharpened at least twice a year (purdue_blade)
    """
    now = day_number("today", today)
    since = None if sharpened is None else day_number("sharpened", sharpened)
    used = _since(mows, since, now)
    begin = since if since is not None else (min([one[0] for one in used]) if used else None)
    hours = total([one[1] for one in used]) / 60.0
    due_on = None if begin is None else begin + DAYS
    by_use, by_season = hours >= HOURS, due_on is not None and now >= due_on and bool(used)
    why = "hours" if by_use else ("season" if by_season else "not_due")
    left = max(0.0, HOURS - hours)
    on = None if due_on is None else day_text(due_on)
    value: dict[str, object] = {"hours": hours, "hours_left": left, "due": why != "not_due", "why": why, "due_on": on}
    return value, _working([one[1] for one in used], hours, left, on)


def _since(mows: object, since: "int | None", now: int) -> "list[tuple[int, float]]":
    given = listing("mows", mows, 0, MOST_MOWS)
    if not given:
        return []
    rows = rows_of("mows", given, ("date", "minutes"), MOST_MOWS)
    minutes = column("mows", rows, "minutes")
    found = []
    for at in range(len(rows)):
        day = day_number("mows[" + str(at) + "].date", rows[at].get("date"))
        if day <= now and (since is None or day >= since):
            found.append((day, minutes[at]))
    return found


def _working(minutes: list[float], hours: float, left: float, on: "str | None") -> "list[dict[str, object]]":
    return [
        step(
            what="Hours since sharpening",
            formula="minutes of all mows since added, over 60",
            numbers={"minutes": minutes},
            result=hours,
            unit="h",
            source=DEFINITION,
        ),
        step(
            what="Hours left",
            formula="about 10 hours of use less those, no fewer than 0",
            numbers={"hours": hours, "hours_between": HOURS},
            result=left,
            unit="h",
            source="ksu_blade",
        ),
        step(
            what="Due by the season",
            formula="half a year after it was sharpened, or after the first mow",
            numbers={"days": DAYS},
            result=on,
            unit="date",
            source="purdue_blade",
        ),
    ]
