"""What must hold for every dial: whole clicks within it, more left never a lower setting, never beyond the median."""

import math
from typing import Any

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from tests.properties.asking import value

Json = dict[str, Any]
DIAL = st.builds(
    lambda lowest, step, clicks: {"lowest": lowest, "highest": lowest + step * clicks, "step": step},
    st.integers(0, 10),
    st.sampled_from([0.1, 0.25, 0.5, 1, 2]),
    st.integers(2, 60),
)
USED = st.floats(0.05, 20)
TARGET = st.floats(0.002, 0.1)
AREA = st.floats(20, 1000)


@st.composite
def histories(draw: st.DrawFn, dial: Json, least: int = 0) -> list[Json]:
    """Past passes on the dial's own clicks, some of another product, some bad."""
    clicks = round((dial["highest"] - dial["lowest"]) / dial["step"])
    one_pass = st.fixed_dictionaries(
        {
            "product": st.sampled_from(["p", "q"]),
            "dial": st.integers(1, clicks).map(lambda click: dial["lowest"] + click * dial["step"]),
            "area_m2": st.floats(20, 400),
            "used_kg": USED,
            "measured": st.sampled_from(["scale", "level", "handfuls"]),
            "bad": st.sampled_from([False, False, False, True]),
        }
    )
    rows: list[Json] = draw(st.lists(one_pass, min_size=least, max_size=6))
    return rows


@st.composite
def questions(draw: st.DrawFn, least: int = 0) -> Json:
    """What spreading.start and spreading.next have in common."""
    dial = draw(DIAL)
    return {
        "dial": dial,
        "product": {"id": "p"},
        "target_kg_m2": draw(TARGET),
        "area_m2": draw(AREA),
        "history": draw(histories(dial, least)),
    }


def on_a_click(dial: Json, setting: float) -> bool:
    """Whether a setting is a whole click of the dial, ends included."""
    clicks = float((setting - dial["lowest"]) / dial["step"])
    return abs(clicks - round(clicks)) < 1e-6 and bool(dial["lowest"] <= setting <= dial["highest"] + 1e-9)


@given(questions(), st.integers(1, 5))
def test_a_start_is_a_whole_click_within_the_dial(question: Json, passes: int) -> None:
    got = value("spreading.start", **question, passes=passes)
    assert on_a_click(question["dial"], got["dial"])
    assert got["passes_advised"] in (1, 2, 3)
    assert got["passes"] <= passes
    assert math.isclose(got["share"] * got["passes"], 1)


@given(questions(), st.floats(0, 60), st.integers(1, 4))
def test_a_next_setting_is_a_whole_click_within_the_dial(question: Json, left: float, to_go: int) -> None:
    got = value("spreading.next", **question, left_kg=left, passes_to_go=to_go)
    assert on_a_click(question["dial"], got["dial"])


@given(questions(least=1), st.floats(0, 40), st.floats(0, 40), st.integers(1, 4))
def test_more_left_over_never_gives_a_lower_next_setting(question: Json, one: float, other: float, to_go: int) -> None:
    less, more = (
        value("spreading.next", **question, left_kg=left, passes_to_go=to_go)["dial"] for left in sorted([one, other])
    )
    assert less <= more


@given(questions(), st.integers(1, 60), st.floats(0, 40), st.integers(1, 4))
@example(
    question={
        "dial": {"lowest": 0, "highest": 24, "step": 1},
        "product": {"id": "p"},
        "target_kg_m2": 0.03,
        "area_m2": 100.0,
        "history": [{"product": "p", "dial": 8, "area_m2": 100, "used_kg": 1.0, "measured": "scale"}],
    },
    click=9,
    left=2.0,
    to_go=2,
)
def test_a_setting_at_which_nothing_came_is_never_suggested_again(
    question: Json, click: int, left: float, to_go: int
) -> None:
    """Whatever else is known of the spreader: one click beyond at least, or no walk at all."""
    dial = question["dial"]
    dead = min(dial["lowest"] + dial["step"] * click, dial["highest"])
    nothing = {"product": "p", "dial": dead, "area_m2": 50, "used_kg": 0, "measured": "scale", "nothing_came": True}
    asked = {**question, "history": [*question["history"], nothing]}
    answers = (
        value("spreading.start", **asked),
        value("spreading.next", **asked, left_kg=left, passes_to_go=to_go),
    )
    for got in answers:
        if got["advice"] == "walk":
            assert got["dial"] > dead + dial["step"] / 2
            assert got["left_kg"]["mid"] >= 0
        else:
            assert got["dial"] == dial["lowest"]
        assert (got["advice"] == "blocked") == (abs(dead - dial["highest"]) < 1e-6)


@given(questions(), st.integers(1, 60), st.floats(0, 40), st.floats(0, 40), st.integers(1, 4))
def test_more_left_over_never_gives_a_lower_setting_after_nothing_came(
    question: Json, click: int, one: float, other: float, to_go: int
) -> None:
    dial = question["dial"]
    dead = min(dial["lowest"] + dial["step"] * click, dial["highest"])
    nothing = {"product": "p", "dial": dead, "area_m2": 50, "used_kg": 0, "measured": "level", "nothing_came": True}
    history = [*question["history"], nothing]
    less, more = (
        value("spreading.next", **{**question, "history": history}, left_kg=left, passes_to_go=to_go)["dial"]
        for left in sorted([one, other])
    )
    assert less <= more


