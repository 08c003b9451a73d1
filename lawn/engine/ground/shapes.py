"""Plane shapes a person can measure with a tape: each with its area and the error of that area.

A shape's error comes from its lengths: each is taken to be off, on its own, by the same share.
"""

import math

from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import number, positive
from lawn.engine.core.working import step
from lawn.engine.ground.corners import shape_ring

SHAPES = {
    "rectangle": ("length_m", "width_m"),
    "triangle": ("base_m", "height_m"),
    "circle": ("radius_m",),
    "ellipse": ("length_m", "width_m"),
    "trapezoid": ("side_a_m", "side_b_m", "height_m"),
}
SIDES = ("a_m", "b_m", "c_m")
FORMULAS = {
    "rectangle": ("length times width", "CLEMSON-1220"),
    "triangle": ("half of base times height", "WESTONE-FN27"),
    "circle": ("pi times radius squared", "WESTONE-FN27"),
    "ellipse": ("a quarter of pi times length times width", "definition"),
    "trapezoid": ("half of the two parallel sides together, times height", "GM-AREAS"),
    "sides": ("from three sides (Heron)", "definition"),
}


def rectangle_m2(*, length_m: float, width_m: float) -> float:
    """Area of a rectangle.

    Args:
        length_m: length [m; 0.01 to 5000]
        width_m: width [m; 0.01 to 5000]
    Returns:
        area_m2: area [m2]
    Raises:
        out_of_range: an argument is outside its range
    Source: CLEMSON-1220
    Checked: 50 ft by 25 ft is 1,250 ft2 (CLEMSON-1220)
    """
    return number("length_m", length_m) * number("width_m", width_m)


def triangle_m2(*, base_m: float, height_m: float) -> float:
    """Area of a triangle from a side and the height that stands on it.

    Args:
        base_m: the side the height stands on [m; 0.01 to 5000]
        height_m: distance of the far corner from that side [m; 0.01 to 5000]
    Returns:
        area_m2: area [m2]
    Raises:
        out_of_range: an argument is outside its range
    Source: WESTONE-FN27
    Checked: base 50 m, height 80 m is 2,000 m2 (WESTONE-FN27)
    """
    return 0.5 * number("base_m", base_m) * number("height_m", height_m)


def triangle_of_sides_m2(*, a_m: float, b_m: float, c_m: float) -> float:
    """Area of a triangle from its three sides.

    Args:
        a_m: a side [m; 0.01 to 5000]
        b_m: a side [m; 0.01 to 5000]
        c_m: a side [m; 0.01 to 5000]
    Returns:
        area_m2: area [m2]
    Raises:
        out_of_range: an argument is outside its range
        impossible: one side is as long as the other two together, or longer
    Source: definition
    Checked: sides 3, 4 and 5 enclose 6, being half of 3 times 4 (definition)
    """
    sides = sorted([number("a_m", a_m), number("b_m", b_m), number("c_m", c_m)])
    short, middle, long = sides
    if short + middle <= long:
        raise impossible(
            name="c_m" if c_m == long else ("b_m" if b_m == long else "a_m"),
            value=long,
            message="No triangle has one side as long as the other two together.",
            low=middle - short,
            high=middle + short,
        )
    # Sorted and bracketed so that a needle-thin triangle keeps its digits.
    product = (long + (middle + short)) * (short - (long - middle))
    product *= (short + (long - middle)) * (long + (middle - short))
    return 0.25 * math.sqrt(product)


def circle_m2(*, radius_m: float) -> float:
    """Area of a circle.

    Args:
        radius_m: radius [m; 0.01 to 5000]
    Returns:
        area_m2: area [m2]
    Raises:
        out_of_range: the radius is outside its range
    Source: WESTONE-FN27
    Checked: diameter 20 ft is 314.159 ft2 (TN-PSEP)
    """
    return math.pi * number("radius_m", radius_m) ** 2


