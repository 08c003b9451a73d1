"""HiGHS asked for the cheapest values of a model's columns: with a time limit, a start, progress and a way to stop."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import highspy

Json = dict[str, Any]
Told = Callable[[float, float, float], bool]
GAP_SHARE = 0.01
SECONDS = 30.0


@dataclass(frozen=True)
class Solved:
    """What came out: "best" within the gap asked for, "stopped" with a plan, "blocked" where none can be, or "none"."""

    state: str
    values: list[float]
    cost: float | None
    bound: float | None
    seconds: float


def solve(
    model: Json,
    start: list[float] | None = None,
    *,
    seconds: float = SECONDS,
    gap_share: float = GAP_SHARE,
    told: Told | None = None,
) -> Solved:
    """Solve a model; `told` hears seconds, best cost and bound now and then, and stops it by answering false."""
    if not model["columns"]:
        return Solved("best", [], 0.0, 0.0, 0.0)
    found = _asked(model, start, seconds, gap_share, told)
    if start and found.values and not _agrees(model, found):
        # Seen in HiGHS 1.16: a start carried into the presolved model can be given a cost it does not have there, and
        # what costs more than that is then never looked at. Its values tell: they do not cost what is claimed.
        found = _asked(model, None, max(1.0, seconds - found.seconds), gap_share, told)
    return _better(model, start, found)


def cost_of(model: Json, values: list[float]) -> float:
    """What values of the columns cost."""
    return math.fsum(value * one["cost"] for value, one in zip(values, model["columns"], strict=True))


def _asked(model: Json, start: list[float] | None, seconds: float, gap_share: float, told: Told | None) -> Solved:
    highs = loaded(model)
    highs.setOptionValue("time_limit", seconds)
    highs.setOptionValue("mip_rel_gap", gap_share)
    highs.setOptionValue("mip_abs_gap", 1e-7)
    if start:
        highs.setSolution(_solution(start))
    if told is not None:
        highs.cbMipInterrupt.subscribe(lambda event: _heard(event, told))
    highs.run()
    return _found(highs)


def _agrees(model: Json, found: Solved) -> bool:
    return math.isclose(cost_of(model, found.values), found.cost or 0.0, rel_tol=1e-6, abs_tol=1e-6)


def _better(model: Json, start: list[float] | None, found: Solved) -> Solved:
    """The start where the solver was stopped before it had anything better; a start that breaks a rule is none."""
    if not start or found.state not in ("none", "stopped") or not keeps(model, start):
        return found
    if found.values and found.cost is not None and found.cost <= cost_of(model, start):
        return found
    return Solved("stopped", list(start), cost_of(model, start), found.bound, found.seconds)


def keeps(model: Json, values: list[float]) -> bool:
    """Whether values keep every row."""
    for row in model["rows"]:
        found = math.fsum(factor * values[int(at)] for at, factor in row["terms"])
        slack = 1e-6 * max(1.0, abs(found))
        if row["low"] is not None and found < row["low"] - slack:
            return False
        if row["high"] is not None and found > row["high"] + slack:
            return False
    return True


def loaded(model: Json) -> highspy.Highs:
    """The solver with a model in it, silent and on one thread, so that the same question has the same answer."""
    highs = highspy.Highs()
    highs.setOptionValue("output_flag", False)
    highs.setOptionValue("log_to_console", False)
    highs.setOptionValue("threads", 1)
    columns, rows = model["columns"], model["rows"]
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(columns), len(rows)
    lp.col_cost_ = [float(one["cost"]) for one in columns]
    lp.col_lower_ = [float(one["low"]) for one in columns]
    lp.col_upper_ = [float(one["high"]) for one in columns]
    lp.integrality_ = [
        highspy.HighsVarType.kInteger if one["integer"] else highspy.HighsVarType.kContinuous for one in columns
    ]
    lp.row_lower_ = [-highspy.kHighsInf if one["low"] is None else float(one["low"]) for one in rows]
    lp.row_upper_ = [highspy.kHighsInf if one["high"] is None else float(one["high"]) for one in rows]
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    starts, indices, values = [0], [], []
    for row in rows:
        indices += [int(at) for at, _ in row["terms"]]
        values += [float(factor) for _, factor in row["terms"]]
        starts.append(len(indices))
    lp.a_matrix_.start_, lp.a_matrix_.index_, lp.a_matrix_.value_ = starts, indices, values
    highs.passModel(lp)
    return highs


def _solution(values: list[float]) -> highspy.HighsSolution:
    solution = highspy.HighsSolution()
    solution.col_value = list(values)
    return solution


def _heard(event: Any, told: Told) -> None:
    """Pass progress on; what `told` answers decides whether the search goes on."""
    out = event.data_out
    if not told(out.running_time, out.mip_primal_bound, out.mip_dual_bound):
        event.data_in.user_interrupt = True


def _found(highs: highspy.Highs) -> Solved:
    info, status = highs.getInfo(), highs.getModelStatus()
    names = highspy.HighsModelStatus
    if status in (names.kInfeasible, names.kUnboundedOrInfeasible):
        return Solved("blocked", [], None, None, highs.getRunTime())
    if info.primal_solution_status != int(highspy.SolutionStatus.kSolutionStatusFeasible):
        return Solved("none", [], None, float(info.mip_dual_bound), highs.getRunTime())
    state = "best" if status == names.kOptimal else "stopped"
    values = [float(one) for one in highs.getSolution().col_value]
    bound = float(info.mip_dual_bound)
    return Solved(state, values, float(info.objective_function_value), bound, highs.getRunTime())
