"""The shopping list: whole bags, never too few, never one too many, the shed first; worked out once more by hand."""

import math
from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from lawn.engine.door import call
from tests.parity.drawing_base import Json

DAY = date.fromisoformat("2027-01-01")
STEPS = st.lists(
    st.fixed_dictionaries(
        {
            "date": st.integers(0, 364).map(lambda at: (DAY + timedelta(at)).isoformat()),
            "zones": st.lists(st.sampled_from("abc"), min_size=1, max_size=3, unique=True),
            "product": st.sampled_from("pq"),
            "rate_kg_m2": st.floats(0.001, 0.2),
        }
    ),
    max_size=12,
)
PRODUCTS = st.fixed_dictionaries(
    {"net_kg": st.floats(0.5, 40), "price": st.floats(0, 90), "left_kg": st.floats(-5, 80)}
)


def listed(steps: list[Json], areas: Json, shed: Json) -> Json:
    answer = call(
        "season.shopping",
        {
            "steps": [{"id": str(at), **one} for at, one in enumerate(steps)],
            "zones": [{"id": name, "area_m2": area} for name, area in areas.items()],
            "products": [{"id": name, **one} for name, one in shed.items()],
        },
    )
    value: Json = answer["value"]
    return value


AREAS = st.fixed_dictionaries(dict.fromkeys("abc", st.floats(1, 900)))
SHED = st.fixed_dictionaries(dict.fromkeys("pq", PRODUCTS))


@given(steps=STEPS, areas=AREAS, shed=SHED)
def test_whole_bags_cover_the_steps_and_one_less_would_not(steps: list[Json], areas: Json, shed: Json) -> None:
    value = listed(steps, areas, shed)
    assert {row["id"] for row in value["products"]} == {one["product"] for one in steps}
    for row in value["products"]:
        bag = shed[row["id"]]
        need = math.fsum(
            areas[zone] * one["rate_kg_m2"] for one in steps if one["product"] == row["id"] for zone in one["zones"]
        )
        have = max(bag["left_kg"], 0.0)
        assert math.isclose(row["need_kg"], need, rel_tol=1e-9)
        assert math.isclose(row["shed_kg"], min(have, need), rel_tol=1e-9, abs_tol=1e-9)
        assert have + row["bags"] * bag["net_kg"] >= need * (1 - 1e-6)
        assert row["bags"] == 0 or have + (row["bags"] - 1) * bag["net_kg"] < need * (1 + 1e-6)
        assert math.isclose(row["over_kg"], have + row["bags_kg"] - need, rel_tol=1e-6, abs_tol=1e-6)
        assert row["cost"] == row["bags"] * bag["price"]


@given(steps=STEPS, areas=AREAS, shed=SHED)
def test_the_day_is_that_of_the_first_step_the_shed_does_not_last_for(
    steps: list[Json], areas: Json, shed: Json
) -> None:
    for row in listed(steps, areas, shed)["products"]:
        mine = sorted((one for one in steps if one["product"] == row["id"]), key=lambda one: one["date"])
        before = [one for one in mine if row["by"] is not None and one["date"] < row["by"]]
        taken = math.fsum(areas[zone] * one["rate_kg_m2"] for one in before for zone in one["zones"])
        assert (row["by"] is None) == (row["bags"] == 0)
        assert taken <= max(shed[row["id"]]["left_kg"], 0.0) * (1 + 1e-6) + 1e-9


@given(steps=STEPS, areas=AREAS, shed=SHED, more=st.floats(0.1, 50))
def test_more_in_the_shed_never_means_more_to_buy(steps: list[Json], areas: Json, shed: Json, more: float) -> None:
    fuller = {name: {**one, "left_kg": max(one["left_kg"], 0.0) + more} for name, one in shed.items()}
    before = {row["id"]: row["bags"] for row in listed(steps, areas, shed)["products"]}
    for row in listed(steps, areas, fuller)["products"]:
        assert row["bags"] <= before[row["id"]]


@given(shed=SHED, percents=st.tuples(st.floats(1, 40), st.floats(1, 40)))
def test_nitrogen_is_compared_the_cheapest_first(shed: Json, percents: tuple[float, float]) -> None:
    named = {name: {**one, "n_percent": n} for (name, one), n in zip(shed.items(), percents, strict=True)}
    found = listed([], {}, named)["nitrogen"]
    prices = [one["price_per_kg_n"] for one in found]
    assert prices == sorted(prices)
    for one in found:
        bag = named[one["id"]]
        assert math.isclose(one["price_per_kg_n"], bag["price"] / (bag["net_kg"] * bag["n_percent"] / 100))
