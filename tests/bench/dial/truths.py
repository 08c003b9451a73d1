"""What a household's dial really does: truths of the kind the model assumes, and ports of real shapes.

A truth answers with the noise-free rate [kg/m2] of a product at an opening [share of full travel]. The truth of the
model is a power law beyond a dead zone. A port follows the orifice law of `orifice.py`; what a second's flow is spread
over (walking speed times swath) turns it into a rate.
"""

import math
from dataclasses import dataclass
from typing import Protocol

from tests.bench.dial import orifice

REFERENCE_DENSITY_KG_M3 = 780.0
HALF_OPEN = 0.5


@dataclass(frozen=True)
class Product:
    """A product: what its bag says, and what nobody told the household."""

    name: str
    granules: str  # as the bag says: fine, medium, coarse
    granule_mm: float  # as it is
    density_kg_m3: float
    offset: float  # logarithm of what neither density nor size explains


class Truth(Protocol):
    """What a dial does."""

    def rate_kg_m2(self, product: Product, opening: float) -> float:
        """Noise-free rate [kg/m2] at an opening [share]."""


@dataclass(frozen=True)
class PowerLaw:
    """log rate = level + density + offset + n log((u - u0) / (0.5 - u0)); u0 moves with the granules."""

    level: float
    exponent: float
    dead_zone: float  # of granules of `granule_mm`
    granule_mm: float
    travel_mm: float

    def rate_kg_m2(self, product: Product, opening: float) -> float:
        """Nothing within the dead zone, a power of what is beyond it."""
        wider = orifice.MARGIN_GRANULES * (product.granule_mm - self.granule_mm) / self.travel_mm
        gap = opening - max(0.0, self.dead_zone + wider)
        if gap <= 0.0:
            return 0.0
        size = self.level + math.log(product.density_kg_m3 / REFERENCE_DENSITY_KG_M3) + product.offset
        return math.exp(size + self.exponent * math.log(gap / (HALF_OPEN - self.dead_zone)))


@dataclass(frozen=True)
class Port:
    """A port of a real shape, whose dial may stand off by `edge` of the travel."""

    shape: str
    travel_mm: float
    length_mm: float
    edge: float
    ground_m2_s: float  # ground covered each second

    def rate_kg_m2(self, product: Product, opening: float) -> float:
        """The orifice law's flow over the ground covered in the same time."""
        flow = orifice.flow_kg_s(
            shape=self.shape,
            opening=opening - self.edge,
            travel_mm=self.travel_mm,
            length_mm=self.length_mm,
            granule_mm=product.granule_mm,
            bulk_density_kg_m3=product.density_kg_m3,
        )
        return flow / self.ground_m2_s * math.exp(product.offset)
