"""The dial: where to start, and where to go on from what is left in the hopper.

Provisional: the trade's one-third open first, then a fixed curve through the nearest past pass. What it
says about doubt is a rough estimate from the errors listed in dial.py, and says so.
"""

import math

from lawn.engine.bags import zone_rows
from lawn.engine.dial import (
    CURVE_SOURCE,
    Dial,
    Memory,
    Product,
    click_at_most,
    expected,
    expected_rising,
    least_click,
    read_dial,
    read_history,
    read_product,
    setting_of,
)
from lawn.engine.numeric import at_least, number, optional_number, total, whole
from lawn.engine.working import DEFINITION, nitrogen_step, step

FIRST_OPENING = 1.0 / 3.0
FIRST_SOURCE = "onethird"
FIRST_MEETING_PASSES = 3
KNOWN_PASSES = 2
LAST_PASS_AIM = 0.9  # the last pass is aimed 10 % low: what is missing can be added, a stripe cannot
Z_90 = 1.6448536269514722  # 5 % lie beyond it on either side (standard normal distribution)
MOST_ZONES = 60


def start(
    *,
    dial: dict[str, object],
    product: dict[str, object],
    target_kg_m2: float,
    area_m2: float,
    history: list[object],
    passes: int | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """First setting of an application, and in how many passes to walk it.

    Args:
        dial: the spreader's dial [group of values]
        dial.lowest: number when closed [dial; -1000 to 1000]
        dial.highest: number when fully open [dial; -1000 to 1000]
        dial.step: one click [dial; 0.01 to 100]
        product: what is spread [group of values]
        product.id: the product [text]
        product.bulk_density_kg_m3?: mass of the loose product per volume [kg/m3; 100 to 2500]
        product.granules?: fine, medium or coarse [text]
        target_kg_m2: product per area, all passes together [kg/m2; 0.000001 to 50]
        area_m2: ground to cover [m2; 0.5 to 100000]
        history: past passes with this spreader, oldest first, up to 400 [list]
        history.product: the product of that pass [text]
        history.dial: its setting [dial; -1000 to 1000]
        history.area_m2: ground it covered [m2; 0.5 to 100000]
        history.used_kg: product it put down [kg; 0 to 5000]
        history.measured: scale, level or handfuls [text]
        history.ran_out?: the hopper ran empty; area_m2 is then the ground really covered [true or false]
        history.nothing_came?: nothing came out at this setting [true or false]
        history.bad?: not to be learnt from [true or false]
        history.bulk_density_kg_m3?: of that product then [kg/m3; 100 to 2500]
        history.granules?: of that product then [text]
        passes?: passes to walk; as advised when not said [passes; 1 to 20]
    Returns:
        dial: setting to start at, a whole click [dial]
        passes_advised: 3 where this spreader has not met this product, else 2 [passes]
        share: share of the aim this pass should put down [share]
        aim_kg_m2: what this pass should put down per area; 10 % less where it is the only one [kg/m2]
        left_kg: low, mid and high of what will be left of the whole load; 90 % lie between low and high [kg]
        chance_of_running_out: that the whole load ends before the ground does [share]
        basis: same_product, other_product or nothing_known [text]
        estimated: always true: a rough estimate until the learning model replaces it [true or false]
        left_out: past passes not learnt from, with why: bad, off_dial or nothing_came [list]
        advice: walk; stop where even the first click that flows would put down too much; blocked where nothing
            came fully open. Without walk the dial stays closed [text]
    Raises:
        out_of_range: an argument is outside its range
        impossible: the dial has no click
    Source: onethird
    Checked: one-third of a 24-click dial is click 8 (computed)
    """
    scale, stuff, memory = _read(dial, product, history)
    aim_kg_m2 = number("target_kg_m2", target_kg_m2)
    ground_m2 = number("area_m2", area_m2)
    advised = KNOWN_PASSES if memory.met else FIRST_MEETING_PASSES
    count = advised if passes is None else whole("passes", passes)
    load_kg = aim_kg_m2 * ground_m2
    answer, working = _choose(scale, stuff, memory, load_kg, 0.0, ground_m2, count)
    answer["passes_advised"] = advised
    answer["share"] = 1.0 / count
    return answer, [_passes_step(memory.met, advised), _share_step(count)] + working


def next_pass(
    *,
    dial: dict[str, object],
    product: dict[str, object],
    target_kg_m2: float,
    area_m2: float,
    history: list[object],
    left_kg: float,
    passes_to_go: int,
    left_sd_kg: float | None = None,
    passes: int | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Setting of the next pass, from what is left; the pass just walked belongs to the history.

    Args:
        dial: the spreader's dial, as for spreading.start [group of values]
        product: what is spread, as for spreading.start [group of values]
        target_kg_m2: product per area, all passes together [kg/m2; 0.000001 to 50]
        area_m2: ground each pass covers [m2; 0.5 to 100000]
        history: past passes with this spreader, oldest first, as for spreading.start [list]
        left_kg: product left for the passes still to walk [kg; 0 to 20000]
        passes_to_go: passes still to walk, this one included [passes; 1 to 20]
        left_sd_kg?: likely error of what is left [kg; 0 to 20000]
        passes?: passes of the whole application; not used in the sum [passes; 1 to 20]
    Returns:
        dial: setting of the next pass, a whole click [dial]
        share: share of what is left that this pass should put down [share]
        aim_kg_m2: what this pass should put down per area; 10 % less on the last [kg/m2]
        left_kg: low, mid and high of what will be left after it; 90 % lie between low and high [kg]
        chance_of_running_out: that what is left ends before the ground does [share]
        bad_passes: places in the history of the passes marked as not to be learnt from [list]
        basis: same_product, other_product or nothing_known [text]
        estimated: always true: a rough estimate until the learning model replaces it [true or false]
        left_out: past passes not learnt from, with why: bad, off_dial or nothing_came [list]
        advice: walk; stop where even the first click that flows would put down too much; blocked where nothing
            came fully open. Without walk the dial stays closed [text]
    Raises:
        out_of_range: an argument is outside its range
        impossible: the dial has no click
    Source: computed
    Checked: twice the rate of u = 0.30 is at u = 0.41, not at 0.60 (computed)
    """
    scale, stuff, memory = _read(dial, product, history)
    number("target_kg_m2", target_kg_m2)
    if passes is not None:
        whole("passes", passes)
    ground_m2 = number("area_m2", area_m2)
    load_kg = number("left_kg", left_kg)
    load_sd_kg = optional_number("left_sd_kg", left_sd_kg) or 0.0
    to_go = whole("passes_to_go", passes_to_go)
    answer, working = _choose(scale, stuff, memory, load_kg, load_sd_kg, ground_m2, to_go)
    answer["share"] = 1.0 / to_go
    answer["bad_passes"] = memory.bad
    return answer, [_share_step(to_go)] + working


def split(
    *, used_kg: float, zones: list[object], n_percent: float | None = None
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Share out what a walk put down among its zones, by area, for the log entry.

    Args:
        used_kg: product put down on all of them [kg; 0 to 5000]
        zones: the zones walked, 1 to 60 [list]
        zones.id: the zone [text]
        zones.area_m2: its area [m2; 0.5 to 100000]
        n_percent?: nitrogen on the label [%; 0 to 100]
    Returns:
        zones: for each zone zone_id, area_m2, used_kg, n_kg_m2 (null if the label's nitrogen is unknown) [list]
        rate_kg_m2: product per area on every zone [kg/m2]
    Raises:
        out_of_range: an argument is outside its range
        repeated: a zone stands twice in the list
    Source: definition
    """
    used = number("used_kg", used_kg)
    percent = optional_number("n_percent", n_percent)
    rows = zone_rows("zones", zones, MOST_ZONES)
    area_m2 = total([row[1] for row in rows])
    rate_kg_m2 = used / area_m2
    n_kg_m2 = None if percent is None else rate_kg_m2 * percent / 100.0
    shared = [
        {"zone_id": row[0], "area_m2": row[1], "used_kg": rate_kg_m2 * row[1], "n_kg_m2": n_kg_m2} for row in rows
    ]
    working = [
        step(
            what="Product per area on the zones walked",
            formula="product put down over the area of all of them",
            numbers={"used_kg": used, "area_m2": area_m2},
            result=rate_kg_m2,
            unit="kg/m2",
            source=DEFINITION,
        )
    ]
    if percent is not None and n_kg_m2 is not None:
        working.append(nitrogen_step(rate_kg_m2, percent, n_kg_m2))
    working.extend([_zone_step(rate_kg_m2, row[0], row[1]) for row in rows])
    return {"zones": shared, "rate_kg_m2": rate_kg_m2}, working


def _read(dial: object, product: object, history: object) -> tuple[Dial, Product, Memory]:
    scale = read_dial(dial)
    stuff = read_product(product)
    return scale, stuff, read_history(history, scale, stuff)


def _choose(
    dial: Dial,
    product: Product,
    memory: Memory,
    load_kg: float,
    load_sd_kg: float,
    area_m2: float,
    passes: int,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Choose the click for one of the passes a load still has to last for, and say what is likely left."""
    aim_kg_m2 = load_kg / area_m2 / passes * (LAST_PASS_AIM if passes == 1 else 1.0)
    rates = expected_rising(dial, product, memory)
    least = least_click(dial, memory.nothing_at)
    top = dial.clicks
    limit_kg_m2 = aim_kg_m2
    if memory.basis == "nothing_known":
        top = min(max(click_at_most(dial, FIRST_OPENING), least), dial.clicks)
        limit_kg_m2 = load_kg / area_m2
    click = _beyond(rates, _highest_within(rates, top, limit_kg_m2), least, load_kg / area_m2)
    _, sd, near = expected(dial, click, product, memory)
    rate_kg_m2 = rates[click]
    value: dict[str, object] = {
        "dial": setting_of(dial, click),
        "aim_kg_m2": aim_kg_m2,
        "left_kg": _left(load_kg, load_sd_kg, rate_kg_m2 * area_m2, sd),
        "chance_of_running_out": _chance(load_kg, load_sd_kg, rate_kg_m2 * area_m2, sd),
        "basis": memory.basis,
        "estimated": True,
        "left_out": memory.left_out,
        "advice": "blocked" if least > dial.clicks else ("walk" if rate_kg_m2 > 0.0 else "stop"),
    }
    working = [_aim_step(load_kg, area_m2, passes, aim_kg_m2)]
    if near is None:
        working.append(_first_step(dial, top, click))
    else:
        working.append(_curve_step(dial, click, near.opening, near.rate_kg_m2, rate_kg_m2))
        working.append(_dial_step(dial, click, rates, limit_kg_m2))
    if least > 0:
        working.append(_least_step(dial, least, click))
    working.append(_left_step(load_kg, rate_kg_m2, area_m2, sd))
    working.append(_chance_step(load_kg, load_sd_kg, rate_kg_m2 * area_m2, sd))
    return value, working


def _highest_within(rates: list[float], top: int, limit_kg_m2: float) -> int:
    """Highest click up to top that is not expected to put down more than the limit."""
    best: int = 0
    for click in range(top + 1):
        if at_least(limit_kg_m2, rates[click]):
            best = click
    return int(best)


def _beyond(rates: list[float], click: int, least: int, load_kg_m2: float) -> int:
    """The click chosen, or the lowest one worth setting; closed where nothing flows there or it empties the load."""
    wanted = max(click, least)
    if wanted >= len(rates) or rates[wanted] <= 0.0:
        return 0
    return wanted if wanted == click or at_least(load_kg_m2, rates[wanted]) else 0


def _left(load_kg: float, load_sd_kg: float, used_kg: float, sd: float) -> dict[str, object]:
    """What is left after a pass: 5 %, 50 % and 95 %, the errors of load and pass added as squares."""
    mid = load_kg - used_kg
    down = math.sqrt((used_kg * (math.exp(Z_90 * sd) - 1.0)) ** 2 + (Z_90 * load_sd_kg) ** 2)
    up = math.sqrt((used_kg * (1.0 - math.exp(-Z_90 * sd))) ** 2 + (Z_90 * load_sd_kg) ** 2)
    return {"low": max(0.0, mid - down), "mid": max(0.0, mid), "high": mid + up}


def _chance(load_kg: float, load_sd_kg: float, used_kg: float, sd: float) -> float:
    """Chance that a pass needs more than there is; the logarithm of the pass is taken as normal."""
    if used_kg <= 0.0:
        return 0.0
    if load_kg <= 0.0:
        return 1.0
    both = math.sqrt(sd * sd + (load_sd_kg / load_kg) ** 2)
    return 0.5 * math.erfc(math.log(load_kg / used_kg) / both / math.sqrt(2.0))


def _passes_step(met: bool, advised: int) -> dict[str, object]:
    return step(
        what="Passes advised",
        formula="2 for a spreader that knows the product, 3 at a first meeting",
        numbers={"met": met},
        result=advised,
        unit="passes",
        source=CURVE_SOURCE,
    )


def _aim_step(load_kg: float, area_m2: float, passes: int, aim_kg_m2: float) -> dict[str, object]:
    last = passes == 1
    formula = "what there is over the ground, over the passes to walk"
    return step(
        what="Aim of this pass",
        formula=formula + (", 10 % low on the last" if last else ""),
        numbers={"load_kg": load_kg, "area_m2": area_m2, "passes": passes},
        result=aim_kg_m2,
        unit="kg/m2",
        source=CURVE_SOURCE if last else DEFINITION,
    )


def _first_step(dial: Dial, top: int, click: int) -> dict[str, object]:
    return step(
        what="Setting where nothing is known of this spreader",
        formula="one third open, lower where even that may empty the load",
        numbers={"third": setting_of(dial, top)},
        result=setting_of(dial, click),
        unit="dial",
        source=FIRST_SOURCE,
    )


def _curve_step(dial: Dial, click: int, opening: float, rate_kg_m2: float, result: float) -> dict[str, object]:
    return step(
        what="Product expected at the setting",
        formula="the nearest past pass scaled by (opening - 0.075) to the power 1.75",
        numbers={"past_opening": opening, "past_rate_kg_m2": rate_kg_m2, "dial": setting_of(dial, click)},
        result=result,
        unit="kg/m2",
        source=CURVE_SOURCE,
    )


def _left_step(load_kg: float, rate_kg_m2: float, area_m2: float, sd: float) -> dict[str, object]:
    return step(
        what="Left after this pass, a rough estimate",
        formula="what there is less rate times ground; the rate is likely off by the share given",
        numbers={"load_kg": load_kg, "rate_kg_m2": rate_kg_m2, "area_m2": area_m2, "sd_share": sd},
        result=max(0.0, load_kg - rate_kg_m2 * area_m2),
        unit="kg",
        source=CURVE_SOURCE,
    )


def _share_step(passes: int) -> dict[str, object]:
    return step(
        what="Share of this pass",
        formula="1 over the passes to walk",
        numbers={"passes": passes},
        result=1.0 / passes,
        unit="share",
        source=DEFINITION,
    )


def _dial_step(dial: Dial, click: int, rates: list[float], limit_kg_m2: float) -> dict[str, object]:
    return step(
        what="Setting",
        formula="the highest click not expected to put down more than the aim",
        numbers={"aim_kg_m2": limit_kg_m2, "expected_kg_m2": rates[click]},
        result=setting_of(dial, click),
        unit="dial",
        source=CURVE_SOURCE,
    )


def _least_step(dial: Dial, least: int, click: int) -> dict[str, object]:
    return step(
        what="Setting after nothing came out",
        formula="at least one click beyond the highest setting at which nothing came; closed where that ends the load",
        numbers={"nothing_came_at": setting_of(dial, least - 1)},
        result=setting_of(dial, click),
        unit="dial",
        source=DEFINITION,
    )


def _chance_step(load_kg: float, load_sd_kg: float, used_kg: float, sd: float) -> dict[str, object]:
    return step(
        what="Chance of running out, a rough estimate",
        formula="how often a pass likely off by this share takes more than there is",
        numbers={"load_kg": load_kg, "load_sd_kg": load_sd_kg, "expected_kg": used_kg, "sd_share": sd},
        result=_chance(load_kg, load_sd_kg, used_kg, sd),
        unit="share",
        source=CURVE_SOURCE,
    )


def _zone_step(rate_kg_m2: float, zone_id: str, area_m2: float) -> dict[str, object]:
    return step(
        what="Product on a zone",
        formula="product per area times the zone's area",
        numbers={"rate_kg_m2": rate_kg_m2, "area_m2": area_m2},
        result=rate_kg_m2 * area_m2,
        unit="kg",
        source=DEFINITION,
        of=zone_id,
    )
