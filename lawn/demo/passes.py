"""One pass of a demo spreading job: stretches walked at one setting each, read off as a household reads them."""

import math
from typing import Any

from lawn.demo.asking import Item, ask, si
from lawn.demo.truth import Truth
from lawn.units import registry


class Hopper:
    """What a household can tell of the product left: weighed, or by the level in the hopper."""

    def __init__(self, spreader: dict[str, Any], product: dict[str, Any]) -> None:
        self.measures = {name: si(pair) for name, pair in spreader["hopper"].items()}
        self.density = float(product["density"])

    def weighed(self, left_kg: float, most_kg: float) -> Item:
        """To a tenth of a pound."""
        amount = f"{round(registry.back(left_kg, 'lb'), 1):g}"
        kg = min(registry.convert(amount, "lb"), most_kg)
        return {"left_kg": kg, "left_typed": {"way": "scale", "amount": amount, "unit": "lb"}, "measured": "scale"}

    def by_level(self, left_kg: float, most_kg: float) -> Item:
        """To a twentieth of its height; what would stand above the rim is weighed instead."""
        known = {**self.measures, "bulk_density_kg_m3": self.density}
        if left_kg > ask("hopper.mass", **known, level_share=1.0)["capacity_kg"]:
            return self.weighed(left_kg, most_kg)
        share = round(ask("hopper.level", **known, mass_kg=left_kg)["level_share"] * 20) / 20
        kg = min(ask("hopper.mass", **known, level_share=share)["mass_kg"], most_kg)
        left_typed = {"way": "level", "level_share": share, "in_bag": {"amount": "", "unit": "lb"}}
        return {"left_kg": kg, "left_typed": left_typed, "measured": "level"}


class OnFoot:
    """A pass being walked: what is truly there, what the household believes is there, and its stretches."""

    def __init__(self, truth: Truth, noise: float, start_kg: float) -> None:
        self.truth, self.factor = truth, math.exp(noise)
        self.truly_kg = self.read_kg = start_kg
        self.parts: list[Item] = []
        self.ran_out = False

    def walk(self, dial: float, area_m2: float) -> None:
        """Walk some ground at a setting; where the hopper runs empty, only so much of it is covered."""
        falls_kg = self.truth.rate_kg_m2(dial) * self.factor * area_m2
        self.ran_out = falls_kg > self.truly_kg
        covered_m2 = area_m2 * (self.truly_kg / falls_kg if self.ran_out else 1.0)
        self.truly_kg = max(0.0, self.truly_kg - falls_kg)
        self.parts.append({"dial": dial, "area_m2": covered_m2})

    def read(self, reading: Item) -> None:
        """Take what was read as what is left of the stretch just walked."""
        used_kg = self.read_kg - reading["left_kg"]
        self.parts[-1].update(used_kg=used_kg, measured=reading["measured"], left_kg=reading["left_kg"])
        self.read_kg = reading["left_kg"]

    def summed(self) -> Item:
        """The fields of the pass as a whole; its parts where the setting was changed on the way."""
        parts = self.parts
        last = parts[-1]
        return {
            "dial": last["dial"],
            "area_m2": sum(part["area_m2"] for part in parts),
            "used_kg": sum(part["used_kg"] for part in parts),
            "left_kg": last["left_kg"],
            "measured": last["measured"],
            **({"ran_out": True} if self.ran_out else {}),
            **({"parts": parts} if len(parts) > 1 else {}),
        }


def past_of(body: Item, bad: bool) -> list[Item]:
    """A pass as the engine takes it back as history: one row for each setting."""
    same = ("bulk_density_kg_m3", "granules", "swath_m", "speed_m_s", "damp")
    facts = {name: body[name] for name in same if name in body} | ({"bad": True} if bad else {})
    names = ("dial", "area_m2", "used_kg", "measured", "left_kg")
    rows = [
        {"product": body["product_id"], **{name: part[name] for name in names}, **facts}
        for part in body.get("parts", [body])
    ]
    if body.get("ran_out"):
        rows[-1]["ran_out"] = True
    return rows
