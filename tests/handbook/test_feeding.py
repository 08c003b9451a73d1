"""Published release, response and yearly figures of nitrogen: what the sources print, asked of the engine."""

import json
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from scipy import constants

from lawn.engine.door import call
from tests.handbook.test_limits import GRASSES, LAWN, LB_KFT2, rules
from tests.units import printed

Json = dict[str, Any]
PUBLISHED = Path(__file__).resolve().parents[2] / "fixtures" / "published"
FED = date(2026, 4, 20)


def value(name: str, **args: Any) -> Json:
    answer = call(name, args)
    assert "value" in answer, answer
    found: Json = answer["value"]
    return found


def soil(days: int, soil_c: float) -> list[Json]:
    return [{"date": str(FED + timedelta(at)), "soil_c": soil_c} for at in range(days)]


def fahrenheit(degrees: float) -> float:
    return float(constants.convert_temperature(degrees, "Fahrenheit", "Celsius"))


def free_share(source: str, days: int, soil_c: float, share: float | None = None) -> float:
    args: Json = {"n_kg_m2": LB_KFT2, "slow_n_share": 1.0, "source": source, "applied": str(FED)}
    args |= {"days": soil(days, soil_c)} | ({} if share is None else {"free_in_ten_weeks_share": share})
    return float(value("feeding.release", **args)["free_kg_m2"] / LB_KFT2)


@pytest.mark.parametrize("share", [0.7, 0.6, 0.2])
def test_ten_warm_weeks_free_what_is_printed_of_each_natural_source(share: float) -> None:
    """ncsu_org and cornell_n: about 70 % (poultry, feather meal), 60 % (biosolids), 20 % (swine) in ten weeks."""
    assert free_share("natural", 70, 20, share) == pytest.approx(share, rel=1e-9)


def test_natural_nitrogen_falls_off_sharply_in_the_50s_and_hardly_comes_below() -> None:
    """rutgers_org: release from organic sources falls sharply once soil drops into the 50s F."""
    warm, cool, cold = (free_share("natural", 70, fahrenheit(f)) for f in (68, 57, 50))
    assert cool < 0.6 * warm
    assert cold < 0.05 * warm
    assert (
        value(
            "feeding.release",
            n_kg_m2=LB_KFT2,
            slow_n_share=1,
            source="natural",
            applied=str(FED),
            days=soil(7, fahrenheit(50)),
        )["state"]
        == "waits"
    )


def test_soluble_nitrogen_lasts_two_to_six_weeks() -> None:
    """cornell_n: lasts 2 to 6 weeks; lsu_n: the soluble part about the first 2 weeks."""
    assert 0.3 < free_share("soluble", 14, 15) < 1
    assert free_share("soluble", 42, 15) == pytest.approx(1, rel=1e-9)
    weeks = value("feeding.lasts", source="soluble")
    assert (weeks["least_weeks"], weeks["most_weeks"]) == (2, 6)


@pytest.mark.parametrize("source", ["sulfur_coated", "polymer_coated", "ibdu", "condensed"])
def test_slow_nitrogen_lasts_eight_to_twelve_weeks_and_up_to_twenty_in_cool_soil(source: str) -> None:
    """cornell_n: 8 to 12 weeks, some up to 20; stma_2016: urea forms 8 to 12."""
    assert free_share(source, 8 * 7 - 7, 20) < 0.85
    assert free_share(source, 12 * 7, 20) > 0.89
    assert free_share(source, 12 * 7, 12) < 0.8


def test_in_the_cold_coats_are_moderate_and_microbes_low_to_very_low() -> None:
    """cornell_n: soluble rapid at low temperature, sulfur-coated and IBDU moderate, urea forms and natural low."""
    share = {
        source: free_share(source, 28, 8) / free_share(source, 28, 20)
        for source in ("soluble", "sulfur_coated", "ibdu", "condensed", "natural")
    }
    assert share["soluble"] == 1
    assert 0.3 < share["sulfur_coated"] < 0.7
    assert 0.3 < share["ibdu"] < 0.7
    assert share["condensed"] < 0.1
    assert share["natural"] < 0.1


