"""How much may still go down: what the ground lacks, ground that gets no more, and amounts that no setting meters."""

from collections import namedtuple

from lawn.engine.core.errors import out_of_range
from lawn.engine.core.numeric import at_least, group, listing, number, total, whole_down
from lawn.engine.core.working import DEFINITION, step

# Coefficients as the trade says them: 0.5 lb per 1,000 ft2 a pass, a tenth of the aim (source: common practice).
LEAST_LB_KFT2 = 0.5
KG_M2_PER_LB_KFT2 = 0.45359237 / 92.90304
LEAST_PASS_KG_M2 = LEAST_LB_KFT2 * KG_M2_PER_LB_KFT2
LEAST_SHARE = 0.1
# Within a pass under way a stretch is better dialled lower than left bare: only next to nothing ends it. Our own
# choice: with the whole limit a check loses a tenth of what it gains (bench dial, known pairs, two passes).
LEAST_REST_KG_M2 = LEAST_PASS_KG_M2 / 2.0
# Of the aim: how far all passes together may be expected to reach beyond it (source: common practice).
BEYOND_SHARE = 0.1
SCORCH_SHARE = 1.5  # of the label's rate: what lies there may burn (source: common practice)

MOST_OUT = 800  # stretches: 20 passes with 40 looks each

# Ground still to be covered, what it still lacks per area, and what is down on it, where that was told.
Ground = namedtuple("Ground", ("m2", "missing_kg_m2", "down_kg_m2"))
# Ground that gets no more, and what was put down on it, stretch by stretch.
Out = namedtuple("Out", ("m2", "kg"))


def out_of(value: object) -> Out:
    """Read the stretches that get no more.

    Args:
        value: a list of area_m2 and used_kg, or nothing [list]
    Returns:
        out: ground and product of each [Out]
    Raises:
        out_of_range: a figure is outside its range
    Source: definition
    """
    grounds, products = [], []
    for at, item in enumerate(listing("out", value, 0, MOST_OUT) if value is not None else []):
        path = "out[" + str(at) + "]"
        one = group(path, item, ("area_m2", "used_kg"))
        grounds.append(number(path + ".area_m2", one.get("area_m2"), 0.0))
        products.append(number(path + ".used_kg", one.get("used_kg")))
    return Out(grounds, products)


def rest_of(area_m2: float, out: Out) -> float:
    """Ground that may get more [m2]; none where all of it is out. More out than there is, is refused."""
    out_m2 = total(out.m2)
    if not at_least(area_m2, out_m2):
        raise out_of_range(name="out", value=out_m2, low=0.0, high=area_m2)
    ground_m2 = area_m2 - out_m2
    return ground_m2 if ground_m2 > 1e-9 * area_m2 else 0.0


def down_on_rest(*, used_kg: float | None, rest_m2: float, out: Out) -> float | None:
    """What lies on the ground that may get more [kg/m2]; nothing where that was not told, or all ground is out."""
    if used_kg is None or rest_m2 <= 0.0:
        return None
    return max(0.0, used_kg - total(out.kg)) / rest_m2


def out_steps(*, area_m2: float, used_kg: float | None, out: Out) -> list[dict[str, object]]:
    """How ground that gets no more was taken out; no step where there is none."""
    if not out.m2:
        return []
    rest_m2 = rest_of(area_m2, out)
    found = [
        step(
            what="Ground that may get more",
            formula="ground of the pass less the stretches that get no more, added",
            numbers={"area_m2": area_m2, "out_m2": out.m2},
            result=rest_m2,
            unit="m2",
            source=DEFINITION,
        )
    ]
    down_kg_m2 = down_on_rest(used_kg=used_kg, rest_m2=rest_m2, out=out)
    if down_kg_m2 is not None:
        found.append(
            step(
                what="Product down on that ground",
                formula="product put down so far less what lies on those stretches, over that ground",
                numbers={"used_kg": used_kg, "out_kg": out.kg, "rest_m2": rest_m2},
                result=down_kg_m2,
                unit="kg/m2",
                source=DEFINITION,
            )
        )
    return found


