"""The days that a forecast of growth is made of, and the state that is handed from call to call."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import EngineError, impossible
from lawn.engine.core.numeric import choice, group, listing, number, whole
from lawn.engine.core.rows import column, optional_column, rows_of, unbroken
from lawn.engine.mowing import grid, shapes
from lawn.engine.warmth.response import TURFS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_DAYS = 800
MOST_FEEDS = 200
FIELDS = ("date", "mean_c", "sd_c", "water_share")
FEED_FIELDS = ("date", "n_kg_m2", "slow_share")
PER_ROW = 6


def days_of(days: object, turf: str, feeds: object) -> "tuple[int, list[list[tuple[float, float, float]]]]":
    """Number of the first day, and every day's growth at scale 1."""
    rows = rows_of("days", days, FIELDS, MOST_DAYS)
    first = unbroken("days", rows)
    kept = Growth(
        turf,
        first,
        {turf: [None] * len(rows)},
        column("days", rows, "mean_c"),
        optional_column("days", rows, "sd_c", 0.0),
        optional_column("days", rows, "water_share", 1.0),
        [(one["day"], one["n_kg_m2"], one["slow_share"]) for one in feeds_of(feeds, MOST_FEEDS)],
    )
    return first, kept.between(0, len(rows))


class Growth:
    """Growth at scale 1 of a zone's days, worked out where it is asked for and kept.

    What a day's warmth allows is the same for every zone of a season, so zones share `warm`: on a phone it is most of
    the work.
    """

    def __init__(
        self,
        turf: str,
        first: int,
        warm: "dict[str, list[Any]]",
        mean_c: list[float],
        sd_c: list[float],
        water: "list[Any]",  # null where nobody told of it: then the grass gets all it wants
        feeds: "list[tuple[int, float, float]]",
    ) -> None:
        self.turf, self.first, self.mean_c, self.sd_c = turf, first, mean_c, sd_c
        self.water, self.feeds = water, feeds
        self._warm = warm[turf]
        self._rows: list[Any] = [None] * len(mean_c)

    def between(self, begin: int, end: int) -> "list[list[tuple[float, float, float]]]":
        """The days from one place up to, but without, another."""
        for at in range(begin, end):
            if self._rows[at] is None:
                water = self.water[at]
                told = 1.0 if water is None else water
                self._rows[at] = shapes.day_growth(self._allows(at), told, self._fed(at))
        return self._rows[begin:end]

    def _allows(self, at: int) -> "list[tuple[float, float]]":
        if self._warm[at] is None:
            self._warm[at] = shapes.answers(self.turf, self.mean_c[at], self.sd_c[at])
        found: list[tuple[float, float]] = self._warm[at]
        return found

    def _fed(self, at: int) -> float:
        return shapes.fed_share(self.feeds, self.first + at) if self.feeds else 0.0


def feeds_of(feeds: object, most: int, more: "tuple[str, ...]" = ()) -> "list[dict[str, Any]]":
    """Day, nitrogen and slow-release share of each feed, in their order; the fields in `more` as they were given."""
    if feeds is None or not listing("feeds", feeds, 0, most):
        return []
    rows = rows_of("feeds", feeds, FEED_FIELDS + more, most)
    nitrogen, slow = column("feeds", rows, "n_kg_m2"), optional_column("feeds", rows, "slow_share", 0.0)
    found = []
    for at in range(len(rows)):
        one: dict[str, Any] = {name: rows[at].get(name) for name in more}
        day = day_number("feeds[" + str(at) + "].date", rows[at].get("date"))
        one.update({"day": day, "n_kg_m2": nitrogen[at], "slow_share": slow[at]})
        found.append(one)
    return found


def state_of(turf: str, given: object) -> "dict[str, Any]":
    """The state of a belief that was handed in, or of one that has seen nothing."""
    if given is None:
        return {"turf": turf, "day": None, "looks": 0, "rows": grid.fresh()}
    said_so = group("belief", given, ("turf", "day", "looks", "numbers"))
    if choice("belief.turf", said_so.get("turf"), TURFS) != turf:
        message = "What was learnt is of grass of the other season."
        raise impossible(name="belief.turf", value=said_so.get("turf"), message=message)
    on = said_so.get("day")
    return {
        "turf": turf,
        "day": None if on is None else day_number("belief.day", on),
        "looks": whole("belief.looks", said_so.get("looks")),
        "rows": _rows(said_so.get("numbers")),
    }


def _rows(numbers: object) -> "list[list[float]]":
    count = grid.ROWS * PER_ROW
    found = [
        number("belief.numbers[" + str(at) + "]", one, -1e6, 1e6)
        for at, one in enumerate(listing("belief.numbers", numbers, count, count))
    ]
    rows = [found[at : at + PER_ROW] for at in range(0, count, PER_ROW)]
    for row in rows:
        if row[1] <= 0.0 or row[3] <= 0.0 or row[5] < 0.0 or row[0] > 0.0:
            raise EngineError(
                code="impossible",
                name="belief.numbers",
                value="a list",
                message="This is not what an earlier call answered.",
            )
    return rows


def said(state: "dict[str, Any]") -> dict[str, object]:
    """A state as it is handed out."""
    numbers = [one for row in state["rows"] for one in row]
    on = state["day"]
    return {
        "turf": state["turf"],
        "day": None if on is None else day_text(on),
        "looks": state["looks"],
        "numbers": numbers,
    }
