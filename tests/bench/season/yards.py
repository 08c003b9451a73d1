"""Large yards of groups that all differ: how soon a plan is proven, beside the plain lot-sizing model and greedy."""

import time
from collections.abc import Callable
from dataclasses import asdict, dataclass
from random import Random
from typing import Any

from lawn.engine.door import call
from lawn.planning.solver import cost_of, solve
from tests.bench.season import big_m
from tests.properties.season.yards import EVEN, LB, TODAY, Json

# Groups, products, weeks, the weeks in which feeds may begin; a gap and the seconds it should be reached in.
SIZES = (
    (3, 4, 36, "half_month", 0.01, 5.0),
    (3, 4, 36, "weekly", 0.01, 5.0),
    (5, 6, 36, "half_month", 0.01, 10.0),
    (5, 6, 36, "weekly", 0.01, 10.0),
    (8, 12, 40, "half_month", 0.03, 30.0),
)
SECONDS = 30.0
ONE_PERCENT = 0.01
TEN_S = 10.0


def yard(groups: int, products: int, weeks: int, grid: str) -> Json:
    """A yard whose groups need different amounts each week, and whose products differ in all."""
    s = Random(f"{groups} {products}")
    ground: list[Any] = [
        {
            "id": f"g{at}",
            "area_m2": s.uniform(60, 400),
            "turf": "cool",
            "n_once_kg_m2": 0.9 * LB,
            "n_quick_once_kg_m2": 0.5 * LB,
            "need_n_kg_m2": [s.uniform(0.05, 0.14) * LB for _ in range(weeks)],
        }
        for at in range(groups)
    ]
    shed: list[Any] = []
    for at in range(products):
        net, price, n = s.uniform(5, 20), s.uniform(20, 50), s.uniform(6, 30)
        row = {"id": f"p{at}", "sort": "fertilizer", "net_kg": net, "price": price, "n_percent": n}
        shed.append({**row, "slow_n_share": s.choice([0, 0.1, 0.3, 0.5, 0.9]), "rate_kg_m2": 90 * LB / n})
    wishes = {"grid": grid, "weeks": weeks}
    return {"groups": ground, "products": shed, "climate": EVEN, "rules": {}, "wishes": wishes, "done": [],
            "locked": [], "today": TODAY}  # fmt: skip


@dataclass(frozen=True)
class Way:
    """How far one model came: its columns, seconds to a gap of 1 %, the gap after 10 s and at the end."""

    columns: int
    near_s: float | None
    ten_gap: float
    gap: float
    cost: float | None
    bound: float | None


@dataclass(frozen=True)
class Row:
    """One yard: ours, the plain model, what greedy's plan costs, and the goal."""

    name: str
    build_s: float
    greedy_cost: float
    ours: Way
    plain: Way
    goal_gap: float
    goal_s: float
    reached_s: float | None


def run(model: Json, start: list[float] | None, seconds: float, goal: float = ONE_PERCENT) -> tuple[Way, float | None]:
    """Solve a model and note when its gap fell to 1 %, and to a goal."""
    heard: list[tuple[float, float]] = []

    def told(at: float, cost: float, bound: float) -> bool:
        heard.append((at, gap_of(cost, bound)))
        return True

    found = solve(model, start, seconds=seconds, gap_share=min(ONE_PERCENT, goal) / 2, told=told)
    gap = gap_of(found.cost, found.bound)
    heard.append((found.seconds, gap))
    ten = min([one for at, one in heard if at <= TEN_S], default=1.0)
    way = Way(len(model["columns"]), _first(heard, ONE_PERCENT), ten, gap, found.cost, found.bound)
    return way, _first(heard, goal)


def gap_of(cost: float | None, bound: float | None) -> float:
    """How much of the cost is not proven to be needed; all of it where nothing is known."""
    if cost is None or bound is None or not 0.0 < cost < 1e30:
        return 1.0
    return max(0.0, (cost - bound) / cost)


def _first(heard: list[tuple[float, float]], goal: float) -> float | None:
    return min((at for at, one in heard if one <= goal), default=None)


def measured(size: tuple[int, int, int, str, float, float], seconds: float = SECONDS) -> Row:
    """One yard by both models, one after the other on the same machine."""
    groups, products, weeks, grid, goal_gap, goal_s = size
    of = yard(groups, products, weeks, grid)
    begun = time.perf_counter()
    built = call("season.build", of)["value"]
    took = time.perf_counter() - begun
    ours, reached = run(built["model"], built["start"], seconds, goal_gap)
    plain, _ = run(big_m.model(of), None, seconds)
    greedy = cost_of(built["model"], built["start"])
    name = f"{groups} × {products} × {weeks}, {grid.replace('_', ' ')}"
    return Row(name, took, greedy, ours, plain, goal_gap, goal_s, None if reached is None else took + reached)


@dataclass(frozen=True)
class Report:
    """The table, and the same as plain values."""

    rows: list[Row]

    def text(self) -> str:
        """Lines for people."""
        lines = ["season: groups × products × weeks; ours beside the plain lot-sizing model (30 s each) and greedy"]
        for row in self.rows:
            lines.append(f"{row.name}: {row.ours.columns} columns, built in {row.build_s:.1f} s")
            lines.append(f"  goal {_percent(row.goal_gap)} in {row.goal_s:.0f} s: {_seconds(row.reached_s)}")
            lines.append(f"  ours: {_way(row.ours)}")
            lines.append(f"  plain: {row.plain.columns} columns, {_way(row.plain)}")
            lines.append(f"  greedy: costs {_beside(row.greedy_cost, row.ours.cost)}")
        return "\n".join(lines)

    def plain(self) -> list[dict[str, Any]]:
        """As JSON takes it."""
        return [{"part": "season", **asdict(row)} for row in self.rows]


def _way(way: Way) -> str:
    return f"1 % after {_seconds(way.near_s)}, gap at 10 s {_percent(way.ten_gap)}, at the end {_percent(way.gap)}"


def _beside(greedy: float, ours: float | None) -> str:
    return "-" if not ours else f"{100 * (greedy / ours - 1):.1f} % more"


def _seconds(at: float | None) -> str:
    return "not reached" if at is None else f"{at:.1f} s"


def _percent(share: float) -> str:
    return f"{100 * share:.1f} %"


def measure(say: Callable[[str], None], households: int = len(SIZES), seed: int = 0) -> Report:
    """The first so many of the sizes, the smallest first; no seed changes them."""
    rows = []
    for size in SIZES[:households]:
        say(f"season: {size[0]} × {size[1]} × {size[2]} {size[3]} …")
        rows.append(measured(size))
    return Report(rows)
