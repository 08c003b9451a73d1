"""What a part of a pass tells, how sure a measurement is, which settings are likely, and the look one pass ahead.

Held against dense normal distributions and numerical integration (`dense.py`, SciPy): one model worked out twice, with
the design's own numbers on both sides (key computed): 65 % of a pass's variance lasts for its whole length, 5 % of
passes are bad.
"""

import math
from typing import Any

import numpy as np
import pytest
from scipy import integrate, stats

from lawn.engine.dial.decision import after_part, rest_click, start_click
from lawn.engine.dial.predictive import Predictive, chance_over
from lawn.engine.door import call
from tests.model import dense
from tests.model.dense import Falls, Past

Json = dict[str, Any]
DIAL = {"lowest": 0, "highest": 24, "step": 1}
PASS_VAR = 0.09**2
STUFF = {"id": "p", "bulk_density_kg_m3": 800, "granules": "medium"}
OWN = Past("p", 0.0, 0.0, 0.0, 800.0, 1.6)


def one_curve(level_sd: float, clicks: int = 24) -> Predictive:
    """A dial whose curve is known but for its level: 2.5 kg per 100 m2 half open, exponent 1.8, dead zone 0.1."""
    base = math.log(0.025) - 1.8 * math.log(0.4)
    part = (1.0, base, 1.8, 0.1, math.sqrt(level_sd**2 + PASS_VAR))
    return Predictive(parts=[part], openings=[click / clicks for click in range(clicks + 1)], pass_var=PASS_VAR)


def median(opening: float) -> float:
    """What that curve puts down at an opening."""
    return float(0.025 * ((opening - 0.1) / 0.4) ** 1.8)


@pytest.mark.parametrize("seen", [0.55, 0.8, 1.0, 1.3])
@pytest.mark.parametrize("done", [0.2, 0.5, 0.8])
@pytest.mark.parametrize("level_sd", [0.05, 0.3])
def test_the_rest_of_a_pass_is_the_conditional_normal_of_its_part(seen: float, done: float, level_sd: float) -> None:
    """Level, shared and local noise of part and rest as one joint normal, for a good and for a bad pass."""
    opening, sd = 10 / 24, 0.03
    rest = after_part(
        predictive=one_curve(level_sd), opening=opening, rate_kg_m2=seen * median(opening), done_share=done, sd=sd
    )
    limit = 1.05 * median(opening)
    weights, chances = [], []
    for odds, shift, more in ((0.95, 0.0, 0.0), (0.05, -0.45, 0.35**2)):
        common = level_sd**2 + 0.65 * PASS_VAR + more
        part_var, rest_var = common + 0.35 * PASS_VAR / done + sd**2, common + 0.35 * PASS_VAR / (1 - done)
        cov = np.array([[part_var, common], [common, rest_var]])
        miss = math.log(seen) - shift
        mean = shift + cov[0, 1] / cov[0, 0] * miss
        spread = math.sqrt(cov[1, 1] - cov[0, 1] ** 2 / cov[0, 0])
        weights.append(odds * stats.norm.pdf(miss, 0, math.sqrt(part_var)))
        chances.append(stats.norm.sf(math.log(1.05), mean, spread))
    wanted = float(np.dot(weights, chances) / np.sum(weights))
    assert chance_over(predictive=rest, click=10, rate_kg_m2=limit) == pytest.approx(wanted, abs=0.0015)


@pytest.mark.parametrize("done", [0.1, 0.5, 0.9])
def test_what_should_be_left_by_now_is_the_dense_mixture_of_a_part(done: float) -> None:
    """A part comes and goes more than a whole pass: 0.65 of the variance, and 0.35 over its share of the ground."""
    asked = {"dial": DIAL, "product": STUFF, "target_kg_m2": 0.03, "area_m2": 100, "history": [], "dial_now": 10}
    part = {"area_done_m2": 100 * done, "area_to_go_m2": 100 - 100 * done, "now_kg": 3 - 1.5 * done}
    got = call("spreading.check", {**asked, **part, "left_kg": 9})["value"]
    falls = Falls(dense.posterior([], OWN), 10 / 24, math.sqrt(PASS_VAR * (0.65 + 0.35 / done)))
    used = [falls.quantile(chance) * 100 * done for chance in (0.05, 0.5, 0.95)]
    assert 9 - got["expected_now_kg"] == pytest.approx(used[1], rel=0.004)
    assert 9 - got["expected_now_range_kg"]["low"] == pytest.approx(used[2], rel=0.004)
    assert 9 - got["expected_now_range_kg"]["high"] == pytest.approx(used[0], rel=0.004)


SURENESS = [
    ({"measured": "scale"}, 0.01),
    ({"measured": "scale", "left_kg": 9}, 0.01),
    ({"measured": "level"}, 0.08),
    ({"measured": "level", "left_kg": 4}, 0.16),
    ({"measured": "handfuls"}, 0.25),
    ({"measured": "handfuls", "left_kg": 1}, 0.125),
    ({"measured": "scale", "ran_out": True}, math.sqrt(0.01**2 + 0.03**2)),
]


