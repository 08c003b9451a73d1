"""The expected loss of a last pass is the integral that its docstring states, however wide the doubt."""

import math

import pytest
from scipy.integrate import quad
from scipy.stats import norm

from lawn.engine.dial.decision import RUN_OUT_COST, relative_loss


def integral(log_ratio: float, sd: float) -> float:
    """Short by a share costs it; a rate above what is left costs 2 (1 - left / rate). By numbers alone."""

    def loss(z: float) -> float:
        rate = log_ratio + sd * z
        return (1 - math.exp(rate) if rate < 0 else RUN_OUT_COST * (1 - math.exp(-rate))) * float(norm.pdf(z))

    even = min(9.0, max(-9.0, -log_ratio / sd))
    return sum(float(quad(loss, a, b, limit=400, epsabs=1e-11)[0]) for a, b in ((-10, even), (even, 10)))


@pytest.mark.parametrize("sd", [0.05, 0.3, 1.0, 3.0, 6.9, 8.0, 15.0, 39.38, 200.0])
@pytest.mark.parametrize("share", [-7.5, -6.5, -3.0, -0.4, 0.0, 0.06, 1.0, 5.9, 6.5])
def test_the_expected_loss_is_its_integral(share: float, sd: float) -> None:
    log_ratio = share * sd
    assert relative_loss(log_ratio, sd) == pytest.approx(integral(log_ratio, sd), abs=2e-6)
