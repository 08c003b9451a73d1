"""Every number of an answer stands as the result of a step of its working."""

import math
import re
from collections.abc import Iterator
from typing import Any

import pytest

from lawn.engine.door import call
from tests.engine.cases import Case, cases

ANSWERED = [case for case in cases() if "error.code" not in case.row["expect"]]
# Numbers that are no results of their own, and why.
NOT_WORKED_OUT = {
    "parts": "stretches before as given; ground and product of the last stand as steps",
    "points": "the same formula at every setting; the middle one stands as a step",
    "past": "what a pass put down over its ground; its chance of being bad as with bad_chances",
    "bad_chances": "each is its part of the weight of all suspicions; the largest stands as a step",
    "bad_passes": "places in the history as given",
    "left_out": "places in the history, or among the fixes, as given",
    "points_m": "corners, to be drawn; the step of the area counts them",
    "outline_m": "corners, to be drawn; their area is the area of the step",
    "holes_m": "corners, to be drawn; their area is put into the step of the area",
    "here_m": "where the phone is, to be drawn",
    "origin": "the first kept fix as given",
    "zones.area_m2": "given back as given",
    "breaches": "each holds the ceiling as given and the nitrogen of a day",
    "feedings": "a count, put into the step of the year's nitrogen",
    "counted_kg": "given back as given",
    "used_since_count_kg": "put into the step of the stock",
    "passes": "a count of entries",
    "n_unknown_feeds": "a count, put into the step of the year's nitrogen",
    "window_days": "the days of the rule, put into the step of what was added up over them",
    "days_since": "put into the step of the day it is due",
    "zones.hours": "as the label has them, or a day where it is silent; put into the step of the end",
    "overdue_days": "days past the day it is due",
    "strips": "drawn: places of strips; their lengths are put into the step of the way",
    "headers": "drawn: places of header strips; the same",
    "order": "the rows again, in the order walked",
    "rows": "the rows of a tour; what is left after them follows the step of the end",
    "zones.turns": "strips less one",
    "zones.strips": "a count, put into the step of the way",
    "zones.headers": "a count, put into the step of the way",
    "by_spacing": "each distance as the widest, whose steps show the way",
    "days": "days of weather as the table or the book has them; how many there are stands as a step",
    "problems": "lines of the table, and the limits of their figures",
    "monthly_mean_c": "the result of the step, all twelve at once",
    "counted": "days behind each month; all of them are put into the step",
    "overlapped_g": "the catches added up, put into the step of the unevenness",
    "untimed": "a count, put into the step of the hours",
    "daily": "degree days of each day; those of the last stand as a step, and all are in the step of the sum",
    "daily_c": "each day as the last, whose steps show the way",
    "sd_c": "the same",
    "sides.number": "counted from 1",
    "edges": "places in the outline as given",
    "ground_m": "corners of the ground the rows lie on; its area stands as a step",
    "daily_mean_c": "each day as 1 July, which stands as a step",
    "depletion_mm": "each day as the one asked about, which stands as a step",
    "water_share": "the same",
    "belief": "the forecast's state, for the next call; what it says of growth stands as steps",
    "zones.looks": "a count of heights; where there is a forecast it stands as a step",
    "zones.low": "heights of each day, whose last stands as a step with its error; growth has its own",
    "zones.mid": "the same",
    "zones.high": "the same",
    "marks": "each stands as a step, with who says so",
    "weeks.week": "counted from 0",
    "weeks.n_kg_m2": "each week as the richest, which stands as a step; all are in the step of the sum",
    "weeks.potential": "each week's; what it does to the need stands as a step",
    "model": "the model itself, for a solver: costs, bounds and factors of its columns and rows",
    "start": "a first plan as values of the model's columns",
    "steps.week": "counted from 0",
    "months": "a place in the calendar, to be drawn",
    "today_week": "the same",
    "bands.week": "counted from 0",
    "bands.need_n_kg_m2": "nitrogen of each week; that of all stands as a step",
    "bands.free_n_kg_m2": "the same",
    "bands.under_n_kg_m2": "bars below it, to be drawn; each stands as a step",
    "bands.earlier_weeks": "places in the calendar, to be moved to",
    "bands.later_weeks": "the same",
    "height_mm": "each day as the last, whose height and error stand as steps",
    "groups.aim_n_kg_m2": "given back as given",
    "groups.n_once_kg_m2": "given back as given",
    "groups.n_quick_once_kg_m2": "given back as given",
    "groups.n_year_kg_m2": "given back as given",
    "products.net_kg": "given back as given",
    "products.n_percent": "given back as given",
    "products.p2o5_percent": "given back as given",
    "products.slow_n_share": "given back as given",
    "products.interval_days": "given back as given",
    "products.wait_days": "given back as given",
    "products.price": "given back as given; one taken from the others stands as a step",
    "products.stock_kg": "what is left as given, and no less than nothing",
    "done.slow_n_share": "given back as given",
    "climate": "the usual year as given, and rows of the skeleton as printed",
    "wishes": "given back as given, with the margin that a step must gain to move",
}


