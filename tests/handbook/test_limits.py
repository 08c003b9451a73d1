"""Published limits: a job at the printed figure passes, one beyond it is told, at each place that prints one."""

import json
from pathlib import Path
from typing import Any

import pytest
from scipy import constants

from lawn.engine.door import call
from lawn.engine.nutrition import spacing

PUBLISHED = Path(__file__).resolve().parents[2] / "fixtures" / "published"
PLACES = json.loads((PUBLISHED / "places.json").read_text(encoding="utf-8"))
GRASSES = json.loads((PUBLISHED / "grasses.json").read_text(encoding="utf-8"))
LB_KFT2 = constants.pound / (1000 * constants.foot**2)
Json = dict[str, Any]
LAWN = {"id": "z", "grass": "kentucky_bluegrass", "turf": "cool"}


def rules(place: str | None = None, **more: Any) -> list[Json]:
    """The rules of a place, from the table as phones have it."""
    args: Json = {"rules": PLACES["rules"], "places": PLACES["places"], "grasses": GRASSES["grasses"]}
    args["general"] = GRASSES["lawns_in_general"]["nitrogen_year_rows"]
    answer = call("limits.rules", args | ({} if place is None else {"place": place}) | more)
    found: list[Json] = answer["value"]["rules"]
    return found


def broken(jobs: list[Json], place: str | None = None, zone: Json = LAWN, **more: Any) -> list[str]:
    """Kinds of rule that jobs break at a place, each with its job."""
    rows = [{"id": str(at), "zone": "z"} | job for at, job in enumerate(jobs)]
    answer = call("limits.check", {"jobs": rows, "zones": [zone], "rules": rules(place)} | more)
    return [f"{one['kind']}:{one['job']}" for one in answer["value"]["breaches"]]


def feed(date: str, lb_kft2: float, slow: float = 0.0, **more: Any) -> Json:
    return {"date": date, "n_kg_m2": lb_kft2 * LB_KFT2, "slow_n_share": slow} | more


# Place, quick at once and all at once as printed [lb N/1000 ft2]: season-wide limits of state and county rules.
ONCE = (
    (None, 0.5, 0.9),  # nobody said where: the lowest of all (SUFFOLK-CO, MD-RIVERHILL)
    ("elsewhere", 0.5, 0.9),
    ("us_ny_suffolk", 0.5, 0.9),
    ("us_md", 0.7, 0.9),
    ("us_nj", 0.7, 0.9),
    ("us_fl_marion", 0.7, 1.0),
    ("us_mn", 1.0, 0.9),
)


@pytest.mark.parametrize(("place", "quick", "whole"), ONCE)
def test_a_feed_reaches_the_printed_figure_of_its_place_and_not_a_hundredth_more(
    place: str | None, quick: float, whole: float
) -> None:
    most = min(quick, whole)
    slow = 1 - most / whole
    day = "2026-05-10"
    assert broken([feed(day, most, 0.21 if most < whole else 0.2)], place) == []
    assert "quick_once:0" in broken([feed(day, quick * 1.01, 0)], place)
    assert broken([feed(day, whole, max(slow, 0.25))], place) == []
    assert "all_once:0" in broken([feed(day, whole * 1.01, 0.9)], place)


def test_nobody_passes_a_pound_at_once_whatever_they_enter() -> None:
    own = [{"kind": "quick_once", "most_kg_m2": 2 * LB_KFT2}, {"kind": "all_once", "most_kg_m2": 2 * LB_KFT2}]
    for row in rules("us_mn", own_rules=own):
        if row["kind"] in ("quick_once", "all_once"):
            assert row["most_kg_m2"] == pytest.approx(LB_KFT2, rel=1e-6)


def test_two_applications_of_a_quarter_pound_of_phosphate_make_a_year() -> None:
    """UF-POLK: 0.25 lb P2O5 each, 0.5 lb a year, so two; only with a soil test of three years (MN-18C60)."""
    jobs = [{"date": f"2026-0{month}-10", "n_kg_m2": 0, "p2o5_kg_m2": 0.25 * LB_KFT2} for month in (4, 6, 8)]
    tested = [{"date": "2023-09-01", "p_mg_kg": 45}]
    assert broken(jobs, soil_tests=tested) == ["phosphate_year:2"]
    assert broken(jobs[:1]) == ["phosphate:0"]
    assert broken(jobs[:1], soil_tests=[{"date": "2026-01-01", "p_mg_kg": 46}]) == ["phosphate:0"]
    assert broken(jobs[:1], soil_tests=[{"date": "2023-04-01", "p_mg_kg": 20}]) == ["phosphate:0"]
    assert broken(jobs[:1], soil_tests=[{"date": "2026-01-01", "p_mg_kg": 20, "p_method": "olsen"}]) == ["phosphate:0"]
    assert broken(jobs[:1], zone=LAWN | {"sown": "2026-04-05"}) == []


