"""Invented households, each a pure function of its seed: a dial, what it really does, products, targets and noise.

The ranges are those of the design (spreading.md): dials of 10 to 48 clicks, exponents 1 to 2.5, dead zones 0 to 15 %,
noise of 4 to 10 % from pass to pass, one pass in 33 clogged or damp. Ports: travel 14 to 34 mm, walking speed as
measured (gait), a swath of 1.2 to 2.5 m. All invented but for those; nothing here is anybody's lawn.
"""

import math
import random
from dataclasses import dataclass

from tests.bench.dial import orifice
from tests.bench.dial.truths import REFERENCE_DENSITY_KG_M3, Port, PowerLaw, Product, Truth

TRUTHS = {
    "model": "inside the model: a power law beyond a dead zone",
    "shapes": "outside it: slot, round and notched ports by the orifice law, at the population's level",
    "ports": "outside it: the same ports with the law's own flow, walking speed and swath",
}
CLICKS = (10, 12, 15, 16, 20, 24, 30, 36, 40, 48)
GRANULES_MM = {"fine": (0.8, 1.3), "medium": (1.3, 2.0), "coarse": (2.0, 3.0)}
MEAN_RATE_KG_M2 = 0.025  # half open: 2.5 kg per 100 m2
LEVEL_SD = 0.6
CHANCE_BAD = 0.03
BAD_SHIFT, BAD_SHIFT_SD = -0.45, 0.35
APPLICATIONS = 5  # of the first product; a sixth is the first of another


@dataclass(frozen=True)
class Noise:
    """What chance does to one pass; every method meets the same."""

    shared: float  # standard normal, common to the whole pass
    parts: tuple[float, float]  # standard normal, each part's own
    bad: float  # shift of the logarithm where the pass is clogged or damp, else 0
    weighing: tuple[float, float, float, float]  # standard normal, for the scale


@dataclass(frozen=True)
class Household:
    """One household's truth and its plans: targets [kg/m2] of each application, products in order of meeting."""

    seed: int
    kind: str
    clicks: int
    noise_sd: float
    truth: Truth
    products: tuple[Product, Product]
    targets_kg_m2: tuple[float, ...]

    @property
    def shape(self) -> str:
        """Shape of the port, or the name of the law."""
        return self.truth.shape if isinstance(self.truth, Port) else "power"

    def rate_kg_m2(self, product: Product, click: int) -> float:
        """Noise-free rate at a click counted from closed; closed is closed."""
        return 0.0 if click == 0 else self.truth.rate_kg_m2(product, click / self.clicks)

    def noise(self, application: int, number: int) -> Noise:
        """Chance in pass `number` of an application."""
        rng = random.Random((self.seed * 31 + application) * 17 + number + 5)
        shared = rng.gauss(0, 1)
        parts = (rng.gauss(0, 1), rng.gauss(0, 1))
        bad = rng.gauss(BAD_SHIFT, BAD_SHIFT_SD) if rng.random() < CHANCE_BAD else 0.0
        weighing = (rng.gauss(0, 1), rng.gauss(0, 1), rng.gauss(0, 1), rng.gauss(0, 1))
        return Noise(shared, parts, bad, weighing)


def household(seed: int, kind: str) -> Household:
    """Invent a household; `kind` is one of TRUTHS."""
    rng = random.Random(seed * 7919 + 13)
    clicks = rng.choice(CLICKS)
    noise_sd = rng.uniform(0.04, 0.10)
    exponent, dead_zone = rng.uniform(1.0, 2.5), rng.uniform(0.0, 0.15)
    level = rng.gauss(math.log(MEAN_RATE_KG_M2), LEVEL_SD)
    travel_mm, length_mm = rng.uniform(14, 34), rng.uniform(15, 35)
    shape = None if kind == "model" else rng.choice(orifice.SHAPES)
    ground_m2_s = max(0.8, rng.gauss(1.34, 0.12)) * rng.uniform(1.2, 2.5)
    edge = rng.uniform(-0.04, 0.06)
    offset_sd = 0.15 if kind == "model" else 0.10
    products = (_product(rng, 0, offset_sd), _product(rng, 1, offset_sd))
    targets = tuple(MEAN_RATE_KG_M2 * rng.uniform(0.6, 1.6) for _ in range(APPLICATIONS + 1))
    truth: Truth
    if shape is None:
        truth = PowerLaw(level, exponent, dead_zone, products[0].granule_mm, travel_mm)
    else:
        truth = Port(shape, travel_mm, length_mm, edge, ground_m2_s)
        if kind == "shapes":
            truth = _at_level(truth, math.exp(level))
    return Household(seed, kind, clicks, noise_sd, truth, products, targets)


def _product(rng: random.Random, number: int, offset_sd: float) -> Product:
    granules = rng.choice(tuple(GRANULES_MM))
    density = rng.uniform(650, 1000)
    return Product(f"p{number}", granules, rng.uniform(*GRANULES_MM[granules]), density, rng.gauss(0, offset_sd))


def _at_level(port: Port, half_open_kg_m2: float) -> Port:
    """The same port, walked so that granules of 2 mm come out at a given rate half open."""
    usual = Product("usual", "coarse", 2.0, REFERENCE_DENSITY_KG_M3, 0.0)
    level_dial = Port(port.shape, port.travel_mm, port.length_mm, port.edge, 1.0)
    flow = level_dial.rate_kg_m2(usual, 0.5)
    return Port(port.shape, port.travel_mm, port.length_mm, port.edge, flow / half_open_kg_m2)
