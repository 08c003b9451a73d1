"""Ground left out at water: never more than the zone, wider strips leave out more, and what printed rules say."""

import json
import math
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from tests.properties.asking import value

ROWS = json.loads((Path(__file__).resolve().parents[3] / "fixtures/published/limits.json").read_text())["setback"]
FOOT_M = 0.3048
AREA, EDGE, CLEAR = st.floats(0.5, 100000), st.floats(0.1, 5000), st.floats(0, 100)


def at_water(area: float, edge: float, **more: float) -> dict[str, object]:
    return {"id": "z", "area_m2": area, "near_water": True, "water_edge_m": edge, **more}


@given(area=AREA, edge=EDGE, clear=CLEAR)
def test_a_strip_is_left_out_and_never_more_than_the_zone(area: float, edge: float, clear: float) -> None:
    got = value("limits.setback", zones=[at_water(area, edge, setback_m=clear)], rows=ROWS)
    assert math.isclose(got["out_m2"], min(area, edge * clear), rel_tol=1e-12, abs_tol=1e-12)
    assert math.isclose(got["out_m2"] + got["area_m2"], area, rel_tol=1e-12)
    assert got["area_m2"] >= 0


@given(area=AREA, edge=EDGE, clear=st.floats(0, 50), more=st.floats(0, 50))
def test_a_wider_strip_never_leaves_more_to_treat(area: float, edge: float, clear: float, more: float) -> None:
    narrow, wide = (
        value("limits.setback", zones=[at_water(area, edge, setback_m=m)], rows=ROWS)["area_m2"]
        for m in (clear, clear + more)
    )
    assert wide <= narrow


def test_the_place_says_how_far_and_the_widest_holds_where_none_is_known() -> None:
    """New Jersey and Vermont 25 ft; Maryland 15 ft, 10 ft with a drop spreader or deflector (secondary copies)."""
    printed = {
        ("New Jersey", False): 25, ("New Jersey", True): 25, ("Vermont", True): 25, ("Maryland", False): 15,
        ("Maryland", True): 10, (None, False): 25, (None, True): 25, ("Elsewhere", True): 25,
    }  # fmt: skip
    for (place, guarded), feet in printed.items():
        asked = {"zones": [at_water(900, 10)], "rows": ROWS, "guarded": guarded}
        got = value("limits.setback", **asked, **({"place": place} if place else {}))
        assert math.isclose(got["setback_m"], feet * FOOT_M, rel_tol=1e-12), place
        assert math.isclose(got["out_m2"], 10 * feet * FOOT_M, rel_tol=1e-12), place
