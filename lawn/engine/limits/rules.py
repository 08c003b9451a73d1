"""The rules of a place, with what the household entered itself in their stead."""

from lawn.engine.core.errors import EngineError
from lawn.engine.core.numeric import flag, group, listing, optional_number, text
from lawn.engine.core.working import COMMON, DEFINITION, N_UNIT, step
from lawn.engine.limits.check import NOT_THE_LAW
from lawn.engine.limits.rows import DATED, KINDS, NUMBERS, OWN, TEXTS, holding, read_rules
from lawn.engine.nutrition.strictest import strictest

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Rows = list[dict[str, Any]]

MOST_PLACES = 500
MOST_GRASSES = 200
PLACE = ("key", "name", "country", "within", "unlisted", "southern", "sources")
ANSWERED = NUMBERS + tuple(name for name in TEXTS if name not in ("id", "where"))
SAYS = {
    "known": "Rules printed for this place. Edit them where yours differ.",
    "unlisted": "No rules of this place are known here, so the strictest hold. Enter yours to change them.",
    "unknown": "Your place is not known, so the strictest rules hold. Say where your yard is.",
}


def rules_of(
    *,
    rules: list[object],
    places: list[object],
    place: str | None = None,
    own_rules: list[object] | None = None,
    grasses: list[object] | None = None,
    general: list[object] | None = None,
    southern: bool | None = None,
    beginner: bool | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """The rules that hold in a yard, for `limits.check`: printed ones of its place, and the household's own instead.

    Where the place is not known, or none of its rules are, the strictest of all places hold; in the south their closed
    dates do not, since all of them are northern. A rule of one's own takes the place of every printed one of its kind
    (and grass); one that is off takes it away. What a label says is no rule: `limits.check` reads it from the product.

    Args:
        rules: printed rules, as fixtures/published/places.json has them [list as limits.check]
        places: the places there are, likewise [list]
        places.key: the place, once only [text]
        places.name?: what it is called [text]
        places.country?: its country [text]
        places.within?: the place it lies in, whose rules it has too [text]
        places.unlisted?: a place with no rules here: the strictest hold [true or false]
        places.southern?: whether it lies in the southern half of the globe [true or false]
        places.sources?: keys of what it is printed in [list of texts]
        place?: key of the household's place; not known when not said [text]
        own_rules?: rules the household entered itself, or turned off; as those printed [list]
        own_rules.kind: what it is about, as `limits.check` has it [text]
        own_rules.grass?: the grass it holds for [text]
        own_rules.sort?: the sort of product it bans [text]
        own_rules.most_kg_m2?: as `limits.check` takes it; so with the rest [kg/m2; 0 to 50]
        own_rules.over_days?: as above [day; 0 to 400]
        own_rules.within_years?: as above [year; 0 to 20]
        own_rules.p_mg_kg?: as above [mg/kg; 0 to 5000]
        own_rules.limit_c?: as above [C; -20 to 50]
        own_rules.limit_mm?: as above [mm; 0 to 500]
        own_rules.clear_m?: as above [m; 0 to 100]
        own_rules.guarded_m?: as above [m; 0 to 100]
        own_rules.least_slow_share?: as above [share; 0 to 1]
        own_rules.from?: first closed day of every year, as 11-16 [text]
        own_rules.to?: last closed day [text]
        own_rules.date?: day it was entered [date]
        own_rules.printed?: a note of where it stands [text]
        own_rules.off?: whether the printed rules of its kind do not hold here [true or false]
        grasses?: grasses with what each takes in a year, as fixtures/published/grasses.json has them [list]
        grasses.key: the grass [text]
        grasses.nitrogen_year_rows?: printed ranges of the year [list]
        grasses.nitrogen_year_rows.high_kg_m2?: the most of the range [kg/m2; 0 to 5]
        grasses.nitrogen_year_rows.sources?: keys of what it is printed in [list of texts]
        general?: printed ranges of lawns in general, for zones whose grass is not known [list]
        general.high_kg_m2?: the most of the range [kg/m2; 0 to 5]
        general.sources?: keys of what it is printed in [list of texts]
        southern?: whether the yard lies in the southern half, where the place does not say so [true or false]
        beginner?: whether the person is new to it: then the strictest quick nitrogen holds anywhere [true or false]
    Returns:
        rules: the rules that hold, by kind [list]
        rules.id: its name [text]
        rules.kind: what it is about, as `limits.check` has it [one of all_days, all_once, closed, cold, drought,
            frozen, gentle_once, heat, lime_nitrogen, lime_once, lime_twice, pesticide_ban, phosphate, phosphate_once,
            phosphate_year, pre_after_seed, pre_twice, quick_days, quick_once, saturated, seed_after_pre, slow_least,
            spacing_quick, spacing_slow, summer_ban, water, water_in, year, young]
        rules.grass: the grass it holds for, or null [text or null]
        rules.sort: the sort of product it bans, or null [text or null]
        rules.most_kg_m2: as `limits.check` takes it, or null; so with the rest [kg/m2 or null]
        rules.over_days: as above [day or null]
        rules.within_years: as above [year or null]
        rules.p_mg_kg: as above [mg/kg or null]
        rules.limit_c: as above [C or null]
        rules.limit_mm: as above [mm or null]
        rules.clear_m: as above [m or null]
        rules.guarded_m: as above [m or null]
        rules.least_slow_share: as above [share or null]
        rules.from: first closed day of every year, as 11-16, or null [text or null]
        rules.to: last closed day, or null [text or null]
        rules.source: who printed it, common practice, or entered by you [text]
        rules.date: as of when, or null [text or null]
        rules.printed: how it is printed, or null [text or null]
        rules.assumed: the strictest of all, since the place or its rule is not known [true or false]
        places: the place and what it lies in, by key; none where it is not known [list of texts]
        state: whether rules of the place are known [one of known, unlisted, unknown]
        says: the same in a sentence [text]
        not_the_law: that this is not the law, in a sentence [text]
    Raises:
        out_of_range: a figure is outside its range
        not_a_choice: a rule is of no known kind
        missing_argument: a rule lacks the figure of its kind
        unknown_place: the place is not among the places
    Source: definition
    """
    known = _places(places)
    chain, state, south = _chain(known, place, flag("southern", southern))
    printed = read_rules(rules=rules) + _years(grasses, general)
    mine = _own(own_rules)
    taken = [(row["kind"], row["grass"]) for row in mine]
    kept = [row for row in printed if row["cap"] or (row["kind"], row["grass"]) not in taken]
    if south:
        kept = [row for row in kept if row["kind"] not in DATED or row["where"] in (chain or ())]
    held = holding(rows=kept + mine, places=chain if state == "known" else None)
    if flag("beginner", beginner) and not any(row["kind"] == "quick_once" for row in mine):
        gentlest = holding(rows=[row for row in kept if row["kind"] == "quick_once"], places=None)
        held = [row for row in held if row["kind"] != "quick_once"] + gentlest
    order = [
        (row["kind"], row["grass"] or "", row["where"] or "", row["from"] or "", at) for at, row in enumerate(held)
    ]
    held = [held[key[4]] for key in sorted(order)]  # no two keys tie: the runtimes sort ties apart
    value: dict[str, object] = {"rules": [_shown(row) for row in held], "places": chain or [], "state": state}
    value["says"], value["not_the_law"] = SAYS[state], NOT_THE_LAW
    return value, _working(held, printed, mine)


def _places(places: object) -> "dict[str, dict[str, Any]]":
    found: dict[str, dict[str, Any]] = {}
    for at, item in enumerate(listing("places", places, 0, MOST_PLACES)):
        path = "places[" + str(at) + "]"
        given = group(path, item, PLACE)
        within = given.get("within")
        found[text(path + ".key", given.get("key"))] = {
            "within": None if within is None else text(path + ".within", within),
            "unlisted": flag(path + ".unlisted", given.get("unlisted")),
            "southern": flag(path + ".southern", given.get("southern")),
        }
    return found


def _chain(
    known: "dict[str, dict[str, Any]]", place: str | None, southern: bool
) -> "tuple[list[str] | None, str, bool]":
    """The place with all it lies in, whether its rules are known, and whether it lies in the south."""
    if place is None:
        return None, "unknown", southern
    at, chain = text("place", place), []
    while at is not None and at not in chain:
        if at not in known:
            message = "This place is not in the list of places."
            raise EngineError(code="unknown_place", name="place", value=at, message=message)
        chain.append(at)
        southern = southern or known[at]["southern"]
        at = known[at]["within"]
    return chain, "unlisted" if known[chain[0]]["unlisted"] else "known", southern


def _own(own_rules: object) -> "Rows":
    found = read_rules(rules=own_rules if own_rules is not None else [], name="own_rules")
    for row in found:
        row["source"], row["where"], row["cap"], row["only_here"] = OWN, None, False, False
    return found


def _years(grasses: object, general: object) -> "Rows":
    """A rule of the year for each grass: the lowest of the ranges' ends, as `limits.ceilings` takes it."""
    rows = []
    for at, item in enumerate(listing("grasses", grasses, 0, MOST_GRASSES) if grasses is not None else []):
        path = "grasses[" + str(at) + "]"
        given = item if isinstance(item, dict) else group(path, item, ("key", "nitrogen_year_rows"))
        key = text(path + ".key", given.get("key"))
        rows.append(_year(path + ".nitrogen_year_rows", given.get("nitrogen_year_rows"), key))
    rows.append(_year("general", general, "unknown"))
    return read_rules(rules=[row for row in rows if row is not None], name="grasses")


def _year(path: str, rows: object, grass: str) -> "dict[str, Any] | None":
    pairs = []
    for at, item in enumerate(listing(path, rows, 0, MOST_GRASSES) if rows is not None else []):
        here = path + "[" + str(at) + "]"
        given = item if isinstance(item, dict) else group(here, item, ("high_kg_m2", "sources"))
        most = optional_number(here + ".high_kg_m2", given.get("high_kg_m2"), 0.0, 5.0)
        if most is not None:
            pairs.append((most, given.get("sources")))
    if not pairs:
        return None
    one = pairs[strictest([pair[0] for pair in pairs])]
    return {"kind": "year", "grass": grass, "most_kg_m2": one[0], "sources": one[1]}


def _shown(row: "dict[str, Any]") -> "dict[str, Any]":
    shown = {name: row[name] for name in ANSWERED}
    shown["kind"], shown["source"], shown["assumed"] = row["kind"], row["source"] or COMMON, row["looser"] is not None
    shown["id"] = ":".join([each for each in (row["id"], row["grass"], row["where"]) if each])
    return shown


def _working(held: "Rows", printed: "Rows", mine: "Rows") -> "list[dict[str, object]]":
    steps = []
    for row in held:
        figure = KINDS[row["kind"]][0]
        for name in NUMBERS:
            if row[name] is None:
                continue
            rivals = [one[name] for one in printed if one["kind"] == row["kind"] and one["grass"] == row["grass"]]
            numbers: dict[str, object] = {"each": [one for one in rivals if one is not None] or [row[name]]}
            said = "entered by you" if row["source"] == OWN else "of the place, else the strictest of all"
            unit = "kg/m2" if name == "most_kg_m2" else UNITS[name]
            nitrogen = name == "most_kg_m2" and row["kind"].split("_")[0] not in ("lime", "phosphate")
            what = ("Nitrogen of the rule " if nitrogen else "Figure of the rule ") + row["kind"]
            steps.append(
                step(
                    what=what if name == figure else what + ", besides",
                    formula=said,
                    numbers=numbers,
                    result=row[name],
                    unit=N_UNIT if nitrogen else unit,
                    source=row["source"],
                )
            )
    numbers = {"printed": len(printed), "own": len(mine)}
    what, formula = "Rules that hold", "those of the place, with the household's own in their stead"
    steps.append(step(what=what, formula=formula, numbers=numbers, result=len(held), unit="rules", source=DEFINITION))
    return steps


UNITS = {
    "over_days": "days",
    "within_years": "years",
    "limit_c": "C",
    "limit_mm": "mm",
    "clear_m": "m",
    "guarded_m": "m",
    "least_slow_share": "share",
    "p_mg_kg": "mg/kg",
}
