"""Spreading jobs of the demo, played against spreaders whose true curve only lawn.demo.truth knows.

What the household does comes from the engine (aim, start dial, next dial, look on the way, split); what really falls
comes from the truth and the chance written beside each spreading job in the scenario.
"""

import math
from datetime import date
from typing import Any

from lawn.demo.asking import Item, ask, si
from lawn.demo.grounds import rings
from lawn.demo.passes import Hopper, OnFoot, past_of
from lawn.demo.scenario import Scenario
from lawn.demo.truth import Truth
from lawn.units import registry

MINUTES_A_PASS = 25


class Player:
    """Plays spreading jobs one after another; each spreader's passes become its history."""

    def __init__(self, scenario: Scenario, members: dict[str, str]) -> None:
        self.scenario, self.members = scenario, members
        self.histories: dict[str, list[Item]] = {key: [] for key in scenario.spreaders}
        self.put_down_kg = 0.0

    def play(self, row: dict[str, Any]) -> list[Item]:
        """The items of one job: its passes, then the job itself. `put_down_kg` is then what it used."""
        return _Job(self, row).items()


class _Job:
    """One application on foot."""

    def __init__(self, player: Player, row: dict[str, Any]) -> None:
        self.player, self.row, self.scenario = player, row, player.scenario
        self.product = self.scenario.products[row["product"]]
        self.spreader = self.scenario.spreaders[row["spreader"]]
        self.truth = Truth(self.scenario.raw, self.spreader, self.product)
        self.hopper = Hopper(self.spreader, self.product)
        self.history = player.histories[row["spreader"]]
        self.day = date.fromisoformat(row["on"])
        self.zones = [
            {"id": self.scenario.zone_id(key), "area_m2": self.scenario.grounds[key]["area_m2"]} for key in row["zones"]
        ]
        self.area_m2 = sum(zone["area_m2"] for zone in self.zones)
        self.n_percent = self.product.get("analysis", {}).get("n_percent")
        self.spread_id = self.scenario.id_of(f"spread {row['on']}", self._moment(0))
        self.asked: Item = {}

    def items(self) -> list[Item]:
        """Aim, load, walk pass after pass, split what was put down."""
        aim = self._aim()
        load_kg = left_kg = _to_tenth_lb(aim["mass_kg"])
        self.asked = {
            "dial": self.spreader["dial"], "product": self._stuff(), "area_m2": self.area_m2,
            "target_kg_m2": load_kg / self.area_m2, "swath_m": si(self.spreader["swath"]),
            "speed_m_s": si(self.spreader["speed"]),
        }  # fmt: skip
        start = ask("spreading.start", history=self.history, **self.asked)
        passes, dial = int(start["passes_advised"]), start["dial"]
        items: list[Item] = []
        for number in range(1, passes + 1):
            if number > 1:
                to_go = passes - number + 1
                known = ask("spreading.next", history=self.history, left_kg=left_kg, passes_to_go=to_go, **self.asked)
                dial = known["dial"]
            items.append(self._pass(number, passes, dial, left_kg))
            left_kg = items[-1]["body"]["left_kg"]
            if left_kg <= 0.0:
                break
        self.player.put_down_kg = load_kg - left_kg
        whole = self._whole(aim, [item["body"] for item in items])
        note = {"note": {"note": self.row["note"]}} if "note" in self.row else {}
        return [*items, _entry(self.spread_id, whole, note)]

    def _aim(self) -> dict[str, Any]:
        aim: Item = {"kind": self.row["aim"]}
        if self.row["aim"] == "nitrogen":
            aim["n_kg_m2"] = si(self.row["nitrogen"])
        if self.row["aim"] == "bag":
            aim["bags"] = 1
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
        on_foot = OnFoot(self.truth, self._noise(number), start_kg)
        look = self.row.get("look", {})
        checks = self._looked(on_foot, look, dial, passes - number + 1) if look.get("pass") == number else []
        if not checks:
            on_foot.walk(dial, self.area_m2)
        reading = (self.hopper.by_level if self.row.get("level") else self.hopper.weighed)(
            on_foot.truly_kg, on_foot.read_kg
        )
        on_foot.read(reading)
        stuff = self._stuff()
        body = {
            **self._head("pass", number),
            "spread_id": self.spread_id,
            "number": number,
            "passes": passes,
            "pattern": "offset" if number % 2 == 0 else "plain",
            "dial_scale": self.spreader["dial"],
            "start_kg": start_kg,
            **on_foot.summed(),
            "left_typed": reading["left_typed"],
            **({"damp": True} if self.row.get("damp_pass") == number else {}),
            **({"checks": checks} if checks else {}),
            **{name: stuff[name] for name in ("bulk_density_kg_m3", "granules")},
            **{name: self.asked[name] for name in ("swath_m", "speed_m_s")},
        }
        doubt = self._doubt(number)
        self.history.extend(past_of(body, bool(doubt)))
        id_ = self.scenario.id_of(f"pass {self.row['on']} {number}", body["occurred_at"])
        return _entry(id_, body, doubt)

    def _noise(self, number: int) -> float:
        """The chance of one pass as written beside the job, and what a clogged gate or damp product adds to it."""
        noise = float(self.row["noise"][number - 1])
        odd = self.scenario.raw["truth_of_odd_passes"]
        if self.row.get("bad_pass", {}).get("pass") == number:
            noise += odd["clogged"]
        return noise + (odd["damp"] if self.row.get("damp_pass") == number else 0.0)

    def _doubt(self, number: int) -> Item:
        """The overlay by which a pass was left out of learning the day after."""
        bad = self.row.get("bad_pass", {})
        if bad.get("pass") != number:
            return {}
        by = self.player.members[self.row["by"]]
        return {"learning": {"bad": True, "why": bad["why"], "by": by, "at": self._moment(len(self.row["noise"]) + 1)}}

    def _looked(self, on_foot: OnFoot, look: dict[str, Any], dial: float, passes_to_go: int) -> list[Item]:
        """Walk to the strip nearest to the share told, read the level, go on as the engine advises."""
        row = min(self._rows(), key=lambda row: abs(row["done_area_m2"] / self.area_m2 - look["share"]))
        started_kg = on_foot.read_kg
        on_foot.walk(dial, row["done_area_m2"])
        read = self.hopper.by_level(on_foot.truly_kg, on_foot.read_kg)
        where = {"area_done_m2": row["done_area_m2"], "area_to_go_m2": row["to_go_area_m2"], "dial_now": dial}
        advice = ask(
            "spreading.check", **self.asked, **where, history=self.history, left_kg=started_kg,
            now_kg=read["left_kg"], passes_to_go=passes_to_go,
        )  # fmt: skip
        if advice["dial"] == dial:
            on_foot.parts.clear()
            on_foot.truly_kg = started_kg
            on_foot.walk(dial, self.area_m2)
        else:
            on_foot.read(read)
            on_foot.walk(advice["dial"], row["to_go_area_m2"])
        return [
            {
                "at": self._moment(look["pass"], -MINUTES_A_PASS // 2),
                "row": row["number"],
                "area_done_m2": row["done_area_m2"],
                "now_kg": read["left_kg"],
                "measured": read["measured"],
                "typed": read["left_typed"],
                "dial_before": dial,
                "dial_after": advice["dial"],
            }
        ]

    def _rows(self) -> list[Item]:
        """The strips of the spreading job as the phone counts them."""
        zones = [
            {**zone, **rings(self.scenario.grounds[key]["outline"])}
            for key, zone in zip(self.row["zones"], self.zones, strict=True)
        ]
        rows: list[Item] = ask("swath.tour", zones=zones, swath_m=self.asked["swath_m"], pattern="offset")["rows"]
        return rows

    def _whole(self, aim: dict[str, Any], passes: list[Item]) -> Item:
        used_kg = sum(body["used_kg"] for body in passes)
        nitrogen = self.row.get("nitrogen", ["0.75", "n_lb_kft2"])
        slow = self.product.get("analysis", {}).get("slow_n_share")
        return {
            **self._head("spread", len(passes) + 1),
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
            "zones": self._shares(passes),
            "last_dial": passes[-1]["dial"],
            "passes": len(passes),
            "pattern": "offset",
        }

    def _shares(self, passes: list[Item]) -> Any:
        """What each zone got, by the ground each pass covered."""
        walked = [{name: body[name] for name in ("used_kg", "area_m2", "parts") if name in body} for body in passes]
        return ask("spreading.split", passes=walked, zones=self.zones, n_percent=self.n_percent)["zones"]

    def _head(self, kind: str, step: int) -> Item:
        return {
            "kind": kind,
            "occurred_at": self._moment(step),
            "by": self.player.members[self.row["by"]],
            "zone_ids": [zone["id"] for zone in self.zones],
            "product_id": self.scenario.product_id(self.row["product"]),
            "spreader_id": self.scenario.spreader_id(self.row["spreader"]),
            "demo": True,
        }

    def _moment(self, step: int, more: int = 0) -> str:
        hours, minutes = (int(part) for part in self.row["at"].split(":"))
        minutes += hours * 60 + step * MINUTES_A_PASS + more
        return self.scenario.moment(self.day, f"{minutes // 60:02d}:{minutes % 60:02d}")


def _entry(id_: str, body: Item, sets: Item) -> Item:
    item: Item = {"t": "entry", "id": id_, "body": body}
    return {**item, "set": sets, "base": dict.fromkeys(sets)} if sets else item


def _to_tenth_lb(kg: float) -> float:
    """A load as a household weighs it: down to a tenth of a pound."""
    return registry.convert(f"{math.floor(round(registry.back(kg, 'lb') * 10, 6)) / 10:g}", "lb")
