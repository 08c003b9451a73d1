"""fixtures/demo/alder-bend.json as settings records: what is typed there becomes SI by lawn.units and the engine."""

import hashlib
import json
import uuid
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

from lawn.demo import plans
from lawn.demo.asking import Item, si, typed
from lawn.demo.calendar import Calendar
from lawn.demo.grounds import ground

FILE = Path(__file__).resolve().parents[2] / "fixtures" / "demo" / "alder-bend.json"

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


class Scenario:
    """The file, its dates moved so that grass grows where the household lives on the day of loading, `today`."""

    def __init__(self, today: date) -> None:
        self.raw: dict[str, Any] = json.loads(FILE.read_text(encoding="utf-8"))
        self.today = today
        self.people: list[dict[str, str]] = self.raw["people"]
        self.household: dict[str, Any] = self.raw["household"]
        self.calendar = Calendar(self.raw, today)
        self.products = {row["key"]: row for row in self.raw["products"]}
        self.spreaders = {row["key"]: row for row in self.raw["spreaders"]}
        self.mowers = {row["key"]: row for row in self.raw["mowers"]}
        self.zones = {row["key"]: row for row in self.raw["zones"]}
        self.grounds = {row["key"]: ground(row) for row in self.raw["zones"]}

    def moment(self, nominal: date, clock: str) -> str:
        """A nominal day and a clock time as the moved moment, in ISO 8601 with the scenario's zone offset."""
        return f"{self.calendar.moved(nominal).isoformat()}T{clock}:00{self.raw['offset']}"

    def id_of(self, name: str, moment: str | None = None) -> str:
        """A UUIDv7 made of the moment and the name only, so that loading twice gives the same ids."""
        made = datetime.fromisoformat(moment or self.moment(self.calendar.nominal_first, "07:00"))
        bits = (int(made.timestamp() * 1000) << 80) | int(hashlib.sha256(name.encode()).hexdigest()[:20], 16)
        bits = bits & ~(0xF << 76) | (0x7 << 76)
        return str(uuid.UUID(int=bits & ~(0x3 << 62) | (0x2 << 62)))

    def zone_id(self, key: str) -> str:
        """The id of a zone."""
        return self.id_of(f"zone {key}")

    def product_id(self, key: str) -> str:
        """The id of a product."""
        return self.id_of(f"product {key}")

    def spreader_id(self, key: str) -> str:
        """The id of a spreader."""
        return self.id_of(f"spreader {key}")

    def mower_id(self, key: str) -> str:
        """The id of a mower."""
        return self.id_of(f"mower {key}")

    def settings(self, household_id: uuid.UUID) -> list[list[Item]]:
        """One op for each record: the place, zones, products, spreaders, mowers, the season plan."""
        latitude_deg = self.household["latitude_deg"] * (-1 if self.calendar.southern else 1)
        place = {"latitude_deg": latitude_deg, "longitude_deg": self.household["longitude_deg"]}
        of_household = {"place": place, "climate": self.household["climate"], "rhythm": self._rhythm()}
        rows: list[tuple[str, str, Item]] = [("household", str(household_id), of_household)]
        rows += [("zone", self.zone_id(key), self._zone(row)) for key, row in self.zones.items()]
        rows += [("product", self.product_id(key), _product(row)) for key, row in self.products.items()]
        rows += [("spreader", self.spreader_id(key), _spreader(row)) for key, row in self.spreaders.items()]
        rows += [("mower", self.mower_id(key), self._mower(row)) for key, row in self.mowers.items()]
        rows += plans.rows(self)
        return [[{"t": t, "id": id_, "set": sets, "base": dict.fromkeys(sets)}] for t, id_, sets in rows]

    def _rhythm(self) -> Item:
        """The household's mowing nights: tonight is one, whatever the day of loading."""
        nights = [self.today + timedelta(days=ahead) for ahead in self.household["mowing_nights_from_today"]]
        return {f"mow_{WEEKDAYS[night.weekday()]}": True for night in nights}

    def claims(self) -> list[tuple[str, Item]]:
        """What members said they will do, each with whose phone says it."""
        return [(row["by"], self._claim(row)) for row in self.raw["claims"]]

    def _claim(self, row: dict[str, Any]) -> Item:
        day = self.today + timedelta(days=row["days_ahead"])
        zone_ids = [self.zone_id(key) for key in row["zones"]]
        sets = {"claim": {"job": row["job"], "day": day.isoformat(), "zone_ids": zone_ids, "demo": True}}
        said_at = self.moment(self.calendar.nominal_today - timedelta(days=1), "20:10")
        id_ = self.id_of(f"claim {row['job']} {row['by']}", said_at)
        return {"t": "claim", "id": id_, "set": sets, "base": dict.fromkeys(sets)}

    def _zone(self, row: dict[str, Any]) -> Item:
        cut = {"cut_height_mm": si(row["cut"]), "cut_height_typed": typed(row["cut"])}
        every = {"mow_every_days": row["mow_every_days"]} if "mow_every_days" in row else {}
        return {
            "name": {"name": row["name"], "demo": True},
            "ground": self.grounds[row["key"]],
            **({"grass": {"grass": row["grass"]}} if "grass" in row else {}),
            **({"strips": {"heading_deg": row["heading_deg"]}} if "heading_deg" in row else {}),
            "cut": {**cut, **every},
            "site": row["site"],
            "show": {"show_patch": row.get("show", False)},
        }

    def _mower(self, row: dict[str, Any]) -> Item:
        notches = [
            {"label": label, "measured_mm": si(pair), "measured_typed": typed(pair)} for label, pair in row["notches"]
        ]
        ends = {name: row[name] for name in ("lowest", "highest")}
        return {
            "name": {"name": row["name"], "demo": True},
            "deck": {
                "notches": notches,
                **{f"{name}_mm": si(pair) for name, pair in ends.items()},
                **{f"{name}_typed": typed(pair) for name, pair in ends.items()},
            },
            "blade": {
                "sharpened_on": (self.today - timedelta(days=row["sharpened_days_ago"])).isoformat(),
                "hours_between": row["hours_between"],
            },
        }


def _product(row: dict[str, Any]) -> Item:
    return {
        "name": {"name": row["name"], "sort": row["sort"], "demo": True},
        "label": {
            "net_kg": si(row["net"]),
            "net_typed": typed(row["net"]),
            "coverage_m2": si(row["coverage"]),
            "coverage_typed": typed(row["coverage"]),
        },
        **({"analysis": row["analysis"]} if "analysis" in row else {}),
        "caution": row["caution"],
        "price": {"price": row["price"]},
        "granules": {"granules": row["granules"], "bulk_density_kg_m3": row["density"]},
    }


def _spreader(row: dict[str, Any]) -> Item:
    hopper = row["hopper"]
    return {
        "name": {"name": row["name"], "sort": row["sort"], "demo": True},
        "dial": row["dial"],
        "walking": {
            "swath_m": si(row["swath"]),
            "swath_typed": typed(row["swath"]),
            "speed_m_s": si(row["speed"]),
            "speed_typed": typed(row["speed"]),
        },
        "hopper": {
            **{name: si(pair) for name, pair in hopper.items()},
            "hopper_typed": {name: typed(pair) for name, pair in hopper.items()},
        },
    }


def days(start: date, end: date) -> list[date]:
    """Every day from start to end, both included."""
    return [start + timedelta(days=n) for n in range((end - start).days + 1)]
