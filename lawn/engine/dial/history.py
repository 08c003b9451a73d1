"""Past passes as they come in: read, turned into rates of today, and sorted into learned from and left out."""

import math
from collections import namedtuple

from lawn.engine.core.errors import EngineError
from lawn.engine.core.measuring import MEASURED, RAN_OUT_SHARE, READ_SHARE, reading_error_kg
from lawn.engine.core.numeric import choice, flag, group, listing, number, optional_number, text
from lawn.engine.dial.likelihood import Pass, Product
from lawn.engine.dial.posterior import latest_passes
from lawn.engine.dial.scale import Dial, opening_of

MOST_PASSES = 400
LAST_BITS = 1e-9
SORTS = ("fertilizer", "pre_emergent", "post_emergent", "lime", "seed", "other")
UNLIKE = ("lime", "seed")  # other materials than granules of fertilizer: what one teaches says little of the other
GRANULES = ("fine", "medium", "coarse")
GRANULE_MM = {"fine": 1.0, "medium": 1.6, "coarse": 2.5}
PASS_FIELDS = (
    "product",
    "sort",
    "dial",
    "area_m2",
    "used_kg",
    "measured",
    "ran_out",
    "nothing_came",
    "bad",
    "damp",
    "bulk_density_kg_m3",
    "granules",
    "left_kg",
    "before_left_kg",
    "before_measured",
    "swath_m",
    "speed_m_s",
)

# What is remembered: passes to learn from, oldest first; same_product, other_product or nothing_known; whether the
# product flowed before; openings at which nothing of it came; places marked bad; places left out, with why; all read.
# Last: ids of the products that are seed or lime, and whether the product asked about is one of them.
Memory = namedtuple(
    "Memory", ("passes", "basis", "met", "nothing_at", "bad", "left_out", "read", "unlike", "other_material")
)
# A row of the history: the pass, why it is left out (or nothing), its setting, what it put down by its own readings,
# and what is wrong with it where it cannot be read; then it has neither setting nor rate.
Read = namedtuple("Read", ("one", "why", "setting", "measured_kg_m2", "error", "sort"))


def read_product(value: object) -> Product:
    """Read the product to be spread: its id and, if known, bulk density and granule size."""
    fields = _product_fields(value)
    return Product(
        text("product.id", fields.get("id")),
        optional_number("product.bulk_density_kg_m3", fields.get("bulk_density_kg_m3")),
        _granule_mm("product.granules", fields.get("granules")),
    )


def _product_fields(value: object) -> dict[str, object]:
    fields = group("product", value, ("id", "sort", "bulk_density_kg_m3", "granules"))
    _sort("product.sort", fields.get("sort"))
    return fields


def _sort(path: str, value: object) -> str:
    """Sort of a product; empty where it was not told."""
    return "" if value is None else choice(path, value, SORTS)


def read_history(
    value: object,
    dial: Dial,
    product: Product,
    swath_m: object = None,
    speed_m_s: object = None,
    sort: object = None,
) -> Memory:
    """Sort past passes of this spreader into what can be learned from and what is left out.

    Args:
        value: the passes, oldest first, 0 to 400 [list]
        dial: the dial as it is now [Dial]
        product: the product to be spread [Product]
        swath_m: swath of the job asked about, or nothing [m; 0.2 to 20]
        speed_m_s: speed of that walk, or nothing [m/s; 0.3 to 3]
        sort: sort of the product to be spread, or nothing [text]
    Returns:
        memory: passes to learn from at today's swath and speed, and the passes left out [Memory]
    Raises:
        wrong_count: more passes than 400
        out_of_range: swath or speed of the job asked about is outside its range
    Source: computed
    """
    today = (optional_number("swath_m", swath_m), optional_number("speed_m_s", speed_m_s))
    read = [
        _read_pass(index, item, dial, today) for index, item in enumerate(listing("history", value, 0, MOST_PASSES))
    ]
    usable = [row.one for row in read if row.why == ""]
    latest = latest_passes(usable)
    kept = [one.index for one in latest]
    marked = [_too_old(row, kept) for row in read]
    flowing = [one for one in latest if not one.nothing]
    met = any(one.product == product.id for one in flowing)
    unlike = [row.one.product for row in read if row.sort in UNLIKE]
    other = sort in UNLIKE or (sort is None and product.id in unlike)
    if other and product.id not in unlike:
        unlike.append(product.id)
    elif not other:
        unlike = [name for name in unlike if name != product.id]
    return Memory(
        latest,
        "same_product" if met else ("other_product" if flowing else "nothing_known"),
        met,
        [one.opening for one in usable if one.nothing and one.product == product.id],
        [row.one.index for row in read if row.why == "bad"],
        [_left_out(row) for row in marked if row.why],
        marked,
        unlike,
        other,
    )


def _too_old(row: Read, kept: list[int]) -> Read:
    if row.why or row.one.index in kept:
        return row
    return Read(row.one, "too_old", row.setting, row.measured_kg_m2, None, row.sort)


