"""Laws of the sums of a job: pours and passes add up, stretches add up to their pass, and zones to the job."""

import math
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from tests.properties.asking import error, value

kg = st.floats(0.01, 12)
ground = st.floats(30, 400)
Json = dict[str, Any]


@st.composite
def jobs(draw: st.DrawFn) -> Json:
    """A job walked by the book: what each pass leaves is what the next one starts with."""
    load, area_m2 = draw(st.floats(5, 40)), draw(ground)
    passes: list[Json] = []
    left = load
    for _ in range(draw(st.integers(0, 4))):
        there = left + draw(st.sampled_from([0.0, draw(kg)]))
        used = there * draw(st.floats(0, 1))
        passes.append({"used_kg": used, "left_kg": there - used, "area_m2": area_m2, "added_kg": there - left})
        left = there - used
    target = load + sum(one["added_kg"] for one in passes) + draw(st.floats(0, 5))
    return {"plan": {"load_kg": load, "target_kg": target, "passes": 2}, "passes": passes, "area_m2": area_m2}


def near(one: float, other: float) -> bool:
    return math.isclose(one, other, rel_tol=1e-9, abs_tol=1e-9)


@given(jobs())
def test_what_was_loaded_is_what_was_put_down_and_what_is_left(job: Json) -> None:
    stands = value("spread.standing", plan=job["plan"], passes=job["passes"])
    assert near(stands["used_kg"] + stands["left_kg"], stands["loaded_kg"])
    assert near(stands["may_add_kg"] + stands["loaded_kg"], job["plan"]["target_kg"])
    assert 0 <= stands["share_of_target"] <= 1 + 1e-9
    assert near(stands["share_of_target"] * job["plan"]["target_kg"], stands["used_kg"])


@given(jobs(), st.floats(0, 1), st.floats(0, 1))
def test_two_pours_are_one_pour_of_both_and_never_pass_the_target(job: Json, one: float, other: float) -> None:
    stands = value("spread.standing", plan=job["plan"], passes=job["passes"])
    first = stands["may_add_kg"] * one * 0.5
    second = stands["may_add_kg"] * other * 0.5
    args: Json = {"plan": job["plan"], "passes": job["passes"]}
    foot = {"there_kg": stands["left_kg"], "base_kg": stands["left_kg"], "added_kg": 0.0}
    once = value("spread.pour", **args, on_foot=foot, added_kg=first)
    twice = value("spread.pour", **args, on_foot={name: once[name] for name in foot}, added_kg=second)
    both = value("spread.pour", **args, on_foot=foot, added_kg=first + second)
    assert all(near(twice[name], both[name]) for name in both)
    assert twice["loaded_kg"] <= job["plan"]["target_kg"] * (1 + 1e-9)
    assert near(twice["may_add_kg"], stands["may_add_kg"] - first - second)


@given(jobs(), st.floats(1.03, 5))
def test_more_than_the_target_leaves_is_refused_with_what_it_leaves(job: Json, times: float) -> None:
    stands = value("spread.standing", plan=job["plan"], passes=job["passes"])
    foot = {"there_kg": stands["left_kg"], "base_kg": stands["left_kg"]}
    over = stands["may_add_kg"] + job["plan"]["target_kg"] * 0.02 * times
    said = error("spread.pour", plan=job["plan"], passes=job["passes"], on_foot=foot, added_kg=over)
    assert (said["code"], said["name"]) == ("out_of_range", "added_kg")
    small = stands["may_add_kg"] < 0.02 * job["plan"]["target_kg"]
    assert said["high"] == (0.0 if small else stands["may_add_kg"])


@given(st.lists(st.tuples(st.floats(0.6, 90), st.floats(0, 0.9)), min_size=1, max_size=6), st.floats(1, 40))
def test_the_stretches_of_a_pass_add_up_to_it(walked: list[tuple[float, float]], load: float) -> None:
    """Each stretch but the last is closed on the way, the last with the pass."""
    parts: list[Json] = []
    there, covered = load, 0.0
    closed: Json = {}
    for at, (area_m2, share) in enumerate(walked):
        covered += area_m2
        stretch = {"dial": 5 + at, "there_kg": there, "from_m2": covered - area_m2}
        read = {"measured": "scale", "left_kg": there * (1 - share), "covered_m2": covered, "parts": parts}
        ends = {"start_kg": load, "ground_m2": covered} if at == len(walked) - 1 else {"goes_on": True}
        closed = value("spread.close_pass", stretch=stretch, **read, **ends)
        parts, there = closed["parts"], closed["left_kg"]
    if len(walked) == 1:
        assert parts == []
        return
    assert len(parts) == len(walked)
    assert near(sum(one["area_m2"] for one in parts), covered)
    assert near(sum(one["used_kg"] for one in parts), closed["used_kg"])
    assert near(closed["used_kg"] + closed["left_kg"], load)


@given(jobs(), st.lists(ground, min_size=1, max_size=5))
def test_a_finished_job_is_the_sum_of_its_zones_and_agrees_with_where_it_stood(job: Json, areas: list[float]) -> None:
    zones = [{"id": f"z{at}", "area_m2": area_m2} for at, area_m2 in enumerate(areas)]
    passes = [one | {"area_m2": max(0.5, min(one["area_m2"], sum(areas)))} for one in job["passes"]]
    done = value("spread.finish", plan=job["plan"], zones=zones, passes=passes)
    stands = value("spread.standing", plan=job["plan"], passes=passes)
    assert near(sum(row["used_kg"] for row in done["zones"]), done["used_kg"])
    for name in ("used_kg", "left_kg", "loaded_kg", "share_of_target"):
        assert near(done[name], stands[name])
    got = [row["zone_id"] for row in done["zones"] if row["used_kg"] > 0]
    assert done["reached"] == (got or [zone["id"] for zone in zones])