# Place, open and closed days as printed.
DATES = (
    ("us_nj", ("11-15", "03-01"), ("11-16", "02-28")),  # NJ-62
    ("us_md", ("11-15", "03-01"), ("11-16", "02-28")),  # MD-8-803.5
    ("us_vt", ("10-14", "04-02"), ("10-15", "04-01")),  # VT-ACT37
    ("us_ny", ("11-30", "04-02"), ("12-01", "04-01")),  # NY-DEC
    (None, ("10-14", "04-02"), ("10-15", "04-01")),
)


@pytest.mark.parametrize(("place", "opened", "closed"), DATES)
def test_feeding_is_closed_on_the_printed_days_over_the_turn_of_the_year(
    place: str | None, opened: tuple[str, ...], closed: tuple[str, ...]
) -> None:
    for day in opened:
        assert broken([feed(f"2026-{day}", 0.4, 0.3)], place) == []
    for day in closed:
        assert broken([feed(f"2026-{day}", 0.4, 0.3)], place) == ["closed:0"]
    assert broken([{"date": "2026-12-24", "sort": "lime", "rate_kg_m2": 0.1}], place) == []


def test_the_northern_dates_hold_nowhere_in_the_south() -> None:
    assert "closed" not in {row["kind"] for row in rules("au")}
    assert "closed" not in {row["kind"] for row in rules(southern=True)}


def test_water_keeps_25_feet_15_in_maryland_and_10_with_a_deflector_there() -> None:
    """NJ-NEWS13 and VT-ACT37: 25 ft; MD-8-803.5: 15 ft, 10 ft with a drop spreader or deflector."""
    shore = LAWN | {"near_water": True}
    feet = constants.foot
    for place, least in ((None, 25), ("us_nj", 25), ("us_vt", 25), ("us_md", 15)):
        assert broken([feed("2026-05-10", 0.4, 0.3, clear_m=least * feet)], place, shore) == []
        assert broken([feed("2026-05-10", 0.4, 0.3, clear_m=least * feet - 0.01)], place, shore) == ["water:0"]
    guarded = feed("2026-05-10", 0.4, 0.3, clear_m=10 * feet, guarded=True)
    assert broken([guarded], "us_md", shore) == []
    assert broken([guarded], None, shore) == ["water:0"]


def test_half_a_pound_at_once_on_gentle_grass_and_on_seedlings() -> None:
    """Common practice: fescue, centipedegrass, buffalograss and seedlings take 0.5 lb, quick or slow."""
    for zone in (LAWN | {"grass": "fine_fescues"}, LAWN | {"sown": "2026-05-01"}):
        assert broken([feed("2026-05-10", 0.499, 1)], zone=zone) == []
        assert broken([feed("2026-05-10", 0.51, 1)], zone=zone) == ["gentle_once:0"]


def test_the_year_of_bluegrass_is_four_pounds_and_two_in_shade() -> None:
    """illinois_n: Kentucky bluegrass 1 to 4 lb a year; UC-FERTAMT: about half in shade."""
    apart = [feed(day, 0.8, 1) for day in ("2026-04-10", "2026-05-22", "2026-07-03", "2026-08-14", "2026-09-25")]
    assert broken(apart) == []
    assert broken([*apart[:4], feed("2026-09-25", 0.81, 1)]) == ["year:4"]
    assert broken(apart[:3], zone=LAWN | {"shade": True}) == ["year:2"]


