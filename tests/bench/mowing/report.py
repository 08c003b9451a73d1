"""The run as text: how far off each way was, beside the last rate, and how often the 80 % range held."""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from tests.bench.mowing import warmth
from tests.bench.mowing.household import AHEAD_DAYS, cuts, forecast, true_days
from tests.bench.mowing.methods import Method, Said, methods
from tests.bench.mowing.phone import EVERY, PHONE, phones
from tests.bench.mowing.truths import grow, lawn
from tests.bench.mowing.weather import GREENSBORO, SEATTLE, days

LAWNS = 40
SEED = 20_000  # the model's few constants were chosen on seeds below 100
FROM_LOOK = 5
MOST_DAYS = 45.0  # what comes due later is winter's
LEAST_SAID, MOST_SAID = 0.5, float(AHEAD_DAYS)
GOAL, RANGE_LOW, RANGE_HIGH = 0.85, 0.75, 0.85
BESIDE = "last rate"
BY_PHONE = f"every {EVERY}th cut, by the call that phones make, said in whole days"


@dataclass(frozen=True)
class Row:
    """What one way said after one cut, and what came."""

    place: str
    method: str
    looks: int
    said: Said
    true: float
    asked: bool = False  # whether the phones were asked at this cut too

    @property
    def off(self) -> float:
        """Logarithm of said over true days."""
        return math.log(min(MOST_SAID, max(LEAST_SAID, self.said.mid)) / self.true)

    @property
    def held(self) -> bool | None:
        """Whether the range held; None where none was given."""
        if self.said.low is None or self.said.high is None:
            return None
        return self.said.low <= self.true <= self.said.high


@dataclass(frozen=True)
class Found:
    """A way's figures over some cuts."""

    count: int
    off: float
    bias: float
    held: float | None


def found(rows: list[Row]) -> Found:
    """Mean |log|, mean log, and how often the range held."""
    held = [row.held for row in rows if row.held is not None]
    count = len(rows)
    return Found(
        count,
        sum(abs(row.off) for row in rows) / count,
        sum(row.off for row in rows) / count,
        sum(held) / len(held) if held else None,
    )


@dataclass(frozen=True)
class Report:
    """What a run found."""

    lawns: int
    seed: int
    tables: dict[tuple[str, str], dict[str, Found]]
    soil: list[warmth.Soil]

    @property
    def ratio(self) -> float:
        """Our error over the last rate's, from the fifth look on."""
        table = self.tables["all places", _later()]
        return table["ours"].off / table[BESIDE].off

    @property
    def held(self) -> float:
        """How often our range held then."""
        return self.tables["all places", _later()]["ours"].held or 0.0

    def plain(self) -> list[dict[str, Any]]:
        """As JSON takes it."""
        rows: list[dict[str, Any]] = [
            {"part": "mowing", "place": place, "looks": looks, "method": method, **one.__dict__}
            for (place, looks), table in self.tables.items()
            for method, one in table.items()
        ]
        return rows + [{"part": "mowing", **one.__dict__} for one in self.soil]

    def _by_phone(self) -> Iterator[str]:
        table = self.tables.get(("all places", BY_PHONE), {})
        for name, one in table.items():
            if name.startswith(PHONE):
                yield f"{name}: {one.off / table[BESIDE].off:.3f} of the {BESIDE}'s, held {one.held or 0.0:.1%}"

    def text(self) -> str:
        """As a person reads it."""
        lines = [
            f"mowing: {self.lawns} invented lawns at each place, seeds from {self.seed:,}; weather of packages",
            "off = mean |log(days said / days true)|; bias = the same with its sign; held = within the 80 % range",
        ]
        for (place, looks), table in self.tables.items():
            lines += ["", f"{place}, {looks}", *_table(table)]
        lines += ["", f"goal: off at most {GOAL} of the {BESIDE}'s from look {FROM_LOOK} on: {self.ratio:.3f}"]
        lines += [f"goal: held {RANGE_LOW:.0%} to {RANGE_HIGH:.0%}: {self.held:.1%}"]
        lines += [*self._by_phone(), "", *warmth.lines(self.soil)]
        return "\n".join(lines)


def measure(say: Callable[[str], None], households: int = LAWNS, seed: int = SEED) -> Report:
    """Live every lawn and add it up."""
    rows: list[Row] = []
    for place in (SEATTLE, GREENSBORO):
        for number in range(seed, seed + households):
            rows += live(place, number)
        say(f"mowing: {place} done, {len(rows)} answers")
    return Report(households, seed, dict(_tables(rows)), warmth.measure())


def live(place: str, seed: int, few: bool = False) -> list[Row]:
    """One lawn at one place: what each way said after each cut."""
    on, weather = lawn(seed), days(place)
    grown = grow(on, weather)
    ways: dict[str, Method] = methods(on, weather, grown, few)
    ways.update({} if few else phones(on, place, weather, grown))
    done = cuts(on, grown, weather)
    rows = []
    for looks, cut in enumerate(done):
        if looks:
            for way in ways.values():
                way.seen(done[looks - 1], cut)
        true = true_days(on, grown, cut)
        if true is None or not 0.0 < true <= MOST_DAYS or cut.at + AHEAD_DAYS > len(weather):
            continue
        ahead = forecast(place, cut.at, seed)
        asked = looks >= FROM_LOOK and looks % EVERY == 0
        for name, way in ways.items():
            said = way.due(cut, ahead) if asked or not name.startswith(PHONE) else None
            if said is not None:
                rows.append(Row(place, name, looks, said, true, asked))
    return rows


def _tables(every: list[Row]) -> Iterator[tuple[tuple[str, str], dict[str, Found]]]:
    rows = [row for row in every if not row.method.startswith(PHONE)]
    yield ("all places", "looks 1 to 4"), _by_method([row for row in rows if 1 <= row.looks < FROM_LOOK])
    later = [row for row in rows if row.looks >= FROM_LOOK]
    yield ("all places", _later()), _by_method(later)
    for place in (SEATTLE, GREENSBORO):
        yield (place, _later()), _by_method([row for row in later if row.place == place])
    asked = [row for row in every if row.asked]
    if any(row.method.startswith(PHONE) for row in asked):
        yield ("all places", BY_PHONE), _by_method(asked)


def _later() -> str:
    return f"from look {FROM_LOOK} on"


def _by_method(rows: list[Row]) -> dict[str, Found]:
    names = list(dict.fromkeys(row.method for row in rows))
    return {name: found([row for row in rows if row.method == name]) for name in names}


def _table(table: dict[str, Found]) -> Iterator[str]:
    yield f"  {'':32}{'off':>8}{'/last':>8}{'bias':>8}{'held':>8}{'n':>8}"
    for name, one in table.items():
        held = "–" if one.held is None else f"{one.held:.1%}"
        beside = one.off / table[BESIDE].off
        yield f"  {name:32}{one.off:>8.3f}{beside:>8.3f}{one.bias:>+8.3f}{held:>8}{one.count:>8}"
