"""What must hold for every hopper: level and mass undo each other, and more is never less."""

import math
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from tests.properties.asking import value

HOPPER = st.fixed_dictionaries(
    {
        "top_length_m": st.floats(0.05, 2),
        "top_width_m": st.floats(0.05, 2),
        "bottom_length_m": st.floats(0.01, 2),
        "bottom_width_m": st.floats(0.01, 2),
        "height_m": st.floats(0.05, 2),
        "bulk_density_kg_m3": st.floats(100, 2500),
    }
)


@given(HOPPER, st.floats(0.001, 1))
def test_level_undoes_mass(hopper: dict[str, Any], level: float) -> None:
    mass = value("hopper.mass", **hopper, level_share=level)["mass_kg"]
    if mass > 5000:
        return
    assert math.isclose(value("hopper.level", **hopper, mass_kg=mass)["level_share"], level, rel_tol=1e-9)


@given(HOPPER, st.floats(0, 1), st.floats(0, 1))
def test_a_higher_level_never_holds_less(hopper: dict[str, Any], one: float, other: float) -> None:
    low, high = sorted([one, other])
    masses = [value("hopper.mass", **hopper, level_share=level)["mass_kg"] for level in (low, high)]
    assert masses[0] <= masses[1]


@given(HOPPER, st.floats(0, 1))
def test_the_mass_is_the_integral_of_the_cross_section(hopper: dict[str, Any], level: float) -> None:
    """Against SciPy's quadrature of the cross-section from the floor to the level."""

    def section_m2(share: float) -> float:
        sides = [
            hopper[f"bottom_{side}"] + share * (hopper[f"top_{side}"] - hopper[f"bottom_{side}"])
            for side in ("length_m", "width_m")
        ]
        return float(sides[0] * sides[1])

    volume = quad(section_m2, 0, level)[0] * hopper["height_m"]
    got = value("hopper.mass", **hopper, level_share=level)
    assert math.isclose(got["mass_kg"], volume * hopper["bulk_density_kg_m3"], rel_tol=1e-9, abs_tol=1e-12)
    assert 0 <= got["mass_kg"] <= got["capacity_kg"] * (1 + 1e-12)


@given(HOPPER, st.floats(0.01, 0.99))
def test_a_hopper_that_widens_holds_less_than_its_share_of_the_height(hopper: dict[str, Any], level: float) -> None:
    for side in ("length_m", "width_m"):
        low, high = sorted([hopper[f"top_{side}"], hopper[f"bottom_{side}"]])
        hopper |= {f"top_{side}": max(high, 0.05), f"bottom_{side}": low}
    got = value("hopper.mass", **hopper, level_share=level)
    assert got["mass_kg"] <= level * got["capacity_kg"] * (1 + 1e-12)