def ellipse_m2(*, length_m: float, width_m: float) -> float:
    """Area of an ellipse; handbooks shorten pi over 4 to 0.8, which is 1.9 % high.

    Args:
        length_m: longest diameter [m; 0.01 to 5000]
        width_m: diameter across it [m; 0.01 to 5000]
    Returns:
        area_m2: area [m2]
    Raises:
        out_of_range: an argument is outside its range
    Source: definition
    Checked: 60 ft by 40 ft is 1,920 ft2 by the 0.8 shortcut, 1.9 % more than this (GM-AREAS)
    """
    return 0.25 * math.pi * number("length_m", length_m) * number("width_m", width_m)


def trapezoid_m2(*, side_a_m: float, side_b_m: float, height_m: float) -> float:
    """Area between two parallel sides.

    Args:
        side_a_m: one parallel side [m; 0.01 to 5000]
        side_b_m: the other parallel side [m; 0.01 to 5000]
        height_m: distance between them [m; 0.01 to 5000]
    Returns:
        area_m2: area [m2]
    Raises:
        out_of_range: an argument is outside its range
    Source: GM-AREAS
    Checked: sides 50 ft and 70 ft, 30 ft apart, is 1,800 ft2 (GM-AREAS)
    """
    return 0.5 * (number("side_a_m", side_a_m) + number("side_b_m", side_b_m)) * number("height_m", height_m)


def fields_of(shape: str, part: dict[str, object]) -> tuple[str, ...]:
    """Name the lengths a shape needs; a triangle given any side by a, b or c needs all three."""
    if shape == "triangle" and any(part.get(side) is not None for side in SIDES):
        return SIDES
    return SHAPES[shape]


def measured(
    shape: str, path: str, part: dict[str, object]
) -> "tuple[float, float, dict[str, object], list[tuple[float, float]]]":
    """Measure one part.

    Args:
        shape: one of the known shapes [text]
        path: where the part stands, for error names [text]
        part: the lengths by name [group of values]
    Returns:
        measure: area [m2], its error as a multiple of (area times the share one length is off by), the
            working step, and the corners as it is drawn [list]
    Raises:
        out_of_range: a length is outside its range
        impossible: three sides that close no triangle
    Source: definition
    """
    names = fields_of(shape, part)
    lengths = {name: number(path + "." + name, part.get(name)) for name in names}
    kind = "sides" if names == SIDES else shape
    area_m2 = positive(path, _area(kind, lengths), "This shape encloses nothing.")
    formula, source = FORMULAS[kind]
    numbers: dict[str, object] = {}
    for name in names:
        numbers[name] = lengths[name]
    what = "Area of the " + shape
    shown = step(what=what, formula=formula, numbers=numbers, result=area_m2, unit="m2", source=source)
    return area_m2, _spread(kind, lengths, area_m2), shown, shape_ring(kind, lengths, area_m2)


def _area(kind: str, of: dict[str, float]) -> float:
    if kind == "rectangle":
        return rectangle_m2(length_m=of["length_m"], width_m=of["width_m"])
    if kind == "triangle":
        return triangle_m2(base_m=of["base_m"], height_m=of["height_m"])
    if kind == "sides":
        return triangle_of_sides_m2(a_m=of["a_m"], b_m=of["b_m"], c_m=of["c_m"])
    if kind == "circle":
        return circle_m2(radius_m=of["radius_m"])
    if kind == "ellipse":
        return ellipse_m2(length_m=of["length_m"], width_m=of["width_m"])
    return trapezoid_m2(side_a_m=of["side_a_m"], side_b_m=of["side_b_m"], height_m=of["height_m"])


def _spread(kind: str, of: dict[str, float], area_m2: float) -> float:
    """Relative error of the area for a relative error of 1 in every length, each on its own."""
    if kind == "circle":
        return 2.0
    if kind == "trapezoid":
        a, b = of["side_a_m"], of["side_b_m"]
        return math.sqrt(1.0 + (a * a + b * b) / ((a + b) * (a + b)))
    if kind != "sides":
        return math.sqrt(2.0)
    a2, b2, c2 = of["a_m"] ** 2, of["b_m"] ** 2, of["c_m"] ** 2
    by_a, by_b, by_c = a2 * (b2 + c2 - a2), b2 * (a2 + c2 - b2), c2 * (a2 + b2 - c2)
    return math.sqrt(by_a * by_a + by_b * by_b + by_c * by_c) / (8.0 * area_m2 * area_m2)
