"""Rows for places the headers and strips miss: verges narrower than a swath, spikes, slivers.

Missed ground is taken as small samples. Edge by edge, the longest first, the samples within a swath of the edge
become one straight row down their middle where they lie in a run; whatever is left is taken along the heading.
"""

import math

from lawn.engine.core.numeric import total
from lawn.engine.route.frame import edge, edges_of

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time
    from lawn.engine.route.coverage import Missed
    from lawn.engine.route.frame import Edge, Ring

    Sample = tuple[float, float, float]  # u, v, area

ENOUGH = 0.008  # share of the ground that may stay missed
LEAST = 0.0004  # share of the ground that is worth a row
STEP = 0.25  # of a swath: how far samples lie apart
MOST_SAMPLES = 1500


def fill(rings: "list[Ring]", missed: "list[Missed]", area: float, swath: float) -> "list[Ring]":
    """Rows over missed ground, in the same frame."""
    step = STEP * swath
    length = total([high - low for _, _, low, high in missed])
    samples = _samples(missed, max(step, length / MOST_SAMPLES))
    rows: list[Ring] = []
    edges = sorted(edges_of(rings), key=_longest_first)
    for one in edges:
        if total([sample[2] for sample in samples]) <= ENOUGH * area:
            return rows
        samples = _along(one, samples, swath, LEAST * area, rows)
    while total([sample[2] for sample in samples]) > ENOUGH * area:
        samples = _along(_beside_leftmost(samples), samples, swath, 0.0, rows)
    return rows


def _longest_first(one: "Edge") -> tuple[float, float, float]:
    return (-one[6], one[0], one[1])


def _samples(missed: "list[Missed]", step: float) -> "list[Sample]":
    found = []
    for u, width, low, high in missed:
        count = math.ceil((high - low) / step - 1e-9)
        for at in range(count):
            found.append((u, low + (at + 0.5) * (high - low) / count, width * (high - low) / count))
    return found


def _along(one: "Edge", samples: "list[Sample]", swath: float, least: float, rows: "list[Ring]") -> "list[Sample]":
    """Add rows for the runs of samples beside an edge; return the samples that are left."""
    ax, ay, _, _, ex, ey, length = one
    beside, rest = [], []
    for at in range(len(samples)):
        u, v, _ = samples[at]
        along = (u - ax) * ex + (v - ay) * ey
        off = (v - ay) * ex - (u - ax) * ey
        if -1e-9 <= off <= swath and -0.5 * swath <= along <= length + 0.5 * swath:
            beside.append((along, at))
        else:
            rest.append(samples[at])
    beside.sort()
    run: list[Sample] = []
    before = 0.0
    for along, at in beside + [(1e18, -1)]:
        if run and along - before > swath:
            rest += _taken(run, (ex, ey), swath, least, rows)
            run = []
        if at >= 0:
            run.append(samples[at])
        before = along
    return rest


def _taken(
    run: "list[Sample]", way: tuple[float, float], swath: float, least: float, rows: "list[Ring]"
) -> "list[Sample]":
    """Lay a row over a run of samples: down their middle where they are straight enough, else along the edge."""
    if total([sample[2] for sample in run]) < least:
        return run
    half = 0.5 * swath
    fitted = _fitted(run, way)
    if fitted is None or fitted[3] - fitted[2] > swath:
        fitted = _spread(run, way)
    (ex, ey), (start, end), low, high = fitted
    middle = 0.5 * (low + high)
    # Half a sample further at both ends, but never more than half a swath from the outermost samples.
    spare = max(0.0, half * half - 0.25 * (high - low) * (high - low))
    more = min(0.5 * STEP * swath, 0.99 * math.sqrt(spare))
    rows.append([(at * ex - middle * ey, at * ey + middle * ex) for at in (start - more, end + more)])
    return [sample for sample in run if abs(sample[1] * ex - sample[0] * ey - middle) > half * (1.0 + 1e-9)]


def _spread(
    run: "list[Sample]", way: tuple[float, float]
) -> tuple[tuple[float, float], tuple[float, float], float, float]:
    """How far samples reach along a direction and to its left."""
    ex, ey = way
    along = [u * ex + v * ey for u, v, _ in run]
    off = [v * ex - u * ey for u, v, _ in run]
    return way, (min(along), max(along)), min(off), max(off)


def _fitted(
    run: "list[Sample]", way: tuple[float, float]
) -> tuple[tuple[float, float], tuple[float, float], float, float] | None:
    """The same for the straight line that fits the samples best, turned to run like the edge."""
    weight = total([w for _, _, w in run])
    mu = total([u * w for u, _, w in run]) / weight
    mv = total([v * w for _, v, w in run]) / weight
    uu = total([(u - mu) * (u - mu) * w for u, _, w in run])
    vv = total([(v - mv) * (v - mv) * w for _, v, w in run])
    uv = total([(u - mu) * (v - mv) * w for u, v, w in run])
    if (uu - vv) * (uu - vv) + 4.0 * uv * uv < 0.04 * (uu + vv) * (uu + vv):
        return None  # as wide as long: no direction of its own
    angle = 0.5 * math.atan2(2.0 * uv, uu - vv)
    ex, ey = math.cos(angle), math.sin(angle)
    if ex * way[0] + ey * way[1] < 0.0:
        ex, ey = -ex, -ey
    return _spread(run, (ex, ey))


def _beside_leftmost(samples: "list[Sample]") -> "Edge":
    """A line against the heading through the leftmost sample, so that all samples lie to its left."""
    left = min([u for u, _, _ in samples])
    low, high = min([v for _, v, _ in samples]), max([v for _, v, _ in samples])
    return edge(left, high + 1.0, left, low - 1.0)
