"""Faults in what went down where, and in what went down too soon or too much."""

from tests.plants.fault import Planted, by

_SHARING = "lawn/engine/sharing.py"
_SPREADING = "tests/properties/test_spreading_properties.py"

PLANTS = (
    Planted(
        "split_over_all_ground",
        "What a pass put down before it ran out is spread over zones it never reached.",
        _SHARING,
        "return [(0.0, min(area_m2, ground_m2), used)]",
        "return [(0.0, ground_m2, used)]",
        by(_SPREADING, "test_a_split_by_passes_loses_nothing_and_gives_nothing_to_ground_no_pass_reached"),
    ),
    Planted(
        "stretch_at_the_pass_rate",
        "A stretch walked at another setting counts with the rate of its whole pass.",
        _SHARING,
        "found.append((from_m2, done_m2, part_kg * used / parts_kg))",
        "found.append((from_m2, done_m2, part_m2 * used / parts_m2))",
        by(_SPREADING, "test_a_split_counts_each_stretch_with_its_own_rate"),
    ),
)
