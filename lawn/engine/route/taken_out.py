"""Ground that gets no more: how much of each row lies on rows of an earlier pass that were taken out."""

from lawn.engine.core.numeric import group, listing, number, text
from lawn.engine.ground.outline import line_of

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

MOST_OUT = 1000
# Lines along a row, in swaths beside its middle, by which its ground is looked at: quarters of its width.
BESIDE = (-0.375, -0.125, 0.125, 0.375)


def out_rows(value: object) -> "list[dict[str, Any]]":
    """Read the rows taken out."""
    found = []
    for at, item in enumerate(listing("out", value, 0, MOST_OUT) if value is not None else []):
        path = "out[" + str(at) + "]"
        row = group(path, item, ("zone_id", "points_m", "from_m2", "to_m2"))
        corners = row.get("points_m")
        found.append(
            {
                "zone_id": text(path + ".zone_id", row.get("zone_id")),
                "points_m": None if corners is None else line_of(path + ".points_m", corners),
                "from_m2": number(path + ".from_m2", row.get("from_m2")),
                "to_m2": number(path + ".to_m2", row.get("to_m2")),
            }
        )
    return found


def out_share(row: "dict[str, Any]", before_m2: float, out: "list[dict[str, Any]]", swath_m: float) -> float:
    """Share of a row's ground that gets no more.

    Args:
        row: a row of a tour, walked_m2 in it [group of values]
        before_m2: ground walked over before it [m2; 0 to 6000000]
        out: rows taken out, as out_rows reads them [list]
        swath_m: distance between tracks [m; 0.2 to 20]
    Returns:
        share: by where both rows lie; where either has no corners, by the ground walked over before them [share]
    Source: definition
    """
    here = [one for one in out if one["zone_id"] == row["zone_id"]]
    if not here:
        return 0.0
    placed = row["points_m"] is not None
    bands = [one["points_m"] for one in here if placed and one["points_m"] is not None]
    long_m2 = row["walked_m2"] - before_m2
    in_order = [
        ((one["from_m2"] - before_m2) / long_m2, (one["to_m2"] - before_m2) / long_m2)
        for one in here
        if long_m2 > 0.0 and (not placed or one["points_m"] is None)
    ]
    return max(_joined(in_order), _inside(row["points_m"], bands, swath_m) if bands else 0.0)


def _inside(line: "list[list[float]]", bands: "list[list[tuple[float, float]]]", swath_m: float) -> float:
    """Share of a line, looked at across its width, that lies within half a swath of the lines taken out."""
    sides = _sides(bands, swath_m / 2.0)
    length = inside = 0.0
    for at in range(len(line) - 1):
        (x1, y1), (x2, y2) = line[at], line[at + 1]
        dx, dy = x2 - x1, y2 - y1
        long_m = (dx * dx + dy * dy) ** 0.5
        if long_m <= 0.0:
            continue
        length += long_m
        for beside in BESIDE:
            off = beside * swath_m / long_m
            start = (x1 - dy * off, y1 + dx * off)
            inside += long_m / len(BESIDE) * _joined([_clip(start, dx, dy, side) for side in sides])
    return inside / length if length > 0.0 else 0.0


def _sides(bands: "list[list[tuple[float, float]]]", half_m: float) -> "list[tuple[float, ...]]":
    """Every side of the lines as a rectangle: start, direction, length, how far it runs on at a corner, half width."""
    found: list[tuple[float, ...]] = []
    for band in bands:
        ring = band[0] == band[-1]
        for at in range(len(band) - 1):
            (x1, y1), (x2, y2) = band[at], band[at + 1]
            long_m = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
            if long_m > 0.0:
                before = half_m if ring or at > 0 else 0.0
                after = half_m if ring or at < len(band) - 2 else 0.0
                found.append((x1, y1, (x2 - x1) / long_m, (y2 - y1) / long_m, -before, long_m + after, half_m))
    return found


def _clip(start: tuple[float, float], dx: float, dy: float, side: "tuple[float, ...]") -> tuple[float, float]:
    """From where to where, in shares of the way, a line runs within a rectangle; an empty stretch where it does not."""
    x, y, ux, uy, low, high, half_m = side
    px, py = start[0] - x, start[1] - y
    along = _slab(px * ux + py * uy, dx * ux + dy * uy, low, high)
    across = _slab(py * ux - px * uy, dy * ux - dx * uy, -half_m, half_m)
    return max(along[0], across[0]), min(along[1], across[1])


def _slab(at: float, by: float, low: float, high: float) -> tuple[float, float]:
    """From where to where a value that begins at one place and changes by so much lies between two others."""
    if abs(by) < 1e-12:
        return (0.0, 1.0) if low <= at <= high else (1.0, 0.0)
    first, last = (low - at) / by, (high - at) / by
    return (first, last) if first <= last else (last, first)


def _joined(stretches: "list[tuple[float, float]]") -> float:
    """Length of stretches laid together, as far as they lie between 0 and 1."""
    length = reached = 0.0
    for low, high in sorted(stretches):
        start, end = max(low, reached), min(high, 1.0)
        if end > start:
            length += end - start
            reached = end
    return length
