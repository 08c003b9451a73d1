"""The demo's log: mows, observations, stock counts and spreading jobs of the months before the day of loading."""

import random
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from lawn.demo import soil
from lawn.demo.asking import Item, ask, si, typed
from lawn.demo.jobs import Player
from lawn.demo.scenario import Scenario
from lawn.units import registry


@dataclass(frozen=True)
class Entry:
    """One op of the log: the items it says, and whose phone says it."""

    occurred_at: str
    by: str
    items: list[Item]


def entries_of(scenario: Scenario, members: dict[str, str]) -> list[Entry]:
    """Every entry of the log as of the scenario's day of loading, oldest first. members: member id by key."""
    season = _Season(scenario, members)
    season.first_day()
    season.observations()
    season.jobs_and_counts()
    season.mows()
    season.tray_tests()
    season.soil_readings()
    season.soil_tests()
    return sorted(season.entries, key=lambda entry: (entry.occurred_at, entry.items[0]["id"]))


class _Season:
    """Collects entries; chance comes from the scenario's seed alone."""

    def __init__(self, scenario: Scenario, members: dict[str, str]) -> None:
        self.scenario, self.members = scenario, members
        self.raw, self.calendar = scenario.raw, scenario.calendar
        self.chance = random.Random(self.raw["seed"])  # noqa: S311  # a repeatable demo, not a secret
        self.entries: list[Entry] = []

    def add(self, by: str, nominal: date, clock: str, body: Item, zones: list[str], **sets: Item) -> None:
        """Put down one entry, if the log tells of that day."""
        if not self.calendar.tells(nominal):
            return
        moment = self.scenario.moment(nominal, clock)
        id_ = self.scenario.id_of(f"{body['kind']} {nominal} {clock} {by} {zones} {body.get('product_id')}", moment)
        zone_ids = [self.scenario.zone_id(key) for key in zones]
        whole = {**body, "occurred_at": moment, "by": self.members[by], "zone_ids": zone_ids, "demo": True}
        item: Item = {"t": "entry", "id": id_, "body": whole}
        self.entries.append(Entry(moment, by, [{**item, "set": sets, "base": dict.fromkeys(sets)} if sets else item]))

    def first_day(self) -> None:
        """What is seen and written on the day the log begins, whichever that is."""
        row = self.raw["first_day"]
        body = {"kind": "observation", "text": row["text"]}
        self.add(row["by"], self.calendar.nominal_first, row["at"], body, row["zones"])

    def observations(self) -> None:
        """What was seen, by hand in the file."""
        for row in self.raw["observations"]:
            body = {"kind": "observation", "text": row["text"]}
            self.add(row["by"], date.fromisoformat(row["on"]), "19:30", body, row["zones"])

    def soil_tests(self) -> None:
        """What a lab wrote of the ground, in the units it wrote it in."""
        for row in self.raw["soil_tests"]:
            body: dict[str, Any] = {"kind": "soil_test", "ph": row["ph"], "buffer_ph": row["buffer_ph"]}
            for name in ("p", "k"):
                body[f"{name}_mg_kg"] = si(row[name])
                body[f"{name}_typed"] = typed(row[name])
            body.update({name: row[name] for name in ("p_method", "organic_share", "lab")})
            day = self.calendar.nominal_today - timedelta(days=row["days_ago"])
            self.add(row["by"], day, row["at"], body, row["zones"])

    def soil_readings(self) -> None:
        """A thermometer pushed into the soil now and then."""
        climate, southern = self.scenario.household["climate"], self.calendar.southern
        for row in self.raw["soil_readings"]:
            nominal = self.calendar.nominal_today - timedelta(days=row["days_ago"])
            body = soil.read(row, self.calendar.moved(nominal), climate, southern=southern)
            self.add(row["by"], nominal, row["at"], body, [])

    def tray_tests(self) -> None:
        """Catches in trays as typed; the widest swath by the engine."""
        for row in self.raw["tray_tests"]:
            asked = {
                "catches_g": [registry.convert(amount, row["unit"]) * 1000.0 for amount in row["catches"]],
                "tray_spacing_m": si(row["spacing"]),
                "pattern": row["pattern"],
                "cv_limit_share": row["cv_limit_share"],
            }
            body = {
                "kind": "tray_test",
                "spreader_id": self.scenario.spreader_id(row["spreader"]),
                "product_id": self.scenario.product_id(row["product"]),
                **asked,
                "widest_m": ask("swath.tray_test", **asked)["widest_m"],
                "dial": row["dial"],
                "typed": {"catches": row["catches"], "unit": row["unit"], "tray_spacing": typed(row["spacing"])},
            }
            self.add(row["by"], date.fromisoformat(row["on"]), row["at"], body, [])

    def jobs_and_counts(self) -> None:
        """Play spreading jobs and counts in order, so that the shed's counts follow from what was put down.

        What happened before the log begins is played too, by players from whom nobody learns: it leaves the shed as
        the first day finds it.
        """
        first = self.calendar.nominal_first
        rows = sorted([*self.raw["jobs"], *self.raw["counts"]], key=lambda row: str(row["on"]))
        stock = dict.fromkeys(self.scenario.products, 0.0)
        self._play([row for row in rows if date.fromisoformat(row["on"]) < first], stock)
        for key, kg in stock.items():
            if kg > 0.0:
                self._weigh(self.raw["first_day"]["by"], first, key, kg)
        self._play([row for row in rows if self.calendar.tells(date.fromisoformat(row["on"]))], stock)

    def _play(self, rows: list[dict[str, Any]], stock: dict[str, float]) -> None:
        player = Player(self.scenario, self.members)
        for row in rows:
            day = date.fromisoformat(row["on"])
            if "bought_bags" in row:
                stock[row["product"]] += row["bought_bags"] * si(self.scenario.products[row["product"]]["net"])
                if row["bought_bags"]:
                    self._buy(row["by"], day, row["product"], row["bought_bags"])
                else:
                    self._weigh(row["by"], day, row["product"], stock[row["product"]])
                continue
            items = player.play(row)
            stock[row["product"]] -= player.put_down_kg
            if self.calendar.tells(day):
                self.entries += [Entry(item["body"]["occurred_at"], row["by"], [item]) for item in items]

    def _buy(self, by: str, day: date, key: str, bags: float) -> None:
        product = self.scenario.products[key]
        body: dict[str, Any] = {
            "kind": "bought",
            "product_id": self.scenario.product_id(key),
            "bags": bags,
            "net_kg": si(product["net"]),
            "net_typed": typed(product["net"]),
            "price": product["price"],
            "price_for": "each",
        }
        self.add(by, day, "11:15", body, [])

    def _weigh(self, by: str, day: date, key: str, kg: float) -> None:
        """A count of what there is, to the half pound."""
        amount = f"{round(registry.back(kg, 'lb') * 2) / 2:g}"
        body = {
            "kind": "stock_count",
            "product_id": self.scenario.product_id(key),
            "left_kg": registry.convert(amount, "lb"),
            "left_typed": {"amount": amount, "unit": "lb"},
        }
        self.add(by, day, "11:15", body, [])

    def mows(self) -> None:
        """Twice a week in growth, less in summer; a gap for the holiday; the last ones by hand."""
        mowing = self.raw["mowing"]
        for start, end in mowing["seasons"]:
            for day in self._mow_days(date.fromisoformat(start), date.fromisoformat(end)):
                self._yard_mow(day)  # also of days the log does not tell of, so that chance goes on as ever
            self._rough_mows(date.fromisoformat(start), date.fromisoformat(end))
        self._twice(date.fromisoformat(mowing["ticked_twice"]["on"]), mowing["ticked_twice"]["by"])
        for row in mowing["last"]:
            day = self.calendar.nominal_today - timedelta(days=row["days_ago"])
            self.add(row["by"], day, row["at"], self._mow(len(row["zones"])), row["zones"])

    def _mow_days(self, day: date, end: date) -> list[date]:
        between = self.raw["mowing"]["days_between"]
        found = []
        while day <= end:
            if not _within(day, self.raw["mowing"]["away"]):
                found.append(day)
            gap = float(between[str(day.month)]) + 1.4 * (self.chance.random() - 0.5)
            day += timedelta(days=max(2, round(gap)))
        return found

    def _yard_mow(self, day: date) -> None:
        """Either one tick for the whole yard, or zone by zone with heights."""
        yard = self._to_mow(day)
        by = ("keeper", "evening", "weekend")[int(self.chance.random() * 3)]
        hour, minute = 17 + int(self.chance.random() * 2), int(self.chance.random() * 45)
        if self.chance.random() < 0.7:
            if yard:
                self.add(by, day, f"{hour}:{minute:02d}", self._mow(len(yard)), yard)
            return
        for number, zone in enumerate(yard):
            self.add(by, day, f"{hour}:{minute + 4 * number:02d}", self._measured_mow(zone), [zone])

    def _mow(self, zones: int) -> Item:
        """A mow with the household's mower, and the minutes it took."""
        mowing = self.raw["mowing"]
        minutes = zones * mowing["minutes_a_zone"]
        return {"kind": "mow", "mower_id": self.scenario.mower_id(mowing["mower"]), "minutes": minutes}

    def _to_mow(self, day: date) -> list[str]:
        """The zones of an evening's mow: not the one roped off; none in the last days, which are told by hand."""
        mowing = self.raw["mowing"]
        if (self.calendar.nominal_today - day).days < mowing["last_days"]:
            return []
        roped_off = [mowing["roped_off"]["zone"]] if _within(day, mowing["roped_off"]["days"]) else []
        return [zone for zone in mowing["yard"] if zone not in roped_off]

    def _measured_mow(self, zone: str) -> Item:
        """A cut with its heights: before it, a quarter to just under a half above the target, to the quarter inch."""
        target_in = registry.back(registry.convert(*self.scenario.zones[zone]["cut"]), "height_in")
        before_in = int(target_in * (1.22 + 0.26 * self.chance.random()) * 4) / 4
        return {
            **self._mow(1),
            "cut_height_mm": registry.convert(*self.scenario.zones[zone]["cut"]),
            "height_before_mm": registry.convert(f"{before_in:g}", "height_in"),
            "clippings": "left",
        }

    def _rough_mows(self, day: date, end: date) -> None:
        rough = self.raw["mowing"]["rough"]
        while day <= end:
            self.add("weekend", day, "15:20", {"kind": "mow", "clippings": "left"}, [rough["zone"]])
            day += timedelta(days=rough["days_between"])

    def _twice(self, day: date, by: str) -> None:
        """Two people ticked one evening's mow; the second tick is struck out, and stays to be seen."""
        void = {"void": True, "why": "Ticked by two of us for the same evening"}
        self.add("keeper", day, "17:30", {"kind": "mow"}, self.raw["mowing"]["yard"])
        self.add(by, day, "19:45", {"kind": "mow"}, self.raw["mowing"]["yard"], void=void)


def _within(day: date, ends: list[str]) -> bool:
    """Whether a day lies between two days as written, both included."""
    return date.fromisoformat(ends[0]) <= day <= date.fromisoformat(ends[1])
