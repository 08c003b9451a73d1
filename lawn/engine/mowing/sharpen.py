"""When the mower's blade wants sharpening: by hours of use, and by the season."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import listing, optional_number, total
from lawn.engine.core.rows import rows_of
from lawn.engine.core.working import COMMON, DEFINITION, step

MOST_MOWS = 5000
HOURS = 10.0  # of use (ksu_blade, a weak source)
DAYS = 182  # at least twice a year (purdue_blade)


def sharpen(
    *, mows: object, today: str, sharpened: str | None = None, hours_between: float | None = None
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Whether the blade wants sharpening.

    Args:
        mows: mows with this mower, in any order; may be empty [list]
        mows.date: the day [date]
        mows.minutes?: minutes mown; a mow without them counts for the season only [minute; 0 to 1440]
        today: day asked about [date]
        sharpened?: day it was last sharpened; else all mows since the first count [date]
        hours_between?: hours of use between sharpenings, as the mower's manual says; 10 when not said [h; 1 to 500]
    Returns:
        hours: hours of use since, of the mows whose minutes are known [h]
        untimed: mows since whose minutes are not known: the hours are at least those said [count]
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
    own = optional_number("hours_between", hours_between)
    used = _since(mows, since, now)
    begin = since if since is not None else (min([day for day, _ in used]) if used else None)
    minutes = [one for _, one in used if one is not None]
    hours = total(minutes) / 60.0
    due_on = None if begin is None else begin + DAYS
    left = max(0.0, (HOURS if own is None else own) - hours)
    by_season = due_on is not None and now >= due_on and bool(used)
    why = "hours" if left <= 0.0 else ("season" if by_season else "not_due")
    on = None if due_on is None else day_text(due_on)
    value: dict[str, object] = {
        "hours": hours,
        "untimed": len(used) - len(minutes),
        "hours_left": left,
        "due": why != "not_due",
        "why": why,
        "due_on": on,
    }
    return value, _working(minutes, value, own)


def _since(mows: object, since: "int | None", now: int) -> "list[tuple[int, float | None]]":
    given = listing("mows", mows, 0, MOST_MOWS)
    if not given:
        return []
    rows = rows_of("mows", given, ("date", "minutes"), MOST_MOWS)
    found = []
    for at in range(len(rows)):
        path = "mows[" + str(at) + "]."
        day = day_number(path + "date", rows[at].get("date"))
        minutes = optional_number(path + "minutes", rows[at].get("minutes"))
        if day <= now and (since is None or day >= since):
            found.append((day, minutes))
    return found


def _working(minutes: list[float], value: "dict[str, object]", own: "float | None") -> "list[dict[str, object]]":
    between = HOURS if own is None else own
    return [
        step(
            what="Hours since sharpening",
            formula="minutes of all mows since added, over 60; mows without minutes are left out",
            numbers={"minutes": minutes, "untimed": value["untimed"]},
            result=value["hours"],
            unit="h",
            source=DEFINITION,
        ),
        step(
            what="Hours left",
            formula="hours between sharpenings (about 10 unless said) less those, no fewer than 0",
            numbers={"hours": value["hours"], "hours_between": between},
            result=value["hours_left"],
            unit="h",
            source="ksu_blade" if own is None else COMMON,
        ),
        step(
            what="Due by the season",
            formula="half a year after it was sharpened, or after the first mow",
            numbers={"days": DAYS},
            result=value["due_on"],
            unit="date",
            source="purdue_blade",
        ),
    ]
