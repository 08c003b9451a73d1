"""How fast granules leave a port of a given shape, by the published orifice law; the model knows no such ports.

W = (4 C / pi) rho sqrt(g) A* sqrt(H*), where a margin of k d / 2 (d the granule's diameter) is taken off the hole all
round, A* is the area left and H* its hydraulic diameter, four areas over the perimeter. For a round hole this is the
law C rho sqrt(g) (D - k d)^2.5 exactly.

Sources: hagen1852 (power 5/2 of the diameter), madrid2017 (k varies by grain, C hardly), chang1991 (flow per area as a
power of hydraulic diameter), jpp1969 (bulk density carries the product); C = 0.58 and k = 1.4 from memory; the form
for any hole is computed. Checked against the reference page's table of port shapes (test_dial_truths.py).
"""

import math

COEFFICIENT = 0.58
MARGIN_GRANULES = 1.4
GRAVITY_M_S2 = 9.81
SHAPES = ("slot", "round", "notch")


def flow_kg_s(
    *, shape: str, opening: float, travel_mm: float, length_mm: float, granule_mm: float, bulk_density_kg_m3: float
) -> float:
    """Mass per second through a port opened to a share of its travel.

    A slot widens along its travel and is `length_mm` long; a round hole as wide as the travel is uncovered by a plate
    with a straight edge; a notch of 90 degrees is opened from its point.
    """
    margin = 0.5 * MARGIN_GRANULES * granule_mm
    area_mm2, across_mm = _left_of_hole(shape, opening * travel_mm, travel_mm, length_mm, margin)
    if area_mm2 <= 0.0 or across_mm <= 0.0:
        return 0.0
    speed = bulk_density_kg_m3 * math.sqrt(GRAVITY_M_S2) * math.sqrt(across_mm * 1e-3)
    return 4.0 * COEFFICIENT / math.pi * speed * area_mm2 * 1e-6


def _left_of_hole(shape: str, depth: float, travel: float, length: float, margin: float) -> tuple[float, float]:
    """Area and hydraulic diameter once the margin is off [mm2, mm]."""
    if shape == "slot":
        return _slot(depth - 2 * margin, length - 2 * margin)
    if shape == "round":
        return _segment(0.5 * travel - margin, depth - 2 * margin)
    return _notch(depth, margin)


def _slot(wide: float, long: float) -> tuple[float, float]:
    if wide <= 0.0 or long <= 0.0:
        return 0.0, 0.0
    return wide * long, 2.0 * wide * long / (wide + long)


def _segment(radius: float, high: float) -> tuple[float, float]:
    """The part of a disc below a straight edge."""
    if radius <= 0.0 or high <= 0.0:
        return 0.0, 0.0
    half = math.acos(max(-1.0, min(1.0, 1.0 - high / radius)))
    area = radius * radius * (half - math.sin(half) * math.cos(half))
    return area, 4.0 * area / (2.0 * radius * (half + math.sin(half)))


def _notch(depth: float, margin: float) -> tuple[float, float]:
    """A right-angled notch; the margin shrinks it about the middle of its inscribed circle."""
    inner = depth * (math.sqrt(2.0) - 1.0)
    if inner <= margin:
        return 0.0, 0.0
    return (depth * (inner - margin) / inner) ** 2, 2.0 * (inner - margin)
