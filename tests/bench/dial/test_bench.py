"""The bench measures what it says, its methods are what they are called, and ours beats the trade's rule in it."""

import math
from dataclasses import dataclass

import pytest

from tests.bench.dial.applying import Done, Way, apply
from tests.bench.dial.households import Household, Noise
from tests.bench.dial.methods import Part, Record, Scaling
from tests.bench.dial.oracle import Oracle
from tests.bench.dial.report import SEED, report_of
from tests.bench.dial.run import ADVISED, METHODS, Row, Setting, walk_household
from tests.bench.dial.shown import Shown
from tests.bench.dial.tally import later, tally
from tests.bench.dial.test_truths import example, figure
from tests.bench.dial.truths import Product

PRODUCT = Product("p0", "coarse", 2.0, 780.0, 0.0)
HOMES = 60


@dataclass(frozen=True)
class Level:
    """A truth that puts down a fixed rate at every opening."""

    rate: float

    def rate_kg_m2(self, product: Product, opening: float) -> float:
        return self.rate


class Quiet(Household):
    """A household to which nothing happens by chance."""

    def noise(self, application: int, number: int) -> Noise:
        return Noise(0.0, (0.0, 0.0), 0.0, (0.0, 0.0, 0.0, 0.0))


def walked(rate: float, target: float, passes: int) -> tuple[list[Record], Done]:
    home = Quiet(0, "model", 24, 0.0, Level(rate), (PRODUCT, PRODUCT), (target,))
    history: list[Record] = []
    return history, apply(home, PRODUCT, lambda *_: Scaling(24, (), along_curve=False), history, 0, Way(passes))


def test_running_out_costs_what_the_worked_example_says() -> None:
    told, printed = example("cost of running out")["inputs"], example("cost of running out")["expected"]
    left, rate = told["left_kg_per_100m2"] / 100, told["rate"] / 100
    history, done = walked(rate, left, 1)
    assert done.error == pytest.approx(figure(printed, "mean_abs_error"), abs=5e-5)
    assert 1 - done.short_share == pytest.approx(figure(printed, "covered_share"), abs=5e-5)
    assert not done.empty_early
    assert history[0].rate_kg_m2 == pytest.approx(rate)
    _, slow = walked(2 * left - rate, left, 1)  # as far off on the slow side
    assert slow.error == pytest.approx(figure(printed, "same_miss_on_the_slow_side"))
    assert slow.short_share == 0.0


def test_running_out_before_the_last_pass_is_told_apart() -> None:
    """1.2 where 1.0 is there for two passes: a sixth of the ground gets nothing, and that was not the last pass."""
    _, done = walked(0.012, 0.010, 2)
    assert done.empty_early
    assert done.short_share == 0.0
    assert done.bare_share == pytest.approx(1 / 6)
    _, done = walked(0.006, 0.010, 2)  # 0.6 twice: the second pass covers 0.4 / 0.6 of the ground
    assert not done.empty_early
    assert done.short_share == pytest.approx(1 / 3)
    assert done.bare_share == 0.0
    assert done.error == pytest.approx(2 / 3 * 0.2 + 1 / 3 * 0.4)


def test_the_rule_of_thumb_opens_one_third_and_then_overshoots_as_the_worked_example_says() -> None:
    told = example("why proportional overshoots")
    given, printed = told["inputs"], told["expected"]
    clicks = 10_000
    assert Scaling(24, (), along_curve=False).choose(0.02, 2, first=True).click == 8
    seen = (Record(PRODUCT, round(given["u1"] * clicks), 0.01, 1.0, 0.01, 0.01),)
    rule = Scaling(clicks, seen, along_curve=False).choose(0.01 * given["wanted_ratio"], 1, first=False).click
    fixed = Scaling(clicks, seen, along_curve=True).choose(0.01 * given["wanted_ratio"], 1, first=False).click
    assert rule / clicks == pytest.approx(figure(printed, "proportional_u2"), abs=1e-4)
    assert fixed / clicks == pytest.approx(figure(printed, "u2"), abs=1e-4)
    got = ((rule / clicks - given["u0"]) / (given["u1"] - given["u0"])) ** given["n"]
    assert got == pytest.approx(figure(printed, "proportional_gives_ratio"), abs=2e-3)