@pytest.mark.parametrize(("how", "sd"), SURENESS)
def test_a_pass_counts_as_surely_as_it_was_measured(how: Json, sd: float) -> None:
    one = {"product": "p", "dial": 10, "area_m2": 100, "used_kg": 2, "bulk_density_kg_m3": 800, "granules": "medium"}
    points = call("spreading.curve", {"dial": DIAL, "product": STUFF, "history": [one | how]})["value"]["points"]
    falls = Falls(dense.posterior([Past("p", 10 / 24, 0.02, sd, 800.0, 1.6)], OWN), 10 / 24)
    for name, chance in (("low", 0.05), ("mid", 0.5), ("high", 0.95)):
        assert points[9]["rate_kg_m2"][name] == pytest.approx(falls.quantile(chance), rel=0.001), name


@pytest.mark.parametrize("aim", [0.01, 0.02, 0.06])
def test_the_likely_settings_hold_the_aim_with_nine_chances_of_ten(aim: float) -> None:
    """A pass's own ups and downs are left out: it is the curve that is asked, not the next pass."""
    rates = [(6, 0.6), (9, 1.4)]
    row = {"product": "p", "area_m2": 100, "measured": "scale", "bulk_density_kg_m3": 800, "granules": "medium"}
    asked = {"dial": DIAL, "product": STUFF, "target_kg_m2": aim, "area_m2": 100, "passes": 2}
    history = [{**row, "dial": click, "used_kg": used} for click, used in rates]
    got = call("spreading.start", {**asked, "history": history})["value"]
    told = [Past("p", click / 24, used / 100, 0.01, 800.0, 1.6) for click, used in rates]
    pieces = dense.posterior(told, OWN)
    over = [1 - Falls(pieces, click / 24, 1e-6).below(aim / 2) for click in range(25)]
    low = max(click for click in range(25) if over[click] <= 0.05)
    high = min((click for click in range(25) if over[click] > 0.95), default=24)
    assert got["dial_likely"] == {"low": min(low, got["dial"]), "high": max(high, got["dial"])}


def test_of_forty_passes_the_last_thirty_count_and_each_product_keeps_its_latest() -> None:
    row = {"dial": 10, "area_m2": 100, "used_kg": 1, "measured": "scale"}
    history = [{**row, "product": "q" if at == 3 else "p"} for at in range(40)]
    got = call("spreading.curve", {"dial": DIAL, "product": {"id": "p"}, "history": history})["value"]
    assert got["passes_used"] == 30
    old = [point["index"] for point in got["past"] if point["left_out"] == "too_old"]
    assert old == [0, 1, 2, 4, 5, 6, 7, 8, 9, 10]


def ends_best(clicks: int, load: float, first: int) -> float:
    """Expected loss after a second, last pass at its best click, by numerical integration over the first pass."""
    openings = [click / clicks for click in range(1, clicks + 1) if click / clicks > 0.1]

    def last(left: float) -> float:
        return min(Falls([dense.Piece(1, 1, 0, 1, math.log(median(u)), 0, -1)], 1.0).loss(left) for u in openings)

    def weighed(miss: float) -> float:
        used = median(first / clicks) * math.exp(0.09 * miss)
        cost = 2 * load * (1 - load / used) if used >= load else last(load - used)
        return float(cost * stats.norm.pdf(miss))

    nodes = np.linspace(-3.5, 3.5, 29)
    return float(integrate.simpson([weighed(miss) for miss in nodes], x=nodes))


@pytest.mark.parametrize(("clicks", "load"), [(8, 0.02), (10, 0.013), (10, 0.03), (12, 0.02)])
def test_on_a_coarse_dial_two_passes_start_where_the_last_can_end_best(clicks: int, load: float) -> None:
    predictive = one_curve(0.0, clicks)
    chosen = start_click(predictive=predictive, load_kg_m2=load, passes=2)
    near = min(range(2, clicks + 1), key=lambda click: abs(median(click / clicks) - load / 2))
    tried = {click: ends_best(clicks, load, click) for click in (near - 1, near, near + 1)}
    assert chosen in tried
    assert tried[chosen] <= 1.1 * min(tried.values())
    assert tried[chosen] < 0.9 * max(tried.values())


@pytest.mark.parametrize("load", [0.013, 0.02])
def test_strips_dialled_apart_are_filled_so_that_their_last_pass_ends_best(load: float) -> None:
    """The look ahead after a check reaches three clicks; strips dialled with the others stay at the plain share."""
    predictive = one_curve(0.0)
    plain, apart = (
        rest_click(predictive=predictive, missing_kg_m2=load, empties_kg_m2=2 * load, passes_to_go=2, apart=one)
        for one in (False, True)
    )
    assert plain == min(range(3, 25), key=lambda click: abs(median(click / 24) - load / 2))
    assert ends_best(24, load, apart) < 0.95 * ends_best(24, load, plain)
