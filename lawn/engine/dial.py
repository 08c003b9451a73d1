"""A spreader's dial as whole clicks, and the provisional curve of what falls at each of them.

The curve is one fixed shape, (u - 0.075) to the power 1.75 with u the opening as a share of full travel,
scaled through what past passes put down. A model that learns shape and dead zone replaces this file
behind the same calls.
"""

import math
from collections import namedtuple

from lawn.engine.errors import EngineError
from lawn.engine.numeric import choice, flag, group, listing, number, optional_number, text, whole_down

DEAD_ZONE = 0.075
EXPONENT = 1.75
CURVE_SOURCE = "computed"
LEAST_OPENING = 0.02  # a pass at or below the dead zone that did flow counts as opened this far beyond it
PRIOR_HALF_OPEN_KG_M2 = 0.025  # what an unknown spreader puts down half open: 2.5 kg per 100 m2
REFERENCE_DENSITY_KG_M3 = 780.0
MOST_CLICKS = 500
MOST_PASSES = 400
MEASURED = ("scale", "level", "handfuls")
MEASURE_SD = {"scale": 0.01, "level": 0.08, "handfuls": 0.25}
GRANULES = ("fine", "medium", "coarse")
PASS_FIELDS = (
    "product",
    "dial",
    "area_m2",
    "used_kg",
    "measured",
    "ran_out",
    "nothing_came",
    "bad",
    "bulk_density_kg_m3",
    "granules",
)

# Likely relative errors (standard deviations of the logarithm), from the design's simulations.
SD_PASS = 0.09  # one pass against the next, nothing changed
SD_PRODUCT = 0.25  # from another product whose density is not known
SD_PRODUCT_BY_DENSITY = 0.15  # from another product, scaled by density
SD_EXPONENT = 0.45  # the exponent lies between 1.0 and 2.6
SD_UNKNOWN = 0.9  # nothing known: level, shape and dead zone together

Dial = namedtuple("Dial", ("lowest", "highest", "step", "clicks"))
Product = namedtuple("Product", ("id", "density", "granules"))
Pass = namedtuple("Pass", ("index", "product", "opening", "rate_kg_m2", "sd", "density"))
Memory = namedtuple("Memory", ("passes", "basis", "met", "nothing_at", "bad", "left_out"))


def read_dial(value: object) -> Dial:
    """Read a dial: lowest is closed, highest fully open.

    Args:
        value: group with lowest, highest, step [group of values]
    Returns:
        dial: the dial with its number of clicks above closed [Dial]
    Raises:
        impossible: highest is not above lowest, or there is no whole click between them
        out_of_range: a number is outside its range
    Source: definition
    """
    fields = group("dial", value, ("lowest", "highest", "step"))
    lowest = number("dial.lowest", fields.get("lowest"))
    highest = number("dial.highest", fields.get("highest"))
    step = number("dial.step", fields.get("step"))
    clicks = whole_down((highest - lowest) / step)
    if clicks < 1 or clicks > MOST_CLICKS:
        raise EngineError(
            code="impossible",
            name="dial.highest",
            value=fields.get("highest"),
            low=lowest + step,
            high=lowest + step * MOST_CLICKS,
            message="The dial needs at least one click between its lowest and its highest number.",
        )
    return Dial(lowest, highest, step, clicks)


def opening_of(dial: Dial, setting: float) -> float:
    """Share of full travel at a dial setting: 0 closed, 1 fully open."""
    share: float = (setting - dial.lowest) / (dial.highest - dial.lowest)
    return share


def setting_of(dial: Dial, click: int) -> float:
    """Number on the dial at a click counted from closed."""
    setting: float = dial.lowest + click * dial.step
    return setting


def click_at_most(dial: Dial, opening: float) -> int:
    """Highest whole click no further open than this, but never none at all."""
    return max(1, whole_down(opening * (dial.highest - dial.lowest) / dial.step))


def least_click(dial: Dial, nothing_at: list[float]) -> int:
    """Lowest click worth setting: one beyond the highest at which nothing came; 0 where something always came."""
    least = 0
    for opening in nothing_at:
        least = max(least, whole_down(opening * (dial.highest - dial.lowest) / dial.step) + 1)
    return int(least)


def read_product(value: object) -> Product:
    """Read the product to be spread: its id and, if known, bulk density and granule size."""
    fields = group("product", value, ("id", "bulk_density_kg_m3", "granules"))
    granules = fields.get("granules")
    return Product(
        text("product.id", fields.get("id")),
        optional_number("product.bulk_density_kg_m3", fields.get("bulk_density_kg_m3")),
        None if granules is None else choice("product.granules", granules, GRANULES),
    )


