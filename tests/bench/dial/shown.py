"""The limits that the dial is held to, each beside what a run of the bench found."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from tests.bench.dial.households import APPLICATIONS
from tests.bench.dial.run import ADVISED, FIRST_MEETING, KNOWN, PROTOCOLS, Row
from tests.bench.dial.tally import later, tally

TWO_PASS_RATIO, THREE_PASS_RATIO, CHECKED_RATIO = 1.15, 1.10, 1.0
FIRST_MEAN, EARLY = 12.0, 2.0
COVER_LOW, COVER_HIGH, COVER_OUTSIDE = 87.0, 95.0, 82.0
# Standard errors within which a ratio may lie beyond its limit by the draw of the households alone (19 times in 20).
CHANCE_SDS = 2.0
GROUPS = {"model": ("model",), "port shapes": ("shapes", "ports")}


@dataclass(frozen=True)
class Shown:
    """A figure beside its limit."""

    what: str
    value: float
    spread: float  # standard error of a ratio, by households; 0 where none is given
    low: float
    high: float
    unit: str

    @property
    def met(self) -> bool:
        """Whether it is within its limit."""
        return self.low <= self.value <= self.high

    @property
    def judged(self) -> str:
        """Met, MISSED, or open: over its limit by less than chance can do with so few households."""
        if self.met:
            return "met"
        beyond = max(self.low - self.value, self.value - self.high)
        return "open" if beyond < CHANCE_SDS * self.spread else "MISSED"


@dataclass(frozen=True)
class Group:
    """The rows of some truths."""

    name: str
    rows: Sequence[Row]

    def of(self, method: str, protocol: int, *, check: bool, shared: float = 1.0) -> list[Row]:
        """The rows of a method under a protocol, with or without the check."""
        return [
            row
            for row in self.rows
            if row.method == method
            and row.setting.protocol == protocol
            and bool(row.setting.way.check) == check
            and row.setting.way.shared == shared
        ]


def shown(rows: Sequence[Row]) -> list[Shown]:
    """Every limit for which the run has figures."""
    found: list[Shown] = []
    for name, kinds in GROUPS.items():
        group = Group(name, [row for row in rows if row.setting.kind in kinds])
        if group.rows:
            found += [*_ratios(group), *_checked(group), *_first(group), *_early(group), *_covered(group)]
    return found


def _ratios(group: Group) -> Iterator[Shown]:
    limits = ((ADVISED, TWO_PASS_RATIO), (KNOWN, TWO_PASS_RATIO), (FIRST_MEETING, THREE_PASS_RATIO))
    for protocol, limit in limits:
        what = "known pairs, ours over the oracle"
        if protocol == ADVISED:
            what += ", two passes after a first meeting in three"
        else:
            what += f", {PROTOCOLS[protocol]}" + (" from the first meeting on" if protocol == KNOWN else "")
        mine, other = group.of("ours", protocol, check=False), group.of("oracle", protocol, check=False)
        if mine and other:
            value, spread = ratio(mine, other)
            yield Shown(f"{group.name}: {what}", value, spread, 0.0, limit, "×")


def _checked(group: Group) -> Iterator[Shown]:
    for protocol in (ADVISED, KNOWN, FIRST_MEETING):
        for shared in sorted({row.setting.way.shared for row in group.rows}, reverse=True):
            mine = group.of("ours", protocol, check=True, shared=shared)
            other = group.of("oracle", protocol, check=False, shared=shared)
            if mine and other:
                what = f"known pairs, ours with a check over the oracle without, {PROTOCOLS[protocol]}"
                value, spread = ratio(mine, other)
                noise = "" if shared == 1.0 else f" (half a pass's variance its parts' own: {shared:.1f})"
                yield Shown(f"{group.name}: {what}{noise}", value, spread, 0.0, CHECKED_RATIO, "×")


def _first(group: Group) -> Iterator[Shown]:
    firsts = [row for row in group.of("ours", FIRST_MEETING, check=False) if row.application == 1]
    for kind in sorted({row.setting.kind for row in firsts}):
        found = tally([row for row in firsts if row.setting.kind == kind])
        yield Shown(f"{kind}: first application in three passes, mean error", found.mean, 0.0, 0.0, FIRST_MEAN, "%")


def _early(group: Group) -> Iterator[Shown]:
    for name, rows in _unchecked(group):
        for what, part in (("known pairs", filter(later, rows)), ("new product", _others(rows))):
            found = tally(list(part))
            yield Shown(f"{group.name}: hopper empty early, {what}, {name}", found.early, 0.0, 0.0, EARLY, "%")


def _unchecked(group: Group) -> Iterator[tuple[str, list[Row]]]:
    """Ours without checks, by each number of passes that was walked."""
    found = ((name, group.of("ours", protocol, check=False)) for protocol, name in PROTOCOLS.items())
    return (one for one in found if one[1])


def _others(rows: Iterable[Row]) -> Iterator[Row]:
    return (row for row in rows if row.application == APPLICATIONS + 1)


def _covered(group: Group) -> Iterator[Shown]:
    low, high = (COVER_LOW, COVER_HIGH) if group.name == "model" else (COVER_OUTSIDE, 100.0)
    for name, rows in _unchecked(group):
        for what, part in (("known pairs", filter(later, rows)), ("all applications", iter(rows))):
            found = tally(list(part))
            what = f"90 % intervals, clean passes, {what}, {name}"
            yield Shown(f"{group.name}: {what}", found.inside, 0.0, low, high, "%")


def ratio(mine: Sequence[Row], other: Sequence[Row]) -> tuple[float, float]:
    """Mean error of known pairs over another's, and its standard error over households (NaN for none)."""
    pairs = list(zip(filter(later, mine), filter(later, other), strict=True))
    if not pairs:
        return math.nan, math.nan
    beside = sum(row.done.error for _, row in pairs) / len(pairs)
    found = sum(row.done.error for row, _ in pairs) / len(pairs) / beside
    of_one = [row.done.error - found * against.done.error for row, against in pairs]
    each = APPLICATIONS - 1
    homes = [sum(of_one[at : at + each]) / each for at in range(0, len(of_one), each)]
    spread = math.sqrt(sum(one * one for one in homes)) / len(homes) / beside
    return found, spread
