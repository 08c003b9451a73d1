"""What the bench writes down: figures with their spread, each beside what it is held against."""

import math
import statistics
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any


@dataclass(frozen=True)
class Figure:
    """One line of the table, all in `unit`: its own runs, and the median and the least of what stands beside it."""

    part: str
    what: str
    unit: str
    low: float
    median: float
    high: float
    against: str
    beside: float
    beside_low: float
    runs: int

    @property
    def ratio(self) -> float:
        """How many times what stands beside it, by the medians."""
        return self.median / self.beside if self.beside else float("nan")

    @property
    def at_best(self) -> float:
        """The same by the quickest run of each: what else a machine does only ever slows."""
        return self.low / self.beside_low if self.beside_low else float("nan")

    def plain(self) -> dict[str, Any]:
        """As JSON takes it."""
        return {**asdict(self), "ratio": self.ratio, "at_best": self.at_best}


def timed(part: str, what: str, unit: str, mine: Sequence[float], against: str, other: Sequence[float]) -> Figure:
    """Runs of one thing beside runs of another: their medians and their quickest."""
    beside = statistics.median(other)
    return Figure(
        part, what, unit, min(mine), statistics.median(mine), max(mine), against, beside, min(other), len(mine)
    )


def sized(part: str, what: str, size: float, against: str, beside: float) -> Figure:
    """A size in kB, the same at every run."""
    return Figure(part, what, "kB", size, size, size, against, beside, beside, 1)


HEADS = ("what", "min", "median", "max", "unit", "beside", "", "ratio", "at best")


def table(figures: Sequence[Figure]) -> str:
    """The figures as lined-up text, one block a part."""
    cells = [HEADS, *(_cells(figure) for figure in figures)]
    widths = [max(len(row[at]) for row in cells) for at in range(len(HEADS))]
    lines = [_line(HEADS, widths)]
    part = ""
    for figure, row in zip(figures, cells[1:], strict=True):
        if figure.part != part:
            part = figure.part
            lines += ["", part]
        lines.append(_line(row, widths))
    return "\n".join(lines)


def _cells(figure: Figure) -> tuple[str, ...]:
    numbers = [_number(value) for value in (figure.low, figure.median, figure.high)]
    beside = _number(figure.beside)
    return (
        figure.what,
        *numbers,
        figure.unit,
        figure.against,
        beside,
        _times(figure.ratio),
        _times(figure.at_best),
    )


def _number(value: float) -> str:
    return f"{value:.3f}" if abs(value) < 1 else f"{value:.1f}"


def _times(ratio: float) -> str:
    return "–" if math.isnan(ratio) else f"{ratio:.2f}×"


_TO_THE_LEFT = (0, 4, 5)


def _line(row: Sequence[str], widths: Sequence[int]) -> str:
    parts = [
        cell.ljust(w) if at in _TO_THE_LEFT else cell.rjust(w)
        for at, (cell, w) in enumerate(zip(row, widths, strict=True))
    ]
    return ("  " + "  ".join(parts)).rstrip()