@given(questions(), st.floats(0.1, 40), st.integers(2, 4))
def test_a_pass_before_the_last_never_runs_out_by_its_own_median(question: Json, left: float, to_go: int) -> None:
    got = value("spreading.next", **question, left_kg=left, passes_to_go=to_go)
    assert got["chance_of_running_out"] <= 0.5
    start = value("spreading.start", **question)
    assert start["chance_of_running_out"] <= 0.5


@given(questions(least=1), st.floats(0.1, 40), st.floats(0, 5))
def test_the_range_of_what_is_left_holds_its_middle(question: Json, left: float, sd: float) -> None:
    rest = value("spreading.next", **question, left_kg=left, left_sd_kg=sd, passes_to_go=2)["left_kg"]
    assert 0 <= rest["low"] <= rest["mid"] <= rest["high"]
    assert rest["mid"] <= left


@given(questions(least=1), st.floats(0.1, 40), st.floats(0.01, 5))
def test_doubt_about_the_rest_widens_the_range(question: Json, left: float, sd: float) -> None:
    """At one setting; doubt may also move the setting, by a click to either side where two are as near."""
    one, other = (value("spreading.next", **question, left_kg=left, left_sd_kg=s, passes_to_go=2) for s in (0, sd))
    assume(one["dial"] == other["dial"])
    sure, unsure = one["left_kg"], other["left_kg"]
    assert unsure["high"] > sure["high"]
    assert unsure["low"] <= sure["low"]


@given(questions(), st.floats(100, 1200), st.floats(1.01, 3))
def test_a_denser_product_never_starts_higher_where_nothing_is_known(question: Json, density: float, by: float) -> None:
    assume(density * by <= 2500)
    settings = [
        value("spreading.start", **{**question, "product": {"id": "p", "bulk_density_kg_m3": d}, "history": []})["dial"]
        for d in (density, density * by)
    ]
    assert settings[1] <= settings[0]


@given(
    st.lists(st.floats(1, 900), min_size=1, max_size=12),
    st.floats(0, 500),
    st.floats(0, 46),
)
def test_a_split_shares_out_everything_at_one_rate(areas: list[float], used: float, n: float) -> None:
    zones = [{"id": f"z{at}", "area_m2": area} for at, area in enumerate(areas)]
    got = value("spreading.split", used_kg=used, zones=zones, n_percent=n)
    assert math.isclose(math.fsum(row["used_kg"] for row in got["zones"]), used, rel_tol=1e-12, abs_tol=1e-300)
    for row, area in zip(got["zones"], areas, strict=True):
        assert math.isclose(row["used_kg"], got["rate_kg_m2"] * area, rel_tol=1e-12)
        assert math.isclose(row["n_kg_m2"], got["rate_kg_m2"] * n / 100, rel_tol=1e-12, abs_tol=1e-300)


PASSES = st.lists(
    st.tuples(st.floats(0, 40), st.floats(0.01, 1), st.lists(st.tuples(st.floats(0, 60), st.floats(0, 9)), max_size=4)),
    max_size=6,
)


@given(st.lists(st.floats(1, 900), min_size=1, max_size=8), PASSES, st.floats(0.1, 46))
def test_a_split_by_passes_loses_nothing_and_gives_nothing_to_ground_no_pass_reached(
    areas: list[float], drawn: list[Any], n: float
) -> None:
    """Each pass against the plain sum over zones of what lies before its end."""
    ground = math.fsum(areas)
    zones = [{"id": f"z{at}", "area_m2": area} for at, area in enumerate(areas)]
    passes = [
        {
            "used_kg": used,
            "area_m2": max(0.5, ground * share),
            "parts": [{"area_m2": m2, "used_kg": kg} for m2, kg in parts],
        }
        for used, share, parts in drawn
    ]
    got = value("spreading.split", zones=zones, passes=passes, n_percent=n)
    used = math.fsum(row["used_kg"] for row in passes)
    assert math.isclose(math.fsum(row["used_kg"] for row in got["zones"]), used, rel_tol=1e-9, abs_tol=1e-12)
    furthest = max([row["area_m2"] for row in passes if row["used_kg"] > 0], default=0.0)
    before = 0.0
    for row, area in zip(got["zones"], areas, strict=True):
        if before >= furthest:
            assert row["used_kg"] == row["n_kg_m2"] == row["covered_m2"] == 0
        assert row["covered_m2"] <= area * (1 + 1e-9)
        assert row["n_most_kg_m2"] >= row["n_kg_m2"] * (1 - 1e-9)
        before += area


@given(st.floats(1, 900), st.floats(1, 900), st.floats(0.1, 20), st.floats(0.1, 20))
def test_a_split_counts_each_stretch_with_its_own_rate(
    one_m2: float, other_m2: float, one: float, other: float
) -> None:
    """The setting was changed just between two zones: each keeps what its own stretch put down."""
    zones = [{"id": "a", "area_m2": one_m2}, {"id": "b", "area_m2": other_m2}]
    parts = [{"area_m2": one_m2, "used_kg": one}, {"area_m2": other_m2, "used_kg": other}]
    row = {"used_kg": one + other, "area_m2": one_m2 + other_m2, "parts": parts}
    got = value("spreading.split", zones=zones, passes=[row])["zones"]
    assert [zone["used_kg"] for zone in got] == [pytest.approx(one), pytest.approx(other)]
