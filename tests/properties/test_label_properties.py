"""What must hold for every label: scaling, additivity, inverses, whole bags, never above the label."""

import math
from fractions import Fraction

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from lawn.engine.door import calls
from tests.properties.asking import error, value

NET = st.floats(0.01, 2000)
COVERAGE = st.floats(0.5, 100000)
AREA = st.floats(0.5, 100000)
RATE = st.floats(0.00001, 25)
PERCENT = st.floats(0.01, 100)
NITROGEN = st.floats(0.00001, 0.05)


NUMBERS = ("n_percent", "p2o5_percent", "k2o_percent")
# Three shares of a bag with the rest of it: no more than the whole.
THREE = st.tuples(*[st.floats(0.0, 1.0)] * 4).map(
    lambda cut: dict(zip(NUMBERS, [100.0 * part / max(sum(cut), 1.0) for part in cut], strict=False))
)


def close(one: float, other: float) -> bool:
    return math.isclose(one, other, rel_tol=1e-12)


@given(net=st.floats(0.01, 1000), coverage=COVERAGE)
def test_twice_the_weight_is_twice_the_rate(net: float, coverage: float) -> None:
    once = value("label.rate", net_kg=net, coverage_m2=coverage)["rate_kg_m2"]
    assert close(value("label.rate", net_kg=2 * net, coverage_m2=coverage)["rate_kg_m2"], 2 * once)


@given(net=NET, coverage=COVERAGE)
def test_a_rate_is_the_exact_quotient_rounded_once(net: float, coverage: float) -> None:
    exact = Fraction(net) / Fraction(coverage)
    assert Fraction(value("label.rate", net_kg=net, coverage_m2=coverage)["rate_kg_m2"]) == Fraction(float(exact))


@given(n=NITROGEN, percent=st.floats(0.2, 100))
def test_the_product_for_a_nitrogen_brings_that_nitrogen(n: float, percent: float) -> None:
    rate = value("label.rate_for_nitrogen", n_kg_m2=n, n_percent=percent)["rate_kg_m2"]
    assert close(value("label.nutrients", rate_kg_m2=rate, n_percent=percent)["n_kg_m2"], n)


@given(first=RATE, second=RATE, three=THREE, slow=st.floats(0, 1))
def test_two_applications_bring_the_sum_of_their_nutrients(
    first: float, second: float, three: dict[str, float], slow: float
) -> None:
    label = {**three, "slow_n_share": slow}
    one = value("label.nutrients", rate_kg_m2=first, **label)
    two = value("label.nutrients", rate_kg_m2=second, **label)
    both = value("label.nutrients", rate_kg_m2=first + second, **label)
    for key, amount in both.items():
        assert math.isclose(one[key] + two[key], amount, rel_tol=1e-12, abs_tol=1e-300), key


@given(rate=RATE, three=THREE, slow=st.floats(0, 1))
@example(rate=0.05, three={"n_percent": 33.4, "p2o5_percent": 33.3, "k2o_percent": 33.3}, slow=1.0)
def test_no_part_is_more_than_the_whole(rate: float, three: dict[str, float], slow: float) -> None:
    got = value("label.nutrients", rate_kg_m2=rate, **three, slow_n_share=slow)
    assert got["slow_n_kg_m2"] <= got["n_kg_m2"] <= rate
    assert got["p_kg_m2"] <= got["p2o5_kg_m2"]
    assert got["k_kg_m2"] <= got["k2o_kg_m2"]
    assert got["n_kg_m2"] + got["p2o5_kg_m2"] + got["k2o_kg_m2"] <= rate * (1 + 1e-9)


OVER = st.tuples(*[st.floats(0.0, 100.0)] * 3).filter(lambda three: sum(three) > 100.001)
JOB = [{"used_kg": 2, "left_kg": 1, "area_m2": 200}]
ASKS: list[tuple[str, tuple[str, ...], dict[str, object]]] = [
    ("label.nutrients", NUMBERS, {"rate_kg_m2": 0.02}),
    ("label.aim", NUMBERS[:2], {"aim": {"kind": "label"}, "area_m2": 200, "net_kg": 2, "coverage_m2": 400}),
    ("spreading.split", NUMBERS[:2], {"used_kg": 2, "zones": [{"id": "a", "area_m2": 200}]}),
    (
        "spread.finish",
        NUMBERS[:2],
        {"plan": {"load_kg": 3, "target_kg": 3, "passes": 1}, "passes": JOB, "zones": [{"id": "a", "area_m2": 200}]},
    ),
]


@pytest.mark.parametrize(("call", "names", "others"), ASKS, ids=[ask[0] for ask in ASKS])
@given(three=OVER)
@example(three=(60.0, 60.0, 0.0))
def test_an_analysis_of_more_than_the_bag_is_refused_by_every_call_that_takes_one(
    call: str, names: tuple[str, ...], others: dict[str, object], three: tuple[float, float, float]
) -> None:
    analysis = dict(zip(names, three, strict=False))
    assume(sum(analysis.values()) > 100.001)
    refused = error(call, **others, **analysis)
    assert (refused["code"], refused["name"], refused["high"]) == ("over_whole", "n_percent", 100.0)
    assert close(refused["value"], math.fsum(analysis.values()))
    assert refused["message"].startswith("Nitrogen, phosphate" if len(names) == 3 else "Nitrogen and phosphate")