def numbers(node: Any, path: str = "") -> Iterator[tuple[str, float]]:
    """Every number of an answer with the names that lead to it; ids and places in lists are left out."""
    if isinstance(node, dict):
        for key, item in node.items():
            yield from numbers(item, f"{path}.{key}")
    elif isinstance(node, list):
        for item in node:
            yield from numbers(item, path)
    elif isinstance(node, (int, float)) and not isinstance(node, bool):
        yield path.lstrip("."), float(node)


def excused(path: str) -> bool:
    """Whether a number is one of those that are not worked out."""
    parts = path.removeprefix("plan.").split(".")
    ends = {parts[-1], parts[0], f"{parts[0]}.{parts[-1]}"}
    if parts == ["passes"] or path == "left_kg.mid":
        return False
    return bool(ends & NOT_WORKED_OUT.keys())


@pytest.mark.parametrize("case", ANSWERED, ids=[case.name for case in ANSWERED])
def test_every_number_has_its_step(case: Case) -> None:
    answer = call(case.row["call"], case.row["args"])
    results = [float(row["result"]) for row in answer["working"] if isinstance(row["result"], (int, float))]
    for path, value in numbers(answer["value"]):
        if not excused(path):
            assert any(math.isclose(value, result, rel_tol=1e-12) for result in results), path


def test_nitrogen_is_never_written_as_product() -> None:
    for case in ANSWERED:
        for row in call(case.row["call"], case.row["args"])["working"]:
            if row["unit"] in ("kg/m2", "kg N/m2"):
                of_nitrogen = row["what"].startswith(("Nitrogen", "Slow-release nitrogen", "Of it known"))
                assert of_nitrogen == (row["unit"] == "kg N/m2"), row["what"]


def test_a_quotient_or_product_shows_both_its_sides() -> None:
    """Once "net weight over coverage" stood beside the net weight alone."""
    for case in ANSWERED:
        for row in call(case.row["call"], case.row["args"])["working"]:
            of_constants = re.search(r"\b(pi|half|thirds?|squared|1)\b", row["formula"])
            if re.fullmatch(r"[\w' ]+ (over|times) [\w' ]+", row["formula"]) and not of_constants:
                assert len(row["numbers"]) >= 2, (case.name, row)


SUMS = ("spread.finish", "feeding.ledger", "record.totals", "record.clashes", "spreading.split")


def test_a_sum_of_nitrogen_or_product_shows_what_was_added_not_how_many() -> None:
    seen = set()
    for case in [one for one in ANSWERED if one.row["call"] in SUMS]:
        for row in call(case.row["call"], case.row["args"])["working"]:
            if "added" not in row["formula"] or "kg" not in row["unit"] or row["what"].startswith("Nitrogen where"):
                continue
            lists = [item for name, item in row["numbers"].items() if "kg" in name and isinstance(item, list)]
            assert len(lists) == 1, row
            assert math.isclose(math.fsum(lists[0]), row["result"], rel_tol=1e-12, abs_tol=1e-15), row
            seen.add(case.row["call"])
    assert seen == set(SUMS)


def test_no_excuse_is_left_over() -> None:
    paths = {path for case in ANSWERED for path, _ in numbers(call(case.row["call"], case.row["args"])["value"])}
    for excuse in NOT_WORKED_OUT:
        assert any(excuse in path or path.endswith(excuse.split(".")[-1]) for path in paths), excuse


def test_a_step_about_one_of_several_names_it_and_no_id_stands_among_its_numbers() -> None:
    found = [
        case
        for case in ANSWERED
        if case.row["call"] in ("record.totals", "record.due", "spreading.split", "spread.finish")
    ]
    for case in found:
        answer = call(case.row["call"], case.row["args"])
        zones = answer["value"]["zones"]
        ids = set(zones) if isinstance(zones, dict) else {row["zone_id"] for row in zones}
        named = {row["of"] for row in answer["working"] if "of" in row}
        assert named == ids | set(answer["value"].get("products", {}))
        for row in answer["working"]:
            for value in row["numbers"].values():
                assert not ids.intersection(value if isinstance(value, list) else [value])