def test_the_rule_of_thumb_opens_by_one_where_nothing_came() -> None:
    nothing = (Record(PRODUCT, 8, 0.0, 1.0, 0.02, 0.01),)
    assert Scaling(24, nothing, along_curve=False).choose(0.02, 2, first=False).click == 9


@pytest.mark.parametrize("ratio", [0.7, 0.95, 1.0, 1.3])
def test_the_oracles_expected_loss_is_that_of_many_passes(ratio: float) -> None:
    """Against plain summing over a finely cut normal distribution."""
    sd, left = 0.1, 0.01
    mind = Oracle((-math.inf, math.log(ratio * left)), sd)
    cut = [-6 + 12 * (step + 0.5) / 4000 for step in range(4000)]
    weight = [math.exp(-0.5 * z * z) for z in cut]
    rates = [ratio * math.exp(sd * z) for z in cut]
    losses = [1 - rate if rate < 1 else 2 * (1 - 1 / rate) for rate in rates]
    summed = sum(w * loss for w, loss in zip(weight, losses, strict=True)) / sum(weight)
    assert mind.loss(1, left) == pytest.approx(summed, rel=1e-4)


def test_the_oracle_that_looked_halfway_expects_the_rest_to_run_as_the_first_part_did() -> None:
    logs = (-math.inf, math.log(0.01), math.log(0.02))
    seen = Part(1, 0.006, 0.5, 0.004, 1e-6)
    alike = Oracle(logs, 0.1, None, (0.1, 0.0)).after(seen)
    assert alike.log_rates[2] == pytest.approx(math.log(0.024), rel=0.01)
    assert alike.sd < 0.011
    apart = Oracle(logs, 0.1, None, (0.0, 0.1)).after(seen)
    assert apart.log_rates == logs


@pytest.fixture(scope="module")
def rows() -> list[Row]:
    """Households the model was not fitted on, the advised number of passes, each method."""
    setting = Setting("model", ADVISED, Way(1))
    return [
        row for seed in range(SEED, SEED + HOMES) for method in METHODS for row in walk_household(seed, setting, method)
    ]


def mean(rows: list[Row], method: str, *, known: bool) -> float:
    return tally([row for row in rows if row.method == method and later(row) == known]).mean


def test_ours_beats_the_trades_rule_and_the_fixed_curve_by_far_and_keeps_near_the_oracle(rows: list[Row]) -> None:
    ours, oracle = mean(rows, "ours", known=True), mean(rows, "oracle", known=True)
    assert mean(rows, "rule of thumb", known=True) > 2.0 * ours
    assert mean(rows, "fixed curve", known=True) > 1.15 * ours
    # The oracle walks even shares; ours may lean a first pass of two by a third, and so end a little better at times.
    assert 0.9 * oracle < ours < 1.3 * oracle
    assert mean(rows, "rule of thumb", known=False) > 2.5 * mean(rows, "ours", known=False)


def test_ours_seldom_empties_early_and_its_intervals_hold(rows: list[Row]) -> None:
    found = tally([row for row in rows if row.method == "ours" and row.application > 1])
    assert found.early <= 2.0
    assert 82.0 <= found.inside <= 99.0


def test_the_report_prints_every_limit_beside_its_figure(rows: list[Row]) -> None:
    text = report_of(rows, HOMES, SEED).text()
    ratio = mean(rows, "ours", known=True) / mean(rows, "oracle", known=True)
    assert f"{ratio:.3f} ±" in text.partition("Limits")[2]
    for row in ("rule of thumb", "fixed curve", "oracle", "ours"):
        assert f"  {row}" in text


@pytest.mark.parametrize(
    ("value", "spread", "said"),
    [
        (1.10, 0.11, "met"),
        (1.15, 0.0, "met"),
        (1.225, 0.113, "open"),  # 50 households of real ports in the short run, seeds from 50,000
        (1.225, 0.03, "MISSED"),
        (1.16, 0.0, "MISSED"),
    ],
)
def test_a_ratio_over_its_limit_by_less_than_chance_can_do_is_neither_met_nor_missed(
    value: float, spread: float, said: str
) -> None:
    one = Shown("port shapes: known pairs, ours over the oracle, two passes", value, spread, 0.0, 1.15, "×")
    assert one.judged == said
    assert one.met == (said == "met")