def test_no_call_that_takes_an_analysis_is_left_out() -> None:
    takes = {name for name, (_, must, may) in calls().items() if len(set(NUMBERS) & {*must, *may}) > 1}
    assert takes == {name for name, _, _ in ASKS}


@given(area=AREA, rate=RATE, net=st.floats(0.5, 2000), price=st.floats(0, 1000))
@example(area=300.0, rate=0.1, net=15.0, price=1.0)
@example(area=0.5, rate=0.00001, net=2000.0, price=0.0)
def test_the_bags_bought_hold_enough_and_one_less_would_not(area: float, rate: float, net: float, price: float) -> None:
    got = value("label.needed", area_m2=area, rate_kg_m2=rate, net_kg=net, price=price)
    exact = Fraction(area) * Fraction(rate)
    assert got["bags"] >= 1
    assert Fraction(net) * got["bags"] >= exact * (1 - Fraction(1, 10**8))
    assert Fraction(net) * (got["bags"] - 1) < exact
    assert 0 <= got["left_over_kg"] < net * (1 + 1e-6)
    assert close(got["cost"], price * got["bags"])


@given(first=st.floats(0.5, 5000), second=st.floats(0.5, 5000), rate=RATE, net=NET)
def test_two_areas_take_the_sum(first: float, second: float, rate: float, net: float) -> None:
    masses = [
        value("label.needed", area_m2=area, rate_kg_m2=rate, net_kg=net)["mass_kg"]
        for area in (first, second, first + second)
    ]
    assert close(masses[0] + masses[1], masses[2])


@given(price=st.floats(0.01, 1000), net=NET, percent=PERCENT)
def test_the_nitrogen_of_a_bag_costs_its_price(price: float, net: float, percent: float) -> None:
    per_kg = value("label.nitrogen_price", price=price, net_kg=net, n_percent=percent)["price_per_kg_n"]
    assert close(per_kg * net * percent / 100, price)


@given(area=st.floats(1, 5000), net=st.floats(1, 50), coverage=st.floats(20, 2000), share=st.floats(0.01, 3))
def test_no_aim_ever_exceeds_the_label(area: float, net: float, coverage: float, share: float) -> None:
    bags = share * area / coverage
    asked = {"aim": {"kind": "bag", "bags": bags}, "area_m2": area, "net_kg": net, "coverage_m2": coverage}
    if not 0.001 <= bags <= 1000:
        assert error("label.aim", **asked)["code"] == "out_of_range"
    elif share > 1 + 1e-6:
        refused = error("label.aim", **asked)
        assert refused["code"] == "over_label"
        assert close(refused["high"], area / coverage)
    elif share < 1 - 1e-6:
        assert math.isclose(value("label.aim", **asked)["label_share"], share, rel_tol=1e-9)


@given(area=st.floats(20, 5000), net=st.floats(1, 50), coverage=st.floats(20, 2000), n=st.floats(1, 46))
def test_the_label_aim_and_its_own_nitrogen_are_the_same_aim(
    area: float, net: float, coverage: float, n: float
) -> None:
    assume(net / coverage * n / 100 < 0.0195)  # more no label could allow, and is refused
    known = {"area_m2": area, "net_kg": net, "coverage_m2": coverage, "n_percent": n}
    label = value("label.aim", aim={"kind": "label"}, **known)
    same = value("label.aim", aim={"kind": "nitrogen", "n_kg_m2": label["n_kg_m2"]}, **known)
    for key in ("target_kg_m2", "mass_kg", "bags", "n_kg_m2", "label_share"):
        assert close(label[key], same[key]), key


def suits(coverage: float, area: float) -> float:
    return min(coverage, area) / max(coverage, area)


@given(
    coverage=st.floats(50, 2000),
    areas=st.lists(st.floats(10, 900), min_size=1, max_size=7),
    tolerance=st.floats(0, 0.5),
)
def test_matches_are_sets_that_suit_a_bag_best_first_and_none_is_missed(
    coverage: float, areas: list[float], tolerance: float
) -> None:
    zones = [{"id": f"z{at}", "area_m2": area} for at, area in enumerate(areas)]
    rows = value("label.match", coverage_m2=coverage, zones=zones, tolerance_share=tolerance)["choices"]
    fits = [suits(coverage, row["area_m2"]) for row in rows]
    assert fits == sorted(fits, reverse=True)
    assert all(1 - tolerance - 1e-6 <= fit for fit in fits)
    for row in rows:  # never more than the label's rate: what is put down and what stays are the bag
        assert row["rate_share"] <= 1
        assert close(row["rate_share"] * row["area_m2"] + row["left_share"] * coverage, coverage)
    clear = [
        subset
        for subset in range(1, 2 ** len(areas))
        if subset.bit_count() <= 4
        and 1 - tolerance + 1e-6 < suits(coverage, sum(a for i, a in enumerate(areas) if subset >> i & 1))
    ]
    assert len(rows) >= min(len(clear), 12)


@pytest.mark.parametrize("bad", [True, "1", float("nan"), float("inf"), -float("inf"), [1], {"a": 1}, 10**400])
def test_what_is_no_number_in_range_is_refused_with_four_facts(bad: object) -> None:
    refused = error("label.rate", net_kg=bad, coverage_m2=400)
    assert refused["code"] in ("wrong_type", "out_of_range")
    assert (refused["name"], refused["low"], refused["high"]) == ("net_kg", 0.01, 2000.0)
    assert refused["message"].startswith("The net weight ")
