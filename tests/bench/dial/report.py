"""The run as text: a table for each truth and way of walking, then each limit beside what was found."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from tests.bench.dial.applying import Way
from tests.bench.dial.households import APPLICATIONS, TRUTHS
from tests.bench.dial.ours import ASKED
from tests.bench.dial.run import METHODS, PROTOCOLS, Row, Setting, walk_all
from tests.bench.dial.shown import Shown, shown
from tests.bench.dial.tally import Tally, later, tally

HOUSEHOLDS = 2_000
SEED = 50_000  # the model's tunables were chosen on seeds below 2,000
CHECK_AFTER = 0.5
MIXED = 0.5  # part of a pass's variance common to its length, in the runs where it is not the whole
HEADS = ("mean", "p90", "early", ">2 %", ">5 %", ">10 %", "bare", "inside", "all")
LEGEND = """\
mean, p90   mean error of the finished application, and what nine in ten do not exceed: the mean over the ground of
            |put down - target| / target, a stripe left bare included
early       applications whose load was gone in a pass that was not the last
>2 5 10 %   applications whose last pass ran out with more than so much of the ground still to walk
bare        ground that got nothing at all
inside, all clean passes, and all passes, that fell inside the 90 % interval given for them
known       applications 2 to 5 together; new: another product on the spreader, its first application"""
Grouped = dict[tuple[str, str], Tally]


@dataclass(frozen=True)
class Report:
    """What a run found."""

    households: int
    seed: int
    tables: dict[Setting, Grouped]
    limits: list[Shown]

    def plain(self) -> list[dict[str, Any]]:
        """As JSON takes it."""
        rows: list[dict[str, Any]] = [
            {"part": "dial", **_about(setting), "method": method, "application": label, **asdict(found)}
            for setting, table in self.tables.items()
            for (method, label), found in table.items()
        ]
        return rows + [{"part": "dial", **asdict(one), "met": one.met, "judged": one.judged} for one in self.limits]

    def text(self) -> str:
        """As a person reads it."""
        lines = [
            f"dial: {self.households:,} households inside the model, as many outside it, seeds from {self.seed:,}",
            f"ours = {ASKED}",
            "",
            LEGEND,
        ]
        for setting, table in self.tables.items():
            lines += ["", *_table(setting, table)]
        return "\n".join([*lines, "", "Limits (issue 3, Shown by 1)", *map(_limit, self.limits)])


def settings(households: int) -> Iterator[tuple[Setting, int]]:
    """Every truth and way of walking, and how many households go through it."""
    for kind in TRUTHS:
        count = households if kind == "model" else max(1, households // 2)
        for protocol in PROTOCOLS:
            for check in (0.0, CHECK_AFTER):
                yield Setting(kind, protocol, Way(1, check)), count
    for protocol in PROTOCOLS:
        yield Setting("model", protocol, Way(1, 0.0, shared=MIXED), ("oracle",)), max(1, households // 4)
        yield Setting("model", protocol, Way(1, CHECK_AFTER, shared=MIXED), ("oracle", "ours")), max(1, households // 4)


def measure(say: Callable[[str], None], households: int = HOUSEHOLDS, seed: int = SEED) -> Report:
    """Walk everything and add it up."""
    rows = walk_all(list(settings(households)), seed, say)
    return report_of(rows, households, seed)


def report_of(rows: Sequence[Row], households: int, seed: int) -> Report:
    """The report of rows walked."""
    by_setting: dict[Setting, list[Row]] = {}
    for row in rows:
        by_setting.setdefault(row.setting, []).append(row)
    tables = {setting: _grouped(setting, part) for setting, part in by_setting.items()}
    return Report(households, seed, tables, shown(rows))


def _grouped(setting: Setting, rows: Sequence[Row]) -> Grouped:
    found: Grouped = {}
    for method in METHODS:
        mine = [row for row in rows if row.method == method]
        for label, part in _applications(mine):
            if part:
                found[method, label] = tally(part)
    return found


def _applications(rows: Sequence[Row]) -> Iterator[tuple[str, list[Row]]]:
    for number in (1, 2, 3, APPLICATIONS):
        yield str(number), [row for row in rows if row.application == number]
    yield "known", [row for row in rows if later(row)]
    yield "new", [row for row in rows if row.application > APPLICATIONS]


def _about(setting: Setting) -> dict[str, Any]:
    way = setting.way
    return {"truth": setting.kind, "passes": PROTOCOLS[setting.protocol], "check": way.check, "shared": way.shared}


def _table(setting: Setting, table: Grouped) -> Iterator[str]:
    checked = "one check halfway through each pass" if setting.way.check else "no checks"
    mixed = "" if setting.way.shared == 1.0 else f", {setting.way.shared:.0%} of a pass's variance common to its length"
    yield f"{setting.kind} ({TRUTHS[setting.kind]})"
    yield f"  {PROTOCOLS[setting.protocol]}, {checked}{mixed}"
    yield "  " + f"{'':14}{'':>6}" + "".join(f"{head:>8}" for head in HEADS) + f"{'/oracle':>9}{'n':>8}"
    for (method, label), found in table.items():
        beside = table["oracle", label].mean
        cells = "".join(map(_cell, _figures(found)))
        yield f"  {method:14}{label:>6}{cells}{found.mean / beside:>9.3f}{found.count:>8}"


def _figures(found: Tally) -> tuple[float, ...]:
    runs_out = (found.early, found.short2, found.short5, found.short10, found.bare)
    return (found.mean, found.p90, *runs_out, found.inside, found.inside_all)


def _cell(value: float) -> str:
    return f"{value:8.1f}" if value == value else f"{'–':>8}"


def _limit(one: Shown) -> str:
    limit = f"{one.low:g} to {one.high:g}" if one.low > 0.0 and one.high < 100.0 else _one_sided(one)
    spread = f" ± {one.spread:.3f}" if one.spread else ""
    value = f"{one.value:.3f}" if one.unit == "×" else f"{one.value:.1f}"
    return f"  {one.judged:6}  {value}{spread} {one.unit}  (limit {limit})  {one.what}"


def _one_sided(one: Shown) -> str:
    return f"at least {one.low:g}" if one.low > 0.0 else f"at most {one.high:g}"
