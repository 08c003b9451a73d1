"""The figure that says how sure the learned curve is: half the band, and smaller with every pass that agrees."""

import math
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.properties.asking import value

DIAL = {"lowest": 0, "highest": 24, "step": 1}
PRODUCT = {"id": "slow", "bulk_density_kg_m3": 780, "granules": "medium"}


def walked(dial: float, used_kg: float) -> dict[str, Any]:
    return {"product": "slow", "dial": dial, "area_m2": 100, "used_kg": used_kg, "measured": "scale"}


def curve(history: list[dict[str, Any]]) -> dict[str, Any]:
    return value("spreading.curve", dial=DIAL, product=PRODUCT, history=history)


@given(st.lists(st.tuples(st.sampled_from([7, 9, 11]), st.floats(0.5, 5)), max_size=5))
@settings(max_examples=15, deadline=None)
def test_the_middle_lies_as_many_times_over_low_as_under_high(passes: list[tuple[int, float]]) -> None:
    got = curve([walked(dial, used) for dial, used in passes])
    assert math.isclose((1 + got["within_share"]) ** 2, 1 + got["band_share"], rel_tol=1e-12)


def test_passes_that_agree_tighten_the_band() -> None:
    one = walked(9, 2.0)
    within = [curve([one] * count)["within_share"] for count in (0, 1, 3, 6)]
    assert within == sorted(within, reverse=True)
    assert within[3] < 0.7 * within[0]


# Setting, m² and kg of passes on a dial in half clicks whose gate opens at about 2. After eight of them the low end of
# the band at 3.5 comes as near to 0 as can be: high is there hundreds of times low.
NEAR_OPENING = [
    *((9.5, 300.12, 8.63), (8, 199.44, 4.31), (6, 499.56, 6.37), (5.5, 499.56, 5.35)),
    *((8.5, 499.56, 11.95), (8.5, 499.56, 11.96), (8.5, 499.56, 11.95), (8.5, 499.56, 11.96)),
]


def test_a_setting_that_just_opens_does_not_widen_the_figure() -> None:
    fine = {"lowest": 1, "highest": 24, "step": 0.5}
    history = [{**walked(dial, used), "area_m2": area} for dial, area, used in NEAR_OPENING]
    got = [
        value("spreading.curve", dial=fine, product={"id": "slow"}, history=history[:count])["within_share"]
        for count in (4, 6, 8)
    ]
    assert got == sorted(got, reverse=True)
