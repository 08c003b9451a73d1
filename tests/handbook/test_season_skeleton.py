"""The skeleton that is offered, at places whose climate is published.

Monthly means in C, from memory of the 1991-2020 normals of these stations (rounded): they stand for a kind of climate,
not for a station. What each is called by Koeppen and Geiger is in Peel, Finlayson and McMahon 2007.
"""

from typing import Any

import pytest

from lawn.engine.door import call

CHICAGO = (-4, -2, 4, 10, 16, 21, 24, 23, 19, 12, 5, -1)  # Dfa
RALEIGH = (5, 7, 11, 16, 20, 25, 27, 26, 23, 17, 11, 7)  # Cfa
LONDON = (6, 6, 8, 11, 14, 17, 19, 19, 16, 12, 9, 6)  # Cfb
ORLANDO = (16, 17, 19, 22, 25, 27, 28, 28, 27, 24, 20, 17)  # Cfa
MELBOURNE = (21, 21, 19, 16, 13, 11, 10, 11, 13, 15, 17, 19)  # Cfb, south


def offered(months: tuple[int, ...], *grasses: tuple[str, str]) -> dict[str, str]:
    asked = {
        "climate": {"monthly_mean_c": list(months)},
        "ground": [{"turf": turf, "grass": grass} for turf, grass in grasses],
    }
    found: list[dict[str, Any]] = call("season.skeleton", asked)["value"]["offered"]
    return {one["turf"]: one["key"] for one in found}


@pytest.mark.parametrize(
    ("months", "turf", "grass", "key"),
    [
        (CHICAGO, "cool", "kentucky_bluegrass", "a"),
        (RALEIGH, "cool", "tall_fescue", "b"),
        (RALEIGH, "warm", "bermudagrass", "c"),
        (ORLANDO, "warm", "st_augustinegrass", "d"),
        (LONDON, "cool", "perennial_ryegrass", "e"),
        (MELBOURNE, "cool", "perennial_ryegrass", "f"),
        (MELBOURNE, "warm", "kikuyugrass", "f"),
    ],
)
def test_each_kind_of_place_is_offered_its_own(months: tuple[int, ...], turf: str, grass: str, key: str) -> None:
    assert offered(months, (turf, grass)) == {turf: key}


def test_a_yard_of_both_grasses_is_offered_one_for_each() -> None:
    assert offered(RALEIGH, ("cool", "tall_fescue"), ("warm", "zoysiagrass")) == {"cool": "b", "warm": "c"}


def test_one_zone_that_may_never_be_scalped_decides_for_all_of_its_season() -> None:
    assert offered(RALEIGH, ("warm", "bermudagrass"), ("warm", "centipedegrass")) == {"warm": "d"}


def test_a_yard_without_grass_is_offered_none() -> None:
    assert offered(CHICAGO) == {}
