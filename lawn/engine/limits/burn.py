"""Can it burn? What speaks against the quick nitrogen of one product on one zone today, in a plain sentence."""

from lawn.engine.core.numeric import at_least, choice, flag, group, optional_number, text
from lawn.engine.core.working import COMMON, N_UNIT, step
from lawn.engine.limits.check import check
from lawn.engine.nutrition.kinds import KINDS, MOSTLY_SLOW

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

BURNS = ("quick_once", "gentle_once", "quick_days", "heat", "drought", "water_in", "cold")
GENTLE_SLOW = 0.8  # from four fifths slow a feed hardly burns (common practice)
HALF = 0.5  # from half of what may go on at once an overlap can burn (common practice)
JOB = ("zone", "product", "n_kg_m2", "slow_n_share", "watered_in", "source")
SAYS = {
    "gentle": "It hardly burns. Most of its nitrogen comes slowly.",
    "none": "It does not burn. It brings no nitrogen.",
    "little": "It hardly burns at this rate. Water it in on the same day.",
    "careful": "It can burn where you overlap or leave it dry. Its nitrogen is quick, so water it in on the same day.",
    "not_known": "Treat it as one that can burn. Nobody entered its nitrogen.",
}
BEGIN = "New to this? Begin with a gentle, slow-release product."
TRIES = "can_it_burn"


def burn(
    *,
    job: dict[str, object],
    zones: list[object],
    rules: list[object],
    today: str,
    place: str | None = None,
    days: list[object] | None = None,
    before: list[object] | None = None,
    beginner: bool | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Whether a product can burn a zone today, by `limits.check`: its quick nitrogen, the grass, heat and drought.

    Salt-prone is a product whose nitrogen is quick: it lies on the leaf as a soluble salt. Nitrogen of unknown release
    counts as quick, but that of a natural product as slow.

    Args:
        job: what is about to be put down [group of values]
        job.zone: the zone [text]
        job.product?: the product [text]
        job.n_kg_m2?: nitrogen per area; not known when not said [kg/m2; 0 to 5]
        job.slow_n_share?: slow-release share of it [share; 0 to 1]
        job.source?: kind of its slow nitrogen [one of soluble, sulfur_coated, polymer_coated, condensed, ibdu, natural]
        job.watered_in?: whether it is watered in [true or false]
        zones: the zones, as `limits.check` takes them [list as limits.check]
        rules: rules as `limits.rules` gives them [list as limits.check]
        today: the day [date]
        place?: key of the place, likewise [text]
        days?: days of weather, likewise [list as limits.check]
        before?: jobs done before it [list]
        before.id: the job [text]
        before.date: its day [date]
        before.zone: its zone [text]
        before.n_kg_m2?: nitrogen per area [kg/m2; 0 to 5]
        before.slow_n_share?: slow-release share of it [share; 0 to 1]
        before.sort?: sort of product [text]
        before.product?: its product [text]
        beginner?: whether the person is new to it [true or false]
    Returns:
        can_burn: yes where a rule speaks against it, careful where an overlap or a dry day is enough, else no [one of
            yes, careful, no]
        salt_prone: whether its nitrogen is mostly quick [true or false]
        says: the answer in plain words: what to do and why [text]
        begin_gentle: whether a beginner is told to begin with a gentle product [true or false]
        quick_n_kg_m2: its quick nitrogen; null where not known [kg/m2 or null]
        most_kg_m2: quick nitrogen that may go on at once; null where no rule says [kg/m2 or null]
        reasons: kinds of rule that speak against it, as `limits.check` has them [list of texts]
        source: who says so [text]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a date is none
        unknown_zone: the zone is not among the zones
    Source: common practice
    """
    given = group("job", job, JOB)
    n_kg_m2 = optional_number("job.n_kg_m2", given.get("n_kg_m2"))
    slow = _slow(given)
    row: dict[str, object] = {"id": TRIES, "date": text("today", today), "zone": given.get("zone")}
    row.update({"n_kg_m2": n_kg_m2, "slow_n_share": slow, "watered_in": given.get("watered_in")})
    row["product"] = given.get("product")
    jobs = (before or []) + [row]
    value, steps = check(jobs=jobs, zones=zones, rules=rules, place=place, days=days)
    found = _speaking(value)
    most = _most(rules, zones, row, today, place)
    quick = None if n_kg_m2 is None else n_kg_m2 * (1.0 - slow)
    salty = n_kg_m2 is None or (n_kg_m2 > 0.0 and slow < MOSTLY_SLOW)
    state, says, source = _answer(found, n_kg_m2, quick, slow, most)
    begin = flag("beginner", beginner) and salty
    answer: dict[str, object] = {
        "can_burn": state,
        "salt_prone": salty,
        "says": says + (" " + BEGIN if begin else ""),
        "begin_gentle": begin,
        "quick_n_kg_m2": quick,
        "most_kg_m2": most,
        "reasons": [one["kind"] for one in found],
        "source": source,
    }
    return answer, [one for one in steps if one.get("of") == TRIES] + _working(n_kg_m2, slow, quick, most)


def _slow(given: "dict[str, object]") -> float:
    source = given.get("source")
    kind = None if source is None else choice("job.source", source, KINDS)
    slow = optional_number("job.slow_n_share", given.get("slow_n_share"))
    if kind == "soluble":
        return 0.0
    return (1.0 if kind == "natural" else 0.0) if slow is None else slow


def _speaking(value: "dict[str, Any]") -> "list[dict[str, Any]]":
    return [one for one in value["breaches"] if one["job"] == TRIES and one["kind"] in BURNS]


def _most(
    rules: "list[object]", zones: "list[object]", row: "dict[str, object]", today: str, place: str | None
) -> float | None:
    """Quick nitrogen that may go on this grass at once: what `limits.check` holds far too much against."""
    far = {"id": TRIES, "date": today, "zone": row["zone"], "n_kg_m2": 5.0, "slow_n_share": 0.0}
    value, _ = check(jobs=[far], zones=zones, rules=rules, place=place)
    found: Any = value["breaches"]
    figures = [one["ceiling"] for one in found if one["kind"] in ("quick_once", "gentle_once")]
    return min(figures) if figures else None


def _answer(
    found: "list[dict[str, Any]]", n_kg_m2: float | None, quick: float | None, slow: float, most: float | None
) -> "tuple[str, str, str]":
    if found:
        return "yes", "It can burn today. " + found[0]["says"], found[0]["source"]
    if quick is None:
        return "careful", SAYS["not_known"], COMMON
    if not n_kg_m2:
        return "no", SAYS["none"], COMMON
    if at_least(slow, GENTLE_SLOW):
        return "no", SAYS["gentle"], COMMON
    if most is not None and quick < HALF * most:
        return "no", SAYS["little"], COMMON
    return "careful", SAYS["careful"], COMMON


def _working(n_kg_m2: float | None, slow: float, quick: float | None, most: float | None) -> "list[dict[str, object]]":
    numbers: dict[str, object] = {"n_kg_m2": n_kg_m2, "slow_share": slow}
    rows = [("Nitrogen, quick, of this feed", "nitrogen less its slow share", numbers, quick)]
    held: dict[str, object] = {"rules": "quick_once, gentle_once"}
    rows.append(("Nitrogen, quick, at once at most", "as the rules have it for this grass", held, most))
    return [
        step(what=what, formula=formula, numbers=given, result=result, unit=N_UNIT, source=COMMON)
        for what, formula, given, result in rows
    ]
