"""What really falls from the demo's invented spreaders: the hidden truth the household's records are played against.

Granular flow through an opening: mass flow grows with bulk density and with a power of the opening less a few granules
(design's simulation, after the published orifice law); all numbers stand in the scenario. The engine never sees this.
"""

import math
from typing import Any


class Truth:
    """One spreader with one product in it."""

    def __init__(self, raw: dict[str, Any], spreader: dict[str, Any], product: dict[str, Any]) -> None:
        self.grain = raw["truth_of_granules"]
        self.spreader, self.product = spreader, product

    def rate_kg_m2(self, dial: float) -> float:
        """Product per area at a setting, in a pass that goes as usual; 0 where nothing flows."""
        truth, scale = self.spreader["truth"], self.spreader["dial"]
        opening = (dial - scale["lowest"]) / (scale["highest"] - scale["lowest"])
        beyond = max(0.0, opening - self._closed_until(self.product["granules"]))
        usual = 0.5 - self._closed_until("medium")
        dense = self.product["density"] / self.grain["density_kg_m3"]
        level = truth["half_open_kg_100m2"] / 100.0 * dense * math.exp(self.product["flow"])
        return float(level * (beyond / usual) ** truth["exponent"])

    def _closed_until(self, granules: str) -> float:
        """Share of the travel below which nothing falls: the hole must be a few granules wide."""
        truth = self.spreader["truth"]
        return float(truth["edge"] + self.grain["lost"] * self.grain["size_mm"][granules] / truth["travel_mm"])
