"""Limits of what a job may take, each by a figure worked out by hand from the sentence it comes from."""

from typing import Any

import pytest

from lawn.engine.dial.amounts import most_of_pass
from lawn.engine.door import call

M2 = 400.0


def aim(aim: dict[str, object], **label: object) -> dict[str, Any]:
    return call("label.aim", {"aim": aim, "area_m2": M2, "net_kg": 10.0, "coverage_m2": M2, **label})


def test_the_scale_may_show_a_fiftieth_more_than_the_load_and_never_less() -> None:
    # Common practice: a household's scale cannot be set finer than 2 %. A bag of 10 kg: 10.2 kg.
    assert aim({"kind": "bag", "bags": 1})["value"]["load_most_kg"] == pytest.approx(10.2)


@pytest.mark.parametrize(
    ("down", "most"),
    # 20 g/m² wanted in all. With 18 down, 2 are missing and a tenth of the aim may be added: 22 less 18.
    # With 21 down, 1 of the tenth is left; with nothing told to be down but 0, never above the aim itself.
    [(0.018, 0.004), (0.021, 0.001), (0.0, 0.020)],
)
def test_the_last_pass_may_go_a_tenth_beyond_the_aim_and_no_further(down: float, most: float) -> None:
    load = 0.0005
    found = most_of_pass(load_kg_m2=load, aim_kg_m2=0.020, down_kg_m2=down, surplus=False, last=True)
    assert found == pytest.approx(most)


@pytest.mark.parametrize(
    ("wanted", "percent", "field"),
    [
        (0.0, 10.0, "aim.n_kg_m2"),
        (-0.001, 10.0, "aim.n_kg_m2"),
        (0.0000005, 10.0, "aim.n_kg_m2"),
        (0.001, 0.0, "n_percent"),
        (0.001, 0.005, "n_percent"),
    ],
)
def test_nitrogen_that_cannot_be_met_is_refused_by_the_name_of_its_field(
    wanted: float, percent: float, field: str
) -> None:
    error = aim({"kind": "nitrogen", "n_kg_m2": wanted}, n_percent=percent)["error"]
    assert (error["code"], error["name"]) == ("out_of_range", field)


def test_the_least_nitrogen_and_the_least_of_it_on_a_label_are_taken() -> None:
    assert "value" in aim({"kind": "nitrogen", "n_kg_m2": 0.000001}, n_percent=0.01)


def match(**areas_m2: float) -> list[list[str]]:
    zones = [{"id": id_, "area_m2": area_m2} for id_, area_m2 in areas_m2.items()]
    found = call("label.match", {"coverage_m2": 100.0, "zones": zones})["value"]["choices"]
    return [choice["ids"] for choice in found]


def test_the_set_nearest_to_the_bag_comes_first_whichever_way_it_misses() -> None:
    # 102 m² gets 98.0 % of the rate, 97 m² leaves 3 % of the bag, 101 m² misses by 1.0 %.
    assert match(a=97.0, b=102.0, c=101.0) == [["c"], ["b"], ["a"]]


def test_two_zones_that_fit_come_before_one_that_misses() -> None:
    assert match(c=98.0, a=60.0, b=40.0) == [["a", "b"], ["c"]]


def test_of_sets_that_fit_alike_the_one_of_fewer_zones_comes_first_then_by_their_names() -> None:
    assert match(c=100.0, a=60.0, b=40.0, d=100.0) == [["c"], ["d"], ["a", "b"]]
