"""Draws walks with a phone and traced plans for the parity tests."""

import math
from random import Random
from typing import Any

Json = dict[str, Any]
DEGREE_M = 111320.0  # roughly, along a meridian


def star(s: Random, x: float, y: float, low: float, high: float) -> list[list[float]]:
    """A ring that goes once round a point, so that it never crosses itself."""
    count = s.randint(3, 24)
    angles = [2 * math.pi * (i + s.uniform(0.1, 0.9)) / count for i in range(count)]
    reach = [s.uniform(low, high) for _ in angles]
    return [[x + r * math.cos(a), y + r * math.sin(a)] for r, a in zip(reach, angles, strict=True)]


def fixes(s: Random) -> list[Json]:
    """A spreading job round some ground; written with nine digits, as the two runtimes read those alike."""
    lat, lon = s.uniform(-70, 70), s.uniform(-179, 179)
    wide = DEGREE_M * math.cos(math.radians(lat))
    found = []
    for x, y in star(s, 0, 0, 8, 40):
        fix = {"lat": round(lat + y / DEGREE_M, 9), "lon": round(lon + x / wide, 9)}
        found.append(fix | {"accuracy_m": round(s.uniform(1, 12), 2)})
    return found


def walked(s: Random) -> Json:
    """Arguments of area.gps and area.track."""
    args: Json = {"fixes": fixes(s)}
    return args | ({"worst_accuracy_m": s.uniform(9, 15)} if s.random() < 0.5 else {})


def traced(s: Random) -> Json:
    """Arguments of area.trace; now and then the known distances disagree."""
    known = []
    for _ in range(s.randint(1, 3)):
        x, y, turn, length = s.uniform(0, 900), s.uniform(0, 900), s.uniform(0, 6.28), s.uniform(40, 400)
        row = {"x1": x, "y1": y, "x2": x + length * math.cos(turn), "y2": y + length * math.sin(turn)}
        known.append(row | {"distance_m": length * 0.05 * s.uniform(0.9, 1.1)})
    args: Json = {"points_px": star(s, 500, 500, 200, 450), "known": known}
    more: Json = {
        "holes_px": [star(s, 500, 500, 10, 60)],
        "distance_error_share": s.uniform(0, 0.1),
        "pointing_px": s.uniform(0, 10),
        "north_px_deg": s.uniform(-180, 180),
    }
    return args | {key: value for key, value in more.items() if s.random() < 0.5}
