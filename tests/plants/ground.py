"""Faults in how large the ground is said to be: what falls on it follows."""

from tests.plants.fault import Planted, by

_AREA = "lawn/engine/ground/area.py"

PLANTS = (
    Planted(
        "end_widths_counted_whole",
        "Both end widths count whole: ground measured by widths reads high, and the load with it.",
        _AREA,
        "return [0.5] + [1.0] * (count - 2) + [0.5]",
        "return [1.0] * count",
        by(
            "tests/properties/ground/test_area_properties.py",
            "test_five_widths_of_ten_metres_are_the_four_steps_between_them",
        ),
    ),
    Planted(
        "widths_summed_unasked",
        "Where nobody says where the widths were taken, they are summed as if each stood in the middle of a strip.",
        _AREA,
        'way = "trapezoid" if method is None',
        'way = "sum" if method is None',
        by(
            "tests/properties/ground/test_area_properties.py",
            "test_widths_with_both_ends_are_the_polygon_through_them",
        ),
    ),
    Planted(
        "older_sum_made_half_ends",
        "A zone measured before the question is read as measured at both ends, so its area changes unasked.",
        "frontend/src/features/ground/model/zone-widths.ts",
        '"simpson" ? "simpson" : "sum";',
        '"simpson" ? "simpson" : "ends";',
        by(
            "frontend/src/features/ground/model/zone-widths.test.ts",
            "takes a zone written elsewhere by the sum for unsaid",
        ),
    ),
)
