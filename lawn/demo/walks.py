"""Walks of the demo, played against spreaders whose true curve only this file knows.

What the household does comes from the engine (aim, start dial, next dial, split); what really falls comes
from the hidden truth with the scenario's noise, as in the design's simulation:
rate(u) = level * product * ((u - dead) / (0.5 - dead)) ** exponent * noise.
"""

import math
import random
from datetime import date
from typing import Any

from lawn import units
from lawn.demo.asking import Item, ask, si
from lawn.demo.scenario import Scenario

CLOGGED = math.exp(-0.45)  # a damp or clogged pass puts down about a third less (design's simulation)
MINUTES_A_PASS = 25


class Walker:
    """Plays walks one after another; each spreader's passes become its history."""

    def __init__(self, scenario: Scenario, members: dict[str, str], chance: random.Random) -> None:
        self.scenario, self.members, self.chance = scenario, members, chance
        self.histories: dict[str, list[Item]] = {key: [] for key in scenario.spreaders}
        self.put_down_kg = 0.0

    def walk(self, row: dict[str, Any]) -> list[Item]:
        """The items of one walk: its passes, then the walk itself. `put_down_kg` is then what it used."""
        return _Walk(self, row).items()


class _Walk:
    """One application on foot."""

    def __init__(self, walker: Walker, row: dict[str, Any]) -> None:
        self.walker, self.row, self.scenario = walker, row, walker.scenario
        self.product = self.scenario.products[row["product"]]
        self.spreader = self.scenario.spreaders[row["spreader"]]
        self.history = walker.histories[row["spreader"]]
        self.day = date.fromisoformat(row["on"])
        self.zones = [
            {"id": self.scenario.zone_id(key), "area_m2": self.scenario.grounds[key]["area_m2"]} for key in row["zones"]
        ]
        self.area_m2 = sum(zone["area_m2"] for zone in self.zones)
        self.n_percent = self.product.get("analysis", {}).get("n_percent")
        self.walk_id = self.scenario.id_of(f"walk {row['on']}", self._moment(0))

    def items(self) -> list[Item]:
        """Aim, load, walk pass after pass, split what was put down."""
        aim = self._aim()
        load_kg = _to_tenth_lb(aim["mass_kg"], math.floor)
        dial_args = {
            "dial": self.spreader["dial"], "product": self._stuff(), "area_m2": self.area_m2,
            "target_kg_m2": load_kg / self.area_m2,
        }  # fmt: skip
        start = ask("spreading.start", history=self.history, **dial_args)
        passes = int(start["passes_advised"])
        dial, left_kg, found = start["dial"], load_kg, []
        for number in range(1, passes + 1):
            if number > 1:
                to_go = passes - number + 1
                known = ask("spreading.next", history=self.history, left_kg=left_kg, passes_to_go=to_go, **dial_args)
                dial = known["dial"]
            body = self._pass(number, passes, dial, left_kg)
            found.append(body)
            left_kg = body["left_kg"]
            if left_kg <= 0.0:
                break
        self.walker.put_down_kg = load_kg - left_kg
        walk = self._walk(aim, found)
        ids = [self.scenario.id_of(f"pass {self.row['on']} {body['number']}", body["occurred_at"]) for body in found]
        items: list[Item] = [{"t": "entry", "id": id_, "body": body} for id_, body in zip(ids, found, strict=True)]
        return [*items, {"t": "entry", "id": self.walk_id, "body": walk, **self._note()}]

    def _aim(self) -> dict[str, Any]:
        aim: Item = {"kind": self.row["aim"]}
        if self.row["aim"] == "nitrogen":
            aim["n_kg_m2"] = si(self.row["nitrogen"])
        return ask(
            "label.aim",
            aim=aim,
            area_m2=self.area_m2,
            net_kg=si(self.product["net"]),
            coverage_m2=si(self.product["coverage"]),
            n_percent=self.n_percent,
        )

    def _stuff(self) -> Item:
        product_id = self.scenario.product_id(self.row["product"])
        return {
            "id": product_id,
            "granules": self.product["granules"],
            "bulk_density_kg_m3": float(self.product["density"]),
        }

    def _pass(self, number: int, passes: int, dial: float, start_kg: float) -> Item:
        clogged = self.row.get("clogged_pass") == number
        falls_kg = self._true_rate_kg_m2(dial) * (CLOGGED if clogged else 1.0) * self.area_m2
        ran_out = falls_kg > start_kg
        left = self._read(max(0.0, start_kg - falls_kg), start_kg)
        scale = self.spreader["dial"]
        body = {
            **self._head("pass", number),
            "walk_id": self.walk_id,
            "number": number,
            "passes": passes,
            "dial": dial,
            "dial_scale": scale,
            "area_m2": self.area_m2 * (start_kg / falls_kg if ran_out else 1.0),
            "start_kg": start_kg,
            "used_kg": start_kg - left["left_kg"],
            **left,
            **({"ran_out": True} if ran_out else {}),
            **({"bad": True} if clogged else {}),
            "bulk_density_kg_m3": float(self.product["density"]),
            "granules": self.product["granules"],
            "swath_m": si(self.spreader["swath"]),
            "speed_m_s": si(self.spreader["speed"]),
        }
        self.history.append(_past(body))
        return body

    def _true_rate_kg_m2(self, dial: float) -> float:
        truth, scale = self.spreader["truth"], self.spreader["dial"]
        opening = (dial - scale["lowest"]) / (scale["highest"] - scale["lowest"])
        beyond = max(0.0, opening - truth["dead_zone"]) / (0.5 - truth["dead_zone"])
        product = math.exp(self.scenario.raw["truth_of_products"][self.row["product"]])
        noise = math.exp(truth["noise"] * _normal(self.walker.chance))
        return float(truth["half_open_kg_100m2"] / 100.0 * product * beyond ** truth["exponent"] * noise)

    def _read(self, left_kg: float, start_kg: float) -> Item:
        """What the household reads of it: a kitchen scale to a tenth of a pound, or the hopper's level."""
        if self.row.get("level") and (read := self._level(left_kg, start_kg)):
            return read
        amount = f"{round(units.back(left_kg, 'lb'), 1):g}"
        weighed = {"amount": amount, "unit": "lb"}
        kg = min(units.convert(amount, "lb"), start_kg)
        return {"left_kg": kg, "left_typed": {"way": "scale", **weighed}, "measured": "scale"}

    def _level(self, left_kg: float, start_kg: float) -> Item | None:
        hopper = {name: si(pair) for name, pair in self.spreader["hopper"].items()}
        density = float(self.product["density"])
        full = ask("hopper.mass", **hopper, bulk_density_kg_m3=density, level_share=1.0)
        if left_kg > full["capacity_kg"]:
            return None
        exact = ask("hopper.level", **hopper, bulk_density_kg_m3=density, mass_kg=left_kg)
        share = round(exact["level_share"] * 20) / 20
        kg = ask("hopper.mass", **hopper, bulk_density_kg_m3=density, level_share=share)["mass_kg"]
        left_typed = {"way": "level", "level_share": share, "in_bag": {"amount": "", "unit": "lb"}}
        return {"left_kg": min(kg, start_kg), "left_typed": left_typed, "measured": "level"}

    def _walk(self, aim: dict[str, Any], passes: list[Item]) -> Item:
        used_kg = sum(body["used_kg"] for body in passes)
        nitrogen = self.row.get("nitrogen", ["0.75", "n_lb_kft2"])
        slow = self.product.get("analysis", {}).get("slow_n_share")
        return {
            **self._head("walk", len(passes) + 1),
            "aim": {
                "kind": self.row["aim"],
                "nitrogen": {"amount": nitrogen[0], "unit": nitrogen[1]},
                "bags": "1",
            },
            "area_m2": self.area_m2,
            "target_kg_m2": aim["target_kg_m2"],
            "used_kg": used_kg,
            "sort": self.product["sort"],
            **({"n_percent": self.n_percent} if self.n_percent is not None else {}),
            **({"slow_n_share": slow} if slow is not None else {}),
            "zones": ask("spreading.split", used_kg=used_kg, zones=self.zones, n_percent=self.n_percent)["zones"],
            "last_dial": passes[-1]["dial"],
            "passes": len(passes),
        }

    def _head(self, kind: str, step: int) -> Item:
        return {
            "kind": kind,
            "occurred_at": self._moment(step),
            "by": self.walker.members[self.row["by"]],
            "zone_ids": [zone["id"] for zone in self.zones],
            "product_id": self.scenario.product_id(self.row["product"]),
            "spreader_id": self.scenario.spreader_id(self.row["spreader"]),
            "demo": True,
        }

    def _moment(self, step: int) -> str:
        hours, minutes = (int(part) for part in self.row["at"].split(":"))
        minutes += hours * 60 + step * MINUTES_A_PASS
        return self.scenario.moment(self.day, f"{minutes // 60:02d}:{minutes % 60:02d}")

    def _note(self) -> Item:
        if "note" not in self.row:
            return {}
        return {"set": {"note": {"note": self.row["note"]}}, "base": {"note": None}}


def _past(body: Item) -> Item:
    """The pass as the engine takes it back as history."""
    names = ("dial", "area_m2", "used_kg", "measured", "ran_out", "bad", "bulk_density_kg_m3", "granules")
    return {"product": body["product_id"], **{name: body[name] for name in names if name in body}}


def _to_tenth_lb(kg: float, rounding: Any) -> float:
    """A load as a household weighs it: rounded to a tenth of a pound."""
    return units.convert(f"{rounding(units.back(kg, 'lb') * 10) / 10:g}", "lb")


def _normal(chance: random.Random) -> float:
    """A standard normal number from two uniform ones (Box and Muller 1958)."""
    return math.sqrt(-2.0 * math.log(1.0 - chance.random())) * math.cos(2.0 * math.pi * chance.random())