def read_history(value: object, dial: Dial, product: Product) -> Memory:
    """Sort past passes of this spreader into what can be learnt from and what is left out.

    Args:
        value: the passes, oldest first, 0 to 400 [list]
        dial: the dial as it is now [Dial]
        product: the product to be spread [Product]
    Returns:
        memory: usable passes of this product, else of others; what they are; and the passes left out [Memory]
    Raises:
        out_of_range: a number is outside its range
    Source: computed
    """
    same: list[Pass] = []
    other: list[Pass] = []
    bad: list[int] = []
    left_out: list[dict[str, object]] = []
    nothing_at: list[float] = []
    met = False
    for index, item in enumerate(listing("history", value, 0, MOST_PASSES)):
        one, why = _read_pass(index, item, dial)
        of_this = one.product == product.id
        met = met or (of_this and why == "")
        if why == "bad":
            bad.append(index)
        if why == "nothing_came" and of_this:
            nothing_at.append(one.opening)
        if why:
            left_out.append({"index": index, "why": why})
        else:
            (same if of_this else other).append(one)
    basis = "same_product" if same else ("other_product" if other else "nothing_known")
    return Memory(same or other, basis, met, nothing_at, bad, left_out)


def curve_share(opening: float) -> float:
    """Height of the fixed curve at an opening, 1 at half open.

    Args:
        opening: share of full travel [share; 0 to 1]
    Returns:
        curve: what falls there, against half open [share]
    Source: computed
    Checked: twice the rate of u = 0.30 is at u = 0.41, not at 0.60 (computed)
    """
    beyond = opening - DEAD_ZONE
    curve: float = (beyond / (0.5 - DEAD_ZONE)) ** EXPONENT if beyond > 0.0 else 0.0
    return curve


def expected(dial: Dial, click: int, product: Product, memory: Memory) -> tuple[float, float, Pass | None]:
    """What one click is expected to put down, how doubtful that is, and the pass it is scaled through.

    Args:
        dial: the dial [Dial]
        click: whole click above closed [clicks]
        product: the product to be spread [Product]
        memory: the past passes [Memory]
    Returns:
        expectation: median rate in kg/m2, sd of its logarithm, the nearest past pass or None [list]
    Source: computed
    """
    opening = opening_of(dial, setting_of(dial, click))
    near = _nearest(memory.passes, opening)
    if near is None:
        scale = 1.0 if product.density is None else product.density / REFERENCE_DENSITY_KG_M3
        return PRIOR_HALF_OPEN_KG_M2 * scale * curve_share(opening), SD_UNKNOWN, None
    from_opening = max(near.opening, DEAD_ZONE + LEAST_OPENING)
    ratio = curve_share(opening) / curve_share(from_opening)
    known = product.density is not None and near.density is not None
    other = memory.basis == "other_product"
    density = product.density / near.density if other and known else 1.0
    sd_product = (SD_PRODUCT_BY_DENSITY if known else SD_PRODUCT) if other else 0.0
    sd_reach = 0.0
    if ratio > 0.0:
        sd_reach = SD_EXPONENT * abs(math.log(ratio)) / EXPONENT
    sd = math.sqrt(2.0 * SD_PASS**2 + near.sd**2 + sd_product**2 + sd_reach**2)
    return near.rate_kg_m2 * density * ratio, sd, near


def expected_rising(dial: Dial, product: Product, memory: Memory) -> list[float]:
    """Expected rate at every click from closed upwards, never falling as the dial opens [kg/m2].

    Two passes that contradict each other would bend the curve down between them; there the higher rate
    below stands, so that more left over never leads to a lower next setting, and doubt to less product.
    """
    rates: list[float] = []
    highest = 0.0
    for click in range(dial.clicks + 1):
        highest = max(highest, expected(dial, click, product, memory)[0])
        rates.append(highest)
    return rates


def _read_pass(index: int, item: object, dial: Dial) -> tuple[Pass, str]:
    """Read one past pass, and say why it cannot be learnt from, if so."""
    path = "history[" + str(index) + "]"
    fields = group(path, item, PASS_FIELDS)
    if fields.get("granules") is not None:
        choice(path + ".granules", fields.get("granules"), GRANULES)
    flag(path + ".ran_out", fields.get("ran_out"))
    nothing_came = flag(path + ".nothing_came", fields.get("nothing_came"))
    bad = flag(path + ".bad", fields.get("bad"))
    one = Pass(
        index,
        text(path + ".product", fields.get("product")),
        opening_of(dial, number(path + ".dial", fields.get("dial"))),
        number(path + ".used_kg", fields.get("used_kg")) / number(path + ".area_m2", fields.get("area_m2")),
        MEASURE_SD[choice(path + ".measured", fields.get("measured"), MEASURED)],
        optional_number(path + ".bulk_density_kg_m3", fields.get("bulk_density_kg_m3")),
    )
    if bad:
        return one, "bad"
    if one.opening < 0.0 or one.opening > 1.0:
        return one, "off_dial"
    return one, "nothing_came" if nothing_came or one.rate_kg_m2 <= 0.0 else ""


def _nearest(passes: list[Pass], opening: float) -> Pass | None:
    """The pass whose opening is nearest; of equally near ones the latest."""
    best: Pass | None = None
    for one in passes:
        if best is None or abs(one.opening - opening) <= abs(best.opening - opening) + 1e-12:
            best = one
    return best
