"""What people enter, drawn from the seed: all sorts of writes, some of them wrong."""

import random
from typing import Any

from tests.simulation.desk import THROWS, Moment
from tests.simulation.witness import Witness

Item = dict[str, Any]

GRASSES = ["", "couch", "rye", "fescue"]
# The records everybody writes to, so that writes meet.
COMMON = {"zone": 2, "product": 1, "spreader": 1}


class Hands:
    """Makes the writes of a run's people."""

    def __init__(self, chance: random.Random, moment: Moment, witness: Witness) -> None:
        self._chance, self._moment, self._witness = chance, moment, witness
        self.common = {t: [moment.id() for _ in range(count)] for t, count in COMMON.items()}

    def founding(self) -> list[list[Item]]:
        """Return the first writes of the household: everything in `common`."""
        made = [self._settings(t, record) for t, ids in self.common.items() for record in ids]
        return [made[:2], made[2:]]

    def write(self, phone: str, odd: bool) -> list[Item]:
        """Return the items of one save on a phone; `odd`: also what the server cannot take or does not know."""
        makers = [(self._entry, 5), (self._edit, 7), (self._overlay, 3), (self._delete, 1), (self._both, 1)]
        if odd:
            makers += [(self._invalid, 1), (self._unknown, 2), (self._throws, 1)]
        [make] = self._chance.choices([make for make, _ in makers], [weight for _, weight in makers])
        return make(phone)

    def _number(self) -> int:
        return self._chance.randint(1, 99)

    def _one(self, t: str) -> str:
        return self._chance.choice(self.common[t])

    def _entry(self, phone: str) -> list[Item]:
        kind = self._chance.choice(["mow", "observation", "stock_count"])
        body: Item = {"kind": kind, "occurred_at": "2026-05-01T18:30:00+02:00", "zone_ids": [self._one("zone")]}
        if kind == "mow":
            body["cut_height_mm"] = self._chance.randint(5, 200)
        elif kind == "observation":
            body["text"] = f"seen {self._chance.randrange(10**6)}"
        else:
            body.update(product_id=self._one("product"), left_kg=self._chance.randint(0, 400) / 8)
        return [{"t": "entry", "id": self._moment.id(), "body": body}]

    def _settings(self, t: str, record: str) -> Item:
        groups = {group: self._group(t, group) for group in _GROUPS[t]}
        return {"t": t, "id": record, "set": {name: value for name, value in groups.items() if value}}

    def _edit(self, phone: str) -> list[Item]:
        t = self._chance.choice(list(_GROUPS))
        if self._chance.random() < 0.1:
            return [self._settings(t, self._moment.id())]
        groups = self._chance.sample(_GROUPS[t], self._chance.choice([1, 1, 1, 2]))
        return [{"t": t, "id": self._one(t), "set": {group: self._group(t, group) for group in groups}}]

    def _group(self, t: str, group: str) -> Item:
        made: Item = _VALUES[(t, group)](self._chance.randint(1, 900), self._chance)
        return made

    def _overlay(self, phone: str) -> list[Item]:
        entries = [row["id"] for row in self._witness.table(phone, "live").values() if row["t"] == "entry"]
        if not entries:
            return self._entry(phone)
        group, value = self._chance.choice(
            [
                ("void", {"void": self._chance.random() < 0.7, "why": "counted twice"}),
                ("note", {"note": f"note {self._chance.randrange(10**6)}"}),
                ("when", {"occurred_at": f"2026-05-{self._chance.randint(10, 28)}T07:00:00Z"}),
            ]
        )
        return [{"t": "entry", "id": self._chance.choice(entries), "set": {group: value}}]

    def _delete(self, phone: str) -> list[Item]:
        t = self._chance.choice(list(_GROUPS))
        return [{"t": t, "id": self._one(t), "set": {"deleted": {"deleted": self._chance.random() < 0.8}}}]

    def _both(self, phone: str) -> list[Item]:
        return self._entry(phone) + self._edit(phone)

    def _invalid(self, phone: str) -> list[Item]:
        ground = {"area_m2": 10**9, "method": "typed"}
        bad: list[Item] = [
            {"t": "zone", "id": self._one("zone"), "set": {"ground": ground}},
            {"t": "zone", "id": self._one("zone"), "set": {"name": {"name": "cut \x00 short"}}},
            {"t": "member", "id": self._moment.id(), "set": {"name": {"name": "Nobody"}}},
            {"t": "entry", "id": self._moment.id(), "set": {"note": {"note": "of nothing"}}},
        ]
        return [self._chance.choice(bad)]

    def _unknown(self, phone: str) -> list[Item]:
        new: list[Item] = [
            {"t": "drone", "id": self._moment.id(), "set": {"name": {"name": "Buzzard"}}},
            {"t": "zone", "id": self._one("zone"), "set": {"moss": {"share": self._number()}}},
            {
                "t": "zone",
                "id": self._one("zone"),
                "set": {"site": {"sun": "shade", "wind": self._number()}},
            },
        ]
        return [self._chance.choice(new)]

    def _throws(self, phone: str) -> list[Item]:
        return [{"t": "zone", "id": self._one("zone"), "set": {"name": {"name": THROWS}}}]


_VALUES: dict[tuple[str, str], Any] = {
    ("zone", "name"): lambda n, chance: {"name": f"Zone {n}"},
    ("zone", "ground"): lambda n, chance: {"area_m2": n / 2, "method": chance.choice(["typed", "shapes", "gps"])},
    ("zone", "grass"): lambda n, chance: {"grass": chance.choice(GRASSES)},
    ("zone", "cut"): lambda n, chance: {"cut_height_mm": 5 + n % 190, "mow_every_days": 1 + n % 60},
    ("product", "name"): lambda n, chance: {"name": f"Product {n}", "sort": "fertilizer"},
    ("product", "label"): lambda n, chance: (
        {"net_kg": n / 8, "net_typed": {"amount": str(n), "unit": chance.choice(["kg", "lb"])}}
    ),
    ("product", "analysis"): lambda n, chance: {"n_percent": n % 100, "slow_n_share": n / 900},
    ("spreader", "name"): lambda n, chance: {"name": f"Spreader {n}", "sort": "rotary"},
    ("spreader", "dial"): lambda n, chance: {"lowest": 0, "highest": n, "step": 0.5},
}
_GROUPS: dict[str, list[str]] = {}
for _t, _group in _VALUES:
    _GROUPS.setdefault(_t, []).append(_group)
