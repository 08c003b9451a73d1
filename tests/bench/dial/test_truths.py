"""The bench's truths stand on the published orifice law: they reproduce the reference page's table of port shapes."""

import json
import math
from pathlib import Path
from typing import Any

import pytest

from tests.bench.dial import orifice
from tests.bench.dial.households import TRUTHS, household
from tests.bench.dial.truths import PowerLaw, Product

PUBLISHED = Path(__file__).resolve().parents[3] / "fixtures" / "published" / "worked_spreading.json"
# Reference page on spreading, table "What real ports do" (computed there from the orifice law; 750 kg/m3, 25 mm travel,
# n and u0 fitted over 25-90 % of travel): port, granule mm, n, u0, kg/min half open, kg/min full.
PORTS = (
    ("slot", 1.0, 1.24, 0.085, 3.35, 8.91),
    ("round", 1.0, 1.38, 0.13, 2.46, 6.99),
    ("notch", 1.0, 2.48, 0.07, 1.15, 7.86),
    ("slot", 1.6, 1.25, 0.115, 2.89, 8.13),
    ("round", 1.6, 1.43, 0.15, 2.09, 6.39),
    ("notch", 1.6, 2.49, 0.11, 0.90, 7.03),
    ("slot", 2.4, 1.29, 0.15, 2.33, 7.17),
    ("round", 2.4, 1.51, 0.175, 1.64, 5.63),
    ("notch", 2.4, 2.52, 0.16, 0.62, 6.01),
    ("slot", 3.0, 1.30, 0.18, 1.96, 6.49),
    ("round", 3.0, 1.58, 0.195, 1.34, 5.10),
    ("notch", 3.0, 2.47, 0.205, 0.45, 5.31),
)


def example(name: str) -> dict[str, Any]:
    """A worked example of the reference page."""
    found: dict[str, Any] = next(one for one in json.loads(PUBLISHED.read_text())["examples"] if one["id"] == name)
    return found


def figure(printed: dict[str, Any], name: str) -> float:
    """A printed figure, which may stand with its unit and rounding."""
    found = printed[name]
    return float(found["value"] if isinstance(found, dict) else found)


def kg_per_min(shape: str, opening: float, granule_mm: float) -> float:
    return 60 * orifice.flow_kg_s(
        shape=shape, opening=opening, travel_mm=25, length_mm=25, granule_mm=granule_mm, bulk_density_kg_m3=750
    )


@pytest.mark.parametrize(("shape", "granule_mm", "n", "u0", "half", "full"), PORTS)
def test_ports_flow_as_the_reference_table_says(
    shape: str, granule_mm: float, n: float, u0: float, half: float, full: float
) -> None:
    assert kg_per_min(shape, 0.5, granule_mm) == pytest.approx(half, abs=0.0051)
    assert kg_per_min(shape, 1.0, granule_mm) == pytest.approx(full, abs=0.0051)
    found_n, found_u0 = fitted(shape, granule_mm)
    assert found_u0 == pytest.approx(u0, abs=0.011)
    assert found_n == pytest.approx(n, abs=0.06)


def fitted(shape: str, granule_mm: float) -> tuple[float, float]:
    """Power law nearest in logarithms over 25-90 % of travel: exponent and dead zone."""
    openings = [0.25 + 0.01 * step for step in range(66)]
    flows = [math.log(kg_per_min(shape, opening, granule_mm)) for opening in openings]
    tries = [0.005 * step for step in range(49)]
    _, n, u0 = min(_fit([math.log(opening - u0) for opening in openings], flows, u0) for u0 in tries)
    return n, u0


def _fit(reaches: list[float], flows: list[float], u0: float) -> tuple[float, float, float]:
    middle, level = sum(reaches) / len(reaches), sum(flows) / len(flows)
    n = sum((x - middle) * (y - level) for x, y in zip(reaches, flows, strict=True))
    n /= sum((x - middle) ** 2 for x in reaches)
    return sum((y - level - n * (x - middle)) ** 2 for x, y in zip(reaches, flows, strict=True)), n, u0


def test_a_round_hole_flows_as_the_worked_example_says() -> None:
    told, printed = example("hole flow")["inputs"], example("hole flow")["expected"]
    found = orifice.flow_kg_s(
        shape="round",
        opening=1.0,
        travel_mm=told["hole_mm"],
        length_mm=told["hole_mm"],
        granule_mm=told["granule_mm"],
        bulk_density_kg_m3=told["bulk_kg_m3"],
    )
    assert 1000 * found == pytest.approx(figure(printed, "g_per_s"), abs=0.0006)


def test_the_dead_zone_moves_with_granule_size_as_the_worked_example_says() -> None:
    """Openings of equal rate lie k (coarse - fine) / travel apart, where the law is the model's own."""
    told = example("dead zone moves with granule size")
    given, shift = told["inputs"], figure(told["expected"], "shift_of_u0")
    law = PowerLaw(0.0, 1.5, 0.05, given["fine_mm"], given["travel_mm"])
    fine = Product("fine", "fine", given["fine_mm"], 780.0, 0.0)
    coarse = Product("coarse", "coarse", given["coarse_mm"], 780.0, 0.0)
    assert law.rate_kg_m2(coarse, 0.4 + shift) == pytest.approx(law.rate_kg_m2(fine, 0.4), rel=1e-3)
    assert law.rate_kg_m2(coarse, 0.05 + shift - 0.001) == 0.0


@pytest.mark.parametrize("kind", TRUTHS)
def test_every_truth_gives_more_the_further_it_is_opened_and_the_same_for_the_same_seed(kind: str) -> None:
    for seed in range(40):
        home, again = household(seed, kind), household(seed, kind)
        for product in home.products:
            rates = [home.rate_kg_m2(product, click) for click in range(home.clicks + 1)]
            assert rates == sorted(rates)
            assert rates[0] == 0.0 < rates[-1]
            assert rates == [again.rate_kg_m2(product, click) for click in range(home.clicks + 1)]
        assert home.noise(2, 1) == again.noise(2, 1) != home.noise(2, 0)