def _left_out(row: Read) -> dict[str, object]:
    """A row not learned from, with why; one that cannot be read with what is wrong with it."""
    found: dict[str, object] = {"index": row.one.index, "why": row.why}
    if row.error is not None:
        found["error"] = row.error
    return found


def _granule_mm(path: str, value: object) -> float | None:
    return None if value is None else GRANULE_MM[choice(path, value, GRANULES)]


def _read_pass(index: int, item: object, dial: Dial, today: tuple[float | None, float | None]) -> Read:
    """Read one past pass; one that cannot be read is left out and named, for the others are worth no less."""
    try:
        return _readable(index, item, dial, today)
    except EngineError as error:
        nobody = Pass(index, "", 0.0, 0.0, 1.0, None, None, True)
        return Read(nobody, "unreadable", None, None, error.facts(), "")


def _readable(index: int, item: object, dial: Dial, today: tuple[float | None, float | None]) -> Read:
    """Read one past pass, and say why it cannot be learned from, if so.

    Only its flag says that nothing came. A pass that used no more than its two readings may be off teaches neither
    that nothing came nor a rate.
    """
    path = "history[" + str(index) + "]"
    fields = group(path, item, PASS_FIELDS)
    setting = number(path + ".dial", fields.get("dial"))
    used_kg = number(path + ".used_kg", fields.get("used_kg"))
    rate_kg_m2 = used_kg / number(path + ".area_m2", fields.get("area_m2"))
    nothing = flag(path + ".nothing_came", fields.get("nothing_came"))
    error_kg = _error_kg(path, fields)
    unmeasured = not nothing and (used_kg <= error_kg or rate_kg_m2 <= 0.0)
    fold = _fold(path + ".swath_m", fields.get("swath_m"), today[0])
    fold += _fold(path + ".speed_m_s", fields.get("speed_m_s"), today[1])
    one = Pass(
        index,
        text(path + ".product", fields.get("product")),
        opening_of(dial, setting),
        0.0 if nothing or unmeasured else math.log(rate_kg_m2) + fold,
        _sd(path, fields, used_kg),
        optional_number(path + ".bulk_density_kg_m3", fields.get("bulk_density_kg_m3")),
        _granule_mm(path + ".granules", fields.get("granules")),
        nothing,
    )
    why = _why_not(path, fields, one.opening) or ("unmeasured" if unmeasured else "")
    return Read(one, why, setting, rate_kg_m2, None, _sort(path + ".sort", fields.get("sort")))


def _error_kg(path: str, fields: dict[str, object]) -> float:
    """Likely error of what a pass used, by the readings before and after it; 0 where neither is known [kg]."""
    how = choice(path + ".measured", fields.get("measured"), MEASURED)
    left_kg = optional_number(path + ".left_kg", fields.get("left_kg"))
    before, after = _before_kg(path, fields), reading_error_kg(measured=how, seen_kg=left_kg or 0.0)
    return math.sqrt(before * before + after * after)


def _before_kg(path: str, fields: dict[str, object]) -> float:
    """Likely error of what there was at its start, where that was a reading [kg]."""
    left_kg = optional_number(path + ".before_left_kg", fields.get("before_left_kg"))
    how = fields.get("before_measured")
    if how is None or left_kg is None:
        return 0.0
    return reading_error_kg(measured=choice(path + ".before_measured", how, MEASURED), seen_kg=left_kg)


def _why_not(path: str, fields: dict[str, object], opening: float) -> str:
    """Why a pass is left out of learning; empty where it is not."""
    bad = flag(path + ".bad", fields.get("bad"))
    damp = flag(path + ".damp", fields.get("damp"))
    if bad or damp:
        return "bad" if bad else "damp"
    return "off_dial" if opening < -LAST_BITS or opening > 1.0 + LAST_BITS else ""


def _fold(path: str, then: object, today: float | None) -> float:
    """What a wider swath or a quicker walk of then means in log rate of today; nothing where either is unknown."""
    value = optional_number(path, then)
    return 0.0 if value is None or today is None else math.log(value / today)


def _sd(path: str, fields: dict[str, object], used_kg: float) -> float:
    """Relative error of what a pass put down [share; 0.01 and more]."""
    measured = choice(path + ".measured", fields.get("measured"), MEASURED)
    left_kg = optional_number(path + ".left_kg", fields.get("left_kg"))
    ran_out = flag(path + ".ran_out", fields.get("ran_out"))
    of_used = 1.0 if left_kg is None or used_kg <= 0.0 else left_kg / used_kg
    # What a scale is off by is a share of what was used; what a level or handfuls are, of what was left.
    sd = READ_SHARE["scale"] if measured == "scale" else max(READ_SHARE["scale"], READ_SHARE[measured] * of_used)
    before = _before_kg(path, fields) / used_kg if used_kg > 0.0 else 0.0
    return math.sqrt(sd * sd + before * before + (RAN_OUT_SHARE**2 if ran_out else 0.0))
