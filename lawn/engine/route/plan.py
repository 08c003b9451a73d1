"""One zone's walk, laid out: header strips, strips, rows for narrow places, their order and how they cover."""

from lawn.engine.core.errors import EngineError, impossible
from lawn.engine.core.numeric import total
from lawn.engine.route.coverage import cover
from lawn.engine.route.frame import direction, edges_of, framed, ground_of, heading, length_of, shifted, unframed
from lawn.engine.route.headers import inset
from lawn.engine.route.keep_clear import area_of, bands_of, cut_off, edges_at_water, left_or_raise
from lawn.engine.route.narrow_places import ENOUGH, fill
from lawn.engine.route.order import in_order, moves_of
from lawn.engine.route.strips import best_direction, centres, strips

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time
    from lawn.engine.route.frame import Ring
    from lawn.engine.route.keep_clear import Band

MOST_ROWS = 600  # about a second on a phone
ROUNDS = 3
SHORTEST_HEADER = 0.25  # of a swath
# A peaked throw that reaches the next track: past half a swath lies an eighth of it (a triangle: common practice).
OVER_EDGE = 0.125
PATTERNS = ("plain", "offset", "crossed")


class Plan:
    """Rows of one zone in its own x and y, headers first, with lengths and the shares of ground they cover."""

    def __init__(
        self,
        area_m2: float,
        heading_deg: float,
        headers: "list[Ring]",
        found: "list[Ring]",
        shares: "tuple[float, float]",
        edge_m: float,
        ground_m: "list[Ring] | None" = None,
    ) -> None:
        self.area_m2 = area_m2
        self.heading_deg = heading_deg
        self.headers = headers
        self.strips = found
        self.covered_share, self.doubled_share = shares
        self.lengths_m = [length_of(row) for row in headers + found]
        self.length_m = total(self.lengths_m)
        self.distance_m = total(self.lengths_m + moves_of(headers + found))
        self.turns = max(0, len(found) - 1)
        self.edge_m = edge_m
        self.ground_m = ground_m  # where some of the zone stays clear of water
        self.over_edge_share = OVER_EDGE * edge_m / self.length_m if edge_m > 0.0 else None

    def done_shares(self) -> list[float]:
        """Share of all rows' length that is walked after each row; 1 after the last."""
        found = []
        done_m = 0.0
        for length_m in self.lengths_m:
            done_m += length_m
            found.append(min(1.0, done_m / self.length_m))
        found[-1] = 1.0
        return found


def lay_out(
    path: str,
    outline_m: object,
    holes_m: object,
    swath_m: float,
    heading_deg: float | None,
    pattern: str,
    headers: int,
    clear: "tuple[object, float] | None" = None,
) -> Plan:
    """Lay out the walk of one zone; path is put before the names of errors.

    clear: the edges at the water, and how far the ground walked stays from them.
    Raises what reading the outline raises, and too_many where the swath is far too narrow for the ground.
    """
    rings, area_m2 = ground_of(path, outline_m, holes_m)
    water = [] if clear is None else edges_at_water(path, outline_m, clear[0])
    if clear is not None:
        rings = left_or_raise(path, rings, water, clear[1])
        area_m2 = area_of(rings)
    x0, y0 = rings[0][0]
    ground_m = rings
    rings = shifted(rings, x0, y0)
    _check_rows(path, rings, swath_m)
    lines = [line for at in range(headers) for line in inset(rings, (at + 0.5) * swath_m)]
    lines = [line for line in lines if length_of(line) > SHORTEST_HEADER * swath_m]
    edge_m = total([length_of(line) for line in inset(rings, 0.5 * swath_m)]) if headers else 0.0
    inner = inset(rings, headers * swath_m) if headers else [ring + ring[:1] for ring in rings]
    along = best_direction(rings, inner, swath_m) if heading_deg is None else direction(heading_deg)
    if pattern == "crossed":
        along = (along[1], -along[0])
    ground = framed(rings, along)
    found = strips(ground, centres(framed(inner, along), swath_m, pattern == "offset"), swath_m, headers)
    shore = framed(shifted([list(one) for one in water], x0, y0), along)
    off = [] if clear is None else bands_of([(line[0], line[1]) for line in shore], clear[1] + 0.5 * swath_m)
    ordered, runs, shares = _covering(ground, framed(lines, along), found, swath_m, headers, off)
    if not ordered and not runs:
        message = "Beyond the setback this ground is nowhere as wide as the swath."
        raise impossible(name=path + "setback_m", value=clear[1] if clear else 0.0, message=message)
    turned = heading(along) if heading_deg is None or pattern == "crossed" else heading_deg
    return Plan(
        area_m2,
        turned,
        [unframed(row, along, x0, y0) for row in ordered],
        [unframed(row, along, x0, y0) for row in runs],
        shares,
        edge_m,
        ground_m if clear is not None else None,
    )


def _covering(
    ground: "list[Ring]",
    lines: "list[Ring]",
    found: "list[tuple[int, float, float, float]]",
    swath: float,
    headers: int,
    off: "list[Band]",
) -> "tuple[list[Ring], list[Ring], tuple[float, float]]":
    """Order the rows and measure them; where headers were asked for, add rows until next to nothing is missed.

    No added row runs in the bands: nearer to water than the setback and half a swath.
    """
    runs = [[(u, low), (u, high)] for _, u, low, high in found]
    area, covered, doubled, missed = cover(ground, lines + runs, swath)
    for _ in range(ROUNDS):
        if not headers or area - covered <= ENOUGH * area:
            break
        more = cut_off(fill(ground, missed, area, swath), off, SHORTEST_HEADER * swath)
        if not more:
            break
        lines = lines + more
        area, covered, doubled, missed = cover(ground, lines + runs, swath)
    ordered, walked = in_order(lines, found)
    return ordered, walked, (min(1.0, covered / area), doubled / area)


def _check_rows(path: str, rings: "list[Ring]", swath_m: float) -> None:
    """Refuse ground that would take more rows than anyone plans at this swath."""
    us = [x for ring in rings for x, _ in ring]
    vs = [y for ring in rings for _, y in ring]
    across = max(max(us) - min(us), max(vs) - min(vs))
    edge_m = total([one[6] for one in edges_of(rings)])
    if across > MOST_ROWS * swath_m or edge_m > 20.0 * MOST_ROWS * swath_m:
        raise EngineError(
            code="out_of_range",
            name="swath_m",
            value=swath_m,
            message="The swath is far too narrow for ground this large; check both.",
            low=across / MOST_ROWS,
            high=20.0,
        )