def ground_left(
    *,
    area_m2: float,
    aim_kg_m2: float,
    missing_kg_m2: float | None,
    used_kg: float | None,
    out: Out,
) -> Ground:
    """What ground is to get more, and how much of the aim it lacks.

    Args:
        area_m2: ground each pass covers [m2; 0.5 to 100000]
        aim_kg_m2: product per area, all passes together [kg/m2; 0.000001 to 50]
        missing_kg_m2: what the ground lacks, where that was told [kg/m2; 0 to 50]
        used_kg: put down so far, where that was told [kg; 0 to 5000]
        out: ground that gets no more, and what was put down on it [Out]
    Returns:
        ground: ground and what it lacks; nothing where all of it is out [Ground]
    Raises:
        out_of_range: more ground is out than there is
    Source: definition
    """
    ground_m2 = rest_of(area_m2, out)
    if ground_m2 <= 0.0:
        return Ground(0.0, 0.0, None)
    lacks = aim_kg_m2 if missing_kg_m2 is None else min(missing_kg_m2, aim_kg_m2)
    down_kg_m2 = down_on_rest(used_kg=used_kg, rest_m2=ground_m2, out=out)
    if down_kg_m2 is not None:
        lacks = min(lacks, aim_kg_m2 - down_kg_m2)
    return Ground(ground_m2, lacks if lacks > 1e-9 * aim_kg_m2 else 0.0, down_kg_m2)


def passes_metered(load_kg_m2: float, passes: int) -> int:
    """Passes in which an amount can still be metered: as many as wanted, or fewer; 1 at least."""
    return max(1, min(passes, whole_down(load_kg_m2 / LEAST_PASS_KG_M2)))


def most_of_pass(*, load_kg_m2: float, aim_kg_m2: float, down_kg_m2: float | None, surplus: bool, last: bool) -> float:
    """The most that a pass may be expected to put down [kg/m2].

    Args:
        load_kg_m2: what may still go down over the ground [kg/m2; 0 and more]
        aim_kg_m2: the whole aim, all passes together [kg/m2; above 0]
        down_kg_m2: what is down already, where that was told [kg/m2; 0 and more]
        surplus: more is in hand than the ground lacks, so that what is in hand holds nothing back [true or false]
        last: this is the last pass [true or false]
    Returns:
        most: the load before the last pass; for it the aim, or what is still missing of it and a tenth where what is
            down was told; only what is missing where more is in hand [kg/m2]
    Source: computed
    """
    if not last or surplus:
        return load_kg_m2
    if down_kg_m2 is None:
        return max(aim_kg_m2, load_kg_m2)
    return max(load_kg_m2, min(aim_kg_m2, (1.0 + BEYOND_SHARE) * aim_kg_m2 - down_kg_m2))


def held_back(*, load_kg_m2: float, aim_kg_m2: float | None, there_kg: float, passes: int) -> str:
    """Why no setting is given whatever the dial, in a word; empty where one may be.

    Args:
        load_kg_m2: what may still go down over the ground [kg/m2; 0 and more]
        aim_kg_m2: the whole aim, all passes together; nothing within a pass under way, which is better ended lower than
            left bare on its last strips [kg/m2; above 0]
        there_kg: what there is in hand [kg; 0 and more]
        passes: passes it is to be walked in [passes; 1 to 20]
    Returns:
        why: empty, enough (there is some, but the ground has had its aim), by_hand or nothing [text]
    Source: common practice
    """
    if load_kg_m2 <= 0.0:
        return "enough" if there_kg > 0.0 else "empty"
    if aim_kg_m2 is None:
        return "" if at_least(load_kg_m2, LEAST_REST_KG_M2) else "by_hand"
    least_kg_m2 = LEAST_SHARE * aim_kg_m2
    small = not at_least(load_kg_m2 / passes, LEAST_PASS_KG_M2) or not at_least(load_kg_m2, least_kg_m2)
    return "by_hand" if small else ""
