"""Past passes as they come in: read, turned into rates of today, and sorted into learnt from and left out."""

import math
from collections import namedtuple

from lawn.engine.belief import latest_passes
from lawn.engine.dial import Dial, opening_of
from lawn.engine.evidence import Pass, Product
from lawn.engine.numeric import choice, flag, group, listing, number, optional_number, text

MOST_PASSES = 400
LAST_BITS = 1e-9
MEASURED = ("scale", "level", "handfuls")
# Likely error of a measurement (source: computed, the design's simulation): of what was used for a scale, of what
# was left for the other two.
SCALE_SD = 0.01
LEFT_SD = {"scale": 0.0, "level": 0.08, "handfuls": 0.25}
RAN_OUT_SD = 0.03  # of the ground covered when the hopper ran empty, paced out
GRANULES = ("fine", "medium", "coarse")
GRANULE_MM = {"fine": 1.0, "medium": 1.6, "coarse": 2.5}
PASS_FIELDS = (
    "product",
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
    "swath_m",
    "speed_m_s",
)

# What is remembered: passes to learn from, oldest first; same_product, other_product or nothing_known; whether the
# product flowed before; openings at which nothing of it came; places marked bad; places left out, with why; all read.
Memory = namedtuple("Memory", ("passes", "basis", "met", "nothing_at", "bad", "left_out", "read"))
Read = namedtuple("Read", ("one", "why", "setting"))


def read_product(value: object) -> Product:
    """Read the product to be spread: its id and, if known, bulk density and granule size."""
    fields = group("product", value, ("id", "bulk_density_kg_m3", "granules"))
    return Product(
        text("product.id", fields.get("id")),
        optional_number("product.bulk_density_kg_m3", fields.get("bulk_density_kg_m3")),
        _granule_mm("product.granules", fields.get("granules")),
    )


def read_history(
    value: object, dial: Dial, product: Product, swath_m: object = None, speed_m_s: object = None
) -> Memory:
    """Sort past passes of this spreader into what can be learnt from and what is left out.

    Args:
        value: the passes, oldest first, 0 to 400 [list]
        dial: the dial as it is now [Dial]
        product: the product to be spread [Product]
        swath_m: swath of the walk asked about, or nothing [m; 0.2 to 20]
        speed_m_s: speed of that walk, or nothing [m/s; 0.3 to 3]
    Returns:
        memory: passes to learn from at today's swath and speed, and the passes left out [Memory]
    Raises:
        out_of_range: a number is outside its range
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
    return Memory(
        latest,
        "same_product" if met else ("other_product" if flowing else "nothing_known"),
        met,
        [one.opening for one in usable if one.nothing and one.product == product.id],
        [row.one.index for row in read if row.why == "bad"],
        [{"index": row.one.index, "why": row.why} for row in marked if row.why],
        marked,
    )


def _too_old(row: Read, kept: list[int]) -> Read:
    return row if row.why or row.one.index in kept else Read(row.one, "too_old", row.setting)


def _granule_mm(path: str, value: object) -> float | None:
    return None if value is None else GRANULE_MM[choice(path, value, GRANULES)]


def _read_pass(index: int, item: object, dial: Dial, today: tuple[float | None, float | None]) -> Read:
    """Read one past pass, and say why it cannot be learnt from, if so."""
    path = "history[" + str(index) + "]"
    fields = group(path, item, PASS_FIELDS)
    setting = number(path + ".dial", fields.get("dial"))
    used_kg = number(path + ".used_kg", fields.get("used_kg"))
    rate_kg_m2 = used_kg / number(path + ".area_m2", fields.get("area_m2"))
    nothing = flag(path + ".nothing_came", fields.get("nothing_came")) or rate_kg_m2 <= 0.0
    fold = _fold(path + ".swath_m", fields.get("swath_m"), today[0])
    fold += _fold(path + ".speed_m_s", fields.get("speed_m_s"), today[1])
    one = Pass(
        index,
        text(path + ".product", fields.get("product")),
        opening_of(dial, setting),
        0.0 if nothing else math.log(rate_kg_m2) + fold,
        _sd(path, fields, used_kg),
        optional_number(path + ".bulk_density_kg_m3", fields.get("bulk_density_kg_m3")),
        _granule_mm(path + ".granules", fields.get("granules")),
        nothing,
    )
    return Read(one, _why_not(path, fields, one.opening), setting)


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
    sd = max(SCALE_SD, LEFT_SD[measured] * of_used)
    return math.sqrt(sd * sd + RAN_OUT_SD**2) if ran_out else sd