def green_up(source: str, slow: float, soil_c: float) -> Json:
    days = soil(90, soil_c)
    return value("feeding.green_up", source=source, slow_n_share=slow, applied=str(FED), days=days)


def test_soluble_nitrogen_is_seen_within_days_to_a_week() -> None:
    """cornell_n: responds within days to a week."""
    found = green_up("soluble", 0, 12)
    assert (found["least_days"], found["most_days"]) == (3, 7)


def test_soil_test_figures_open_and_close_phosphate() -> None:
    """PSU-P2011: phosphorus is advised only at or below 45 mg/kg, Mehlich-3."""
    (row,) = [row for row in rules() if row["kind"] == "phosphate"]
    assert (row["p_mg_kg"], row["within_years"]) == (45, 3)


def test_the_years_aim_lies_within_what_is_printed_for_each_grass() -> None:
    for grass in GRASSES["grasses"]:
        rows = [row for row in printed.YEARS if row[0] == grass["key"]]
        if not rows:
            continue
        zone = {"id": "z", "year_rows": grass["nitrogen_year_rows"]}
        for level in ("low", "middle", "high"):
            aim = value("feeding.yearly_aim", zones=[zone], level=level)["zones"][0]["n_year_kg_m2"] / LB_KFT2
            lows = [row[1] for row in rows if row[1] is not None]
            assert min(lows) - 1e-6 <= aim <= min(row[2] for row in rows) + 1e-6, (grass["key"], level)


def test_shade_takes_half_and_clippings_a_quarter_at_most() -> None:
    """UC-FERTAMT: shade needs about half. Clippings: a quarter less at most (common practice)."""
    rows = [{"low_kg_m2": 2 * LB_KFT2, "high_kg_m2": 4 * LB_KFT2, "sources": ["illinois_n"]}]
    zones = [{"id": "sun", "year_rows": rows}, {"id": "shade", "sun": "shade", "year_rows": rows}]
    sun, shade = value("feeding.yearly_aim", zones=zones, level="high", clippings=True)["zones"]
    assert sun["n_year_kg_m2"] == pytest.approx(3 * LB_KFT2)
    assert shade["n_year_kg_m2"] == pytest.approx(1.5 * LB_KFT2)
    error = call("feeding.yearly_aim", {"zones": zones, "level": "high", "clippings": True, "less_share": 0.3})["error"]
    assert error["high"] == 0.25


def burn(n_lb: float, slow: float, **more: Any) -> Json:
    job = {"zone": "z", "n_kg_m2": n_lb * LB_KFT2, "slow_n_share": slow}
    return value("feeding.burn", job=job, zones=[LAWN], rules=rules(), today="2026-07-20", **more)


def test_quick_nitrogen_over_the_figure_of_the_place_can_burn_and_slow_of_the_same_hardly() -> None:
    """SUFFOLK-CO: 0.5 lb of quick nitrogen at once, the lowest printed; a bag of 0.72 lb mostly natural does not."""
    assert burn(0.72, 0)["can_burn"] == "yes"
    assert burn(0.72, 0.85)["can_burn"] == "no"
    assert burn(0.45, 0)["can_burn"] == "careful"


def test_in_heat_quick_nitrogen_can_burn_at_any_rate() -> None:
    hot = [{"date": f"2026-07-{day:02d}", "mean_c": 25} for day in range(14, 21)]
    assert burn(0.2, 0, days=hot)["reasons"] == ["heat"]
    assert burn(0.2, 0.9, days=hot)["can_burn"] == "no"


def test_a_beginner_is_told_to_begin_with_a_gentle_product() -> None:
    assert burn(0.4, 0, beginner=True)["says"].endswith("Begin with a gentle, slow-release product.")
    assert not burn(0.4, 0.9, beginner=True)["begin_gentle"]


def test_sources_of_the_figures_are_kept() -> None:
    kept = json.loads((PUBLISHED / "engine_sources.json").read_text(encoding="utf-8"))["sources"]
    assert {"cornell_n", "ncsu_org", "rutgers_org", "stma_2016"} <= kept.keys()