def test_seed_waits_for_a_pre_emergent_as_published() -> None:
    """keeley_2005, before broadcast seed: dithiopyr 6 weeks, pendimethalin 8, prodiamine 14; 16 where nobody knows."""
    for weeks, sown in ((6, "2025-05-22"), (8, "2025-06-05"), (14, "2025-07-17")):
        pre = {"date": "2025-04-10", "sort": "pre_emergent", "seed_wait_days": weeks * 7}
        assert broken([pre, {"date": sown, "sort": "seed"}]) == []
        answer = broken([pre, {"date": sown[:8] + f"{int(sown[8:]) - 1:02d}", "sort": "seed"}])
        assert answer == ["seed_after_pre:1"]
    unknown = {"date": "2025-04-10", "sort": "pre_emergent"}
    assert broken([unknown, {"date": "2025-07-30", "sort": "seed"}]) == ["seed_after_pre:1"]
    assert broken([unknown, {"date": "2025-07-31", "sort": "seed"}]) == []


def test_lime_of_fifty_pounds_and_the_rest_six_months_on() -> None:
    """ORST-TF-LIME and NC-GASTER: 50 lb at once, the rest 6 months later; 14 days from quick nitrogen."""
    lime = {"date": "2026-03-01", "sort": "lime", "rate_kg_m2": 50 * LB_KFT2}
    assert broken([lime, lime | {"date": "2026-08-30"}]) == []
    assert broken([lime | {"rate_kg_m2": 51 * LB_KFT2}]) == ["lime_once:0"]
    assert broken([lime, lime | {"date": "2026-08-29"}]) == ["lime_twice:1"]
    assert broken([lime | {"date": "2026-05-01"}, feed("2026-05-14", 0.4, 0)]) == ["lime_nitrogen:1"]
    assert broken([lime | {"date": "2026-05-01"}, feed("2026-05-15", 0.4, 0)]) == []


def test_a_product_of_a_42_day_label_is_too_soon_after_11_days() -> None:
    jobs = [feed(day, 0.2, 0.3, product="p") for day in ("2026-05-01", "2026-05-12")]
    label = [{"id": "p", "interval_days": 42}]
    assert broken(jobs, products=label) == ["label_interval:1"]
    assert broken([jobs[0], jobs[1] | {"date": "2026-06-12"}], products=label) == []


def test_days_between_jobs_are_one_table() -> None:
    """What the log asks before a job and what a plan is checked by are the same days."""
    days = {row["kind"]: row["over_days"] for row in rules() if row["over_days"] is not None}
    table = {
        "quick_days": spacing.QUICK_DAYS,
        "all_days": spacing.ALL_DAYS,
        "pre_twice": spacing.PRE_DAYS,
        "seed_after_pre": spacing.SOW_DAYS,
        "pre_after_seed": spacing.YOUNG_DAYS,
        "young": spacing.YOUNG_DAYS,
        "lime_twice": spacing.LIME_DAYS,
        "lime_nitrogen": spacing.LIME_NITROGEN_DAYS,
    }
    assert {kind: days[kind] for kind in table} == {kind: row[0] for kind, row in table.items()}


def test_figures_in_kilograms_are_the_printed_pounds() -> None:
    for row in PLACES["rules"]:
        if "most_kg_m2" in row:
            pounds = [float(word) for word in row["printed"].replace("lb", " ").split() if word[0].isdigit()]
            assert any(row["most_kg_m2"] == pytest.approx(pound * LB_KFT2, rel=1e-6) for pound in pounds), row


def test_before_a_job_and_in_a_plan_the_ceilings_are_the_same() -> None:
    limits = json.loads((PUBLISHED / "limits.json").read_text(encoding="utf-8"))
    args = {"zones": [{"id": "z"}], "once": limits["nitrogen_per_application"], "phosphate": limits["phosphate"]}
    zone = call("limits.ceilings", args | {"lime": limits["lime"]})["value"]
    held = {row["kind"]: row["most_kg_m2"] for row in rules()}
    assert zone["zones"][0]["n_quick_once_kg_m2"] == pytest.approx(held["quick_once"], rel=1e-6)
    assert zone["zones"][0]["n_once_kg_m2"] == pytest.approx(held["all_once"], rel=1e-6)
    assert zone["zones"][0]["p2o5_once_kg_m2"] == pytest.approx(held["phosphate_once"], rel=1e-6)
    assert zone["zones"][0]["p2o5_year_kg_m2"] == pytest.approx(held["phosphate_year"], rel=1e-6)
    assert zone["lime_once_kg_m2"] == pytest.approx(held["lime_once"], rel=1e-6)
