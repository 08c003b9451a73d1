"""Rules as rows: what each kind needs, and which of several rows holds at a place."""

from lawn.engine.core.errors import wrong_type
from lawn.engine.core.numeric import choice, flag, group, listing, number, optional_number, text
from lawn.engine.core.working import COMMON
from lawn.engine.nutrition.strictest import known_rows, strictest

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

OWN = "entered by you"
MOST_ROWS = 600
# Kind: the figure by which one row is stricter than another (none: all of them hold), and whether more is stricter.
KINDS: "dict[str, tuple[str | None, bool]]" = {
    "quick_once": ("most_kg_m2", False),
    "all_once": ("most_kg_m2", False),
    "gentle_once": ("most_kg_m2", False),
    "quick_days": ("over_days", True),
    "all_days": ("over_days", True),
    "year": ("most_kg_m2", False),
    "slow_least": ("least_slow_share", True),
    "phosphate": ("within_years", False),
    "phosphate_once": ("most_kg_m2", False),
    "phosphate_year": ("most_kg_m2", False),
    "spacing_quick": ("over_days", True),
    "spacing_slow": ("over_days", True),
    "closed": (None, False),
    "summer_ban": (None, False),
    "pesticide_ban": (None, False),
    "water": ("clear_m", True),
    "frozen": ("limit_c", True),
    "saturated": ("limit_mm", False),
    "heat": ("limit_c", False),
    "cold": ("limit_c", True),
    "drought": ("limit_mm", True),
    "water_in": ("limit_mm", True),
    "seed_after_pre": ("over_days", True),
    "pre_after_seed": ("over_days", True),
    "young": ("over_days", True),
    "pre_twice": ("over_days", True),
    "lime_once": ("most_kg_m2", False),
    "lime_twice": ("over_days", True),
    "lime_nitrogen": ("over_days", True),
}
DATED = ("closed", "summer_ban")
NUMBERS = (
    "most_kg_m2",
    "over_days",
    "within_years",
    "limit_c",
    "limit_mm",
    "clear_m",
    "guarded_m",
    "least_slow_share",
    "p_mg_kg",
)
TEXTS = ("id", "where", "grass", "sort", "from", "to", "source", "date", "printed")
FLAGS = ("cap", "only_here", "assumed", "off")
FIELDS = ("kind", "sources") + NUMBERS + TEXTS + FLAGS
MONTH_DAYS = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
A_DAY = "a day of the year such as 11-16"


def read_rules(*, rules: object, name: str = "rules") -> "list[dict[str, Any]]":
    """Check rule rows and give each all of its fields.

    Args:
        rules: the rows [list]
        name: what the list is called [text]
    Returns:
        rows: each with every field, null where it has none [list]
    Raises:
        not_a_choice: a rule is of no known kind
        missing_argument: a rule lacks the figure of its kind
        out_of_range: a figure is outside its range
    Source: definition
    """
    return [_row(name + "[" + str(at) + "]", item) for at, item in enumerate(listing(name, rules, 0, MOST_ROWS))]


def _row(path: str, item: object) -> "dict[str, Any]":
    given = group(path, item, FIELDS)
    row: dict[str, Any] = {"kind": choice(path + ".kind", given.get("kind"), tuple(sorted(KINDS)))}
    for name in NUMBERS:
        row[name] = optional_number(path + "." + name, given.get(name))
    for name in TEXTS:
        row[name] = None if given.get(name) is None else text(path + "." + name, given.get(name))
    for name in FLAGS:
        row[name] = flag(path + "." + name, given.get(name))
    row["id"] = row["id"] or row["kind"]
    row["source"] = row["source"] or _first(given.get("sources"))
    if not row["off"]:
        _complete(path, row)
    return row


def _first(sources: object) -> str:
    return str(sources[0]) if isinstance(sources, (list, tuple)) and sources else COMMON


def _complete(path: str, row: "dict[str, Any]") -> None:
    """Raise where a rule lacks what its kind is held against."""
    needed = (KINDS[row["kind"]][0],) if row["kind"] not in DATED else ("from", "to")
    for name in needed:
        if name is None:
            continue
        if row["kind"] in DATED:
            day_of_year(name=path + "." + name, value=row[name])
        elif row[name] is None:
            number(path + "." + name, None)


def day_of_year(*, name: str, value: object) -> int:
    """Month and day of a text such as 11-16 as one number that orders as the year does.

    Args:
        name: path of the argument, for error names [text]
        value: month and day [text]
    Returns:
        day: month times 100 and the day [number]
    Raises:
        wrong_type: it is no day of the year
    Source: definition
    """
    written = text(name, value)
    digits = written[:2] + written[3:]
    if len(written) != 5 or written[2] != "-" or not digits.isdigit():
        raise wrong_type(name=name, value=value, wanted=A_DAY)
    month, day = int(digits[:2]), int(digits[2:])
    if not 1 <= month <= 12 or not 1 <= day <= MONTH_DAYS[month - 1]:
        raise wrong_type(name=name, value=value, wanted=A_DAY)
    return month * 100 + day


def holding(*, rows: "list[dict[str, Any]]", places: "list[str] | None") -> "list[dict[str, Any]]":
    """The rules that hold: of each kind and grass the place's strictest, of all places' where it is not known.

    Dates and bans of a known place hold one and all; where the place is not known those of every place do.

    Args:
        rows: rules as `read_rules` gives them [list]
        places: the place and what it lies in; nothing where it is not known [list of texts]
    Returns:
        rules: the rows that hold, each with looser: who allows more, one of place and local_rule, or null [list]
    Source: definition
    """
    groups: dict[tuple[str, str], list[dict[str, Any]]] = {}
    for row in rows:
        if not row["off"]:
            groups.setdefault((row["kind"], row["grass"] or ""), []).append(row)
    found: list[dict[str, Any]] = []
    for key in sorted(groups):
        found.extend(_held(groups[key], places, KINDS[key[0]]))
    return found


def _held(
    rows: "list[dict[str, Any]]", places: "list[str] | None", by: "tuple[str | None, bool]"
) -> "list[dict[str, Any]]":
    figure, highest = by
    here = [row for row in rows if not row["cap"] and (row["where"] is None or row["where"] in (places or ()))]
    anywhere = [row for row in rows if not row["only_here"] or row["where"] is None or row["where"] in (places or ())]
    if figure is None:
        return (
            [_marked(row, None, row["where"] is not None) for row in anywhere]
            if places is None
            else [_marked(row, places, False) for row in here]
        )
    fitting = known_rows([] if places is None else here, anywhere, figure)
    if not fitting:
        return []
    figures = [row[figure] for row in fitting]
    one = fitting[strictest(figures, highest)]
    own = places is not None and bool(here)
    looser = min(figures) != max(figures) and one["where"] is not None
    capped = [row for row in rows if row["cap"] and row[figure] < one[figure]]
    return [_marked((capped or [one])[0], places, looser and not own)]


def _marked(row: "dict[str, Any]", places: "list[str] | None", looser: bool) -> "dict[str, Any]":
    marked = dict(row)
    marked["looser"] = None
    if looser or row["assumed"]:
        marked["looser"] = "place" if places is None else "local_rule"
    return marked
