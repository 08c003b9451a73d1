"""The dial against what is known of granules and walkers from outside its own model."""

import math
from typing import Any

import pytest

from lawn.engine.door import call

Json = dict[str, Any]
DIAL = {"lowest": 0, "highest": 100, "step": 1}


def curve(**more: Any) -> Json:
    """The learned curve as the phone asks for it."""
    found: Json = call("spreading.curve", {"dial": DIAL, "product": {"id": "p"}, **more})["value"]
    return found


def learned_rate(now: Json) -> float:
    """What a pass of 2 kg over 100 m2, tracks 2 m apart at 1.2 m/s, comes to for this spreading job."""
    row = {
        "product": "p",
        "dial": 50,
        "area_m2": 100,
        "used_kg": 2,
        "measured": "scale",
        "speed_m_s": 1.2,
        "swath_m": 2,
    }
    return float(curve(history=[row], **({"speed_m_s": 1.2, "swath_m": 2} | now))["past"][0]["rate_kg_m2"])


def test_walking_a_tenth_faster_puts_down_nine_per_cent_less() -> None:
    """Example "walking speed": a tenth faster, 9.09 % less (clemson)."""
    assert 100 * (learned_rate({"speed_m_s": 1.32}) / learned_rate({}) - 1) == pytest.approx(-9.09, abs=0.005)


def test_tracks_a_tenth_closer_put_down_eleven_per_cent_more() -> None:
    """Rate is flow over speed times swath, so passes 10 % closer raise it 11 % (computed from that)."""
    assert 100 * (learned_rate({"swath_m": 1.8}) / learned_rate({}) - 1) == pytest.approx(11.1, abs=0.05)


# How a port's flow grows as it opens, by laws the dial does not hold: an empty margin of 1.4 granules (k from memory),
# then the power 1.5 for a slot (from memory), and for a round hole half uncovered a power of its hydraulic diameter
# (chang1991), which for the whole hole is the 5/2 of hagen1852 and darias2020.
def slot(opening: float, granule_mm: float) -> float:
    """A slot of 25 mm."""
    return float(max(0.0, 25 * opening - 1.4 * granule_mm) ** 1.5)


def uncovered(opening: float, granule_mm: float) -> float:
    """A circle of 25 mm drawn out from behind a plate: area times root of hydraulic diameter, margins taken off."""
    radius, open_mm = 12.5 - 0.7 * granule_mm, 25 * opening - 1.4 * granule_mm
    if open_mm <= 0:
        return 0.0
    half = math.acos(max(-1.0, 1 - min(open_mm, 2 * radius) / radius))
    area = radius**2 * (half - math.sin(half) * math.cos(half))
    return area * math.sqrt(4 * area / (2 * radius * (half + math.sin(half))))


@pytest.mark.parametrize("law", [slot, uncovered])
@pytest.mark.parametrize("granule_mm", [1.0, 2.0, 2.8])
def test_a_dial_taught_by_the_published_law_of_a_port_foretells_the_settings_between(
    law: Any, granule_mm: float
) -> None:
    """Six weighed passes; at settings never walked the law lies within 8 % and inside the range shown."""
    whole = law(0.5, granule_mm)
    row = {"product": "p", "area_m2": 100, "measured": "scale"}
    taught = [
        {**row, "dial": at, "used_kg": 2.5 * law(at / 100, granule_mm) / whole} for at in (30, 40, 50, 60, 70, 80)
    ]
    points = {round(point["dial"]): point["rate_kg_m2"] for point in curve(history=taught)["points"]}
    for at in (35, 45, 55, 65, 75):
        nearest = min((abs(dial - at), dial) for dial in points)[1]
        wanted = 0.025 * law(nearest / 100, granule_mm) / whole
        assert points[nearest]["mid"] == pytest.approx(wanted, rel=0.08), nearest
        assert points[nearest]["low"] < wanted < points[nearest]["high"], nearest
