"""What must hold of clashes in every book: no order of arrival matters, and a plain reading finds the same pairs."""

from itertools import pairwise
from typing import Any

from hypothesis import example, given
from hypothesis import strategies as st

from lawn.engine.core.dates import day_number, moment_s
from tests.properties.asking import value

Json = dict[str, Any]
TODAY = "2026-12-31"
ENTRY = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(["spread", "spread", "mow", "observation"]),
        "day": st.integers(1, 28),
        "month": st.sampled_from([5, 6]),
        "by": st.sampled_from(["x", "y", None]),
        "product_id": st.sampled_from("pq"),
        "zones": st.lists(st.sampled_from("abc"), min_size=1, max_size=3, unique=True),
        "n": st.one_of(st.none(), st.sampled_from([0.0, 0.002, 0.005])),
        "void": st.booleans(),
    }
)


def book_of(rows: list[Json]) -> list[Json]:
    """Entries as the engine takes them; no two at the same instant, so that their order is plain."""
    found = []
    for at, row in enumerate(rows):
        moment = f"2026-{row['month']:02d}-{row['day']:02d}T{at // 60:02d}:{at % 60:02d}:00Z"
        entry = {"id": f"e{at}", "kind": row["kind"], "occurred_at": moment, "by": row["by"], "void": row["void"]}
        entry |= {"zone_ids": row["zones"], "product_id": row["product_id"]}
        if row["kind"] == "spread":
            entry["zones"] = [{"zone_id": zone, "n_kg_m2": row["n"]} for zone in row["zones"]]
        found.append(entry)
    return found


BOOK = st.lists(ENTRY, max_size=14).map(book_of)
PRODUCTS = st.dictionaries(st.sampled_from("pq"), st.integers(0, 60)).map(
    lambda days: [{"id": one, "interval_days": least} for one, least in days.items()]
)


def clashes(book: list[Json], products: list[Json], ceilings: list[Json] | None = None) -> list[Json]:
    found: list[Json] = value("record.clashes", entries=book, today=TODAY, products=products, ceilings=ceilings or [])[
        "clashes"
    ]
    return found


@given(BOOK, PRODUCTS, st.randoms())
def test_s04_the_order_of_arrival_never_matters(book: list[Json], products: list[Json], mix: Any) -> None:
    mixed = list(book)
    mix.shuffle(mixed)
    assert clashes(mixed, products) == clashes(book, products)


def walks_of(book: list[Json]) -> list[Json]:
    standing = [entry for entry in book if entry["kind"] == "spread" and not entry["void"]]
    return sorted(standing, key=lambda entry: moment_s("at", entry["occurred_at"]))


@given(BOOK, PRODUCTS)
def test_s04_label_days_are_held_by_a_plain_reading(book: list[Json], products: list[Json]) -> None:
    wanted = set()
    for product in products:
        for zone in "abc":
            on_it = [w for w in walks_of(book) if w["product_id"] == product["id"] and zone in w["zone_ids"]]
            for before, after in pairwise(on_it):
                days = day_number("d", after["occurred_at"]) - day_number("d", before["occurred_at"])
                if days < product["interval_days"]:
                    wanted.add((before["id"], after["id"], zone))
    found = [one for one in clashes(book, products) if one["kind"] == "interval" and not one["assumed"]]
    assert {(*one["entry_ids"], zone) for one in found for zone in one["zone_ids"]} == wanted


@given(BOOK, st.floats(0.001, 0.02))
def test_s04_a_ceiling_is_passed_exactly_where_the_sum_says(book: list[Json], ceiling: float) -> None:
    sums: dict[str, list[float]] = {}
    for walk in walks_of(book):
        for zone in walk["zones"]:
            if zone["n_kg_m2"]:
                sums.setdefault(zone["zone_id"], []).append(zone["n_kg_m2"])
    wanted = {zone for zone, fed in sums.items() if len(fed) > 1 and sum(fed) > ceiling * (1 + 1e-9)}
    ceilings = [{"zone_id": zone, "n_year_kg_m2": ceiling} for zone in "abc"]
    found = [one for one in clashes(book, [], ceilings) if one["kind"] == "nitrogen"]
    assert {one["zone_ids"][0] for one in found} == wanted


@given(BOOK, PRODUCTS)
def test_s04_keys_are_told_apart_and_a_struck_out_entry_is_in_none(book: list[Json], products: list[Json]) -> None:
    found = clashes(book, products)
    assert len({one["key"] for one in found}) == len(found)
    struck = {entry["id"] for entry in book if entry["void"]}
    assert not any(struck & set(one["entry_ids"]) for one in found)


@given(BOOK, PRODUCTS, st.data())
def test_s04_striking_one_out_never_leaves_its_clash(book: list[Json], products: list[Json], data: Any) -> None:
    found = clashes(book, products)
    if not found:
        return
    one = data.draw(st.sampled_from(found))
    gone = [{**entry, "void": entry["void"] or entry["id"] == one["entry_ids"][-1]} for entry in book]
    assert one["key"] not in {left["key"] for left in clashes(gone, products)}


# Two people's two products, 11 days apart: drawn books seldom feed one zone twice.
FED_TWICE = book_of(
    [
        {
            "kind": "spread",
            "day": day,
            "month": 5,
            "by": by,
            "product_id": product,
            "zones": ["a"],
            "n": 0.002,
            "void": False,
        }
        for day, by, product in ((1, "x", "p"), (12, "y", "q"))
    ]
)


@example(FED_TWICE, 0.003)
@given(BOOK, st.floats(0.001, 0.01))
def test_s04_quick_nitrogen_is_added_over_any_28_days_by_a_plain_reading(book: list[Json], ceiling: float) -> None:
    """Whatever the product and whoever did it; one feed alone was warned of before it began."""
    wanted = set()
    for zone in "abc":
        fed = [
            (day_number("d", walk["occurred_at"]), row["n_kg_m2"], walk["id"])
            for walk in walks_of(book)
            for row in walk["zones"]
            if row["zone_id"] == zone and row["n_kg_m2"]
        ]
        for at, (day, _, last) in enumerate(fed):
            within = [n for then, n, _ in fed[: at + 1] if day - then <= 27]
            if len(within) > 1 and sum(within) > ceiling * (1 + 1e-9):
                wanted.add((zone, last))
    ceilings = [{"zone_id": zone, "n_quick_once_kg_m2": ceiling} for zone in "abc"]
    found = [one for one in clashes(book, [], ceilings) if one["kind"] == "quick"]
    assert {(one["zone_ids"][0], one["entry_ids"][-1]) for one in found} == wanted


@given(BOOK)
def test_s04_two_feeds_within_a_week_are_found_whoever_did_them(book: list[Json]) -> None:
    wanted = set()
    for zone in "abc":
        fed = [
            (day_number("d", walk["occurred_at"]), walk["id"])
            for walk in walks_of(book)
            for row in walk["zones"]
            if row["zone_id"] == zone and row["n_kg_m2"] != 0
        ]
        wanted |= {(one, other, zone) for (a, one), (b, other) in pairwise(fed) if b - a < 7}
    found = [one for one in clashes(book, []) if one["kind"] == "interval"]
    assert {(*one["entry_ids"], zone) for one in found for zone in one["zone_ids"]} == wanted


@given(BOOK, PRODUCTS, st.floats(0.0005, 0.01))
def test_a_warning_beforehand_is_what_would_be_a_clash_afterwards(
    book: list[Json], products: list[Json], n_kg_m2: float
) -> None:
    """The same rules: a pair too near is found before and after, and is right on the day named."""
    job = {"product_id": "p", "sort": "fertilizer", "at": f"{TODAY}T12:00:00Z"}
    zones = [{"zone_id": zone, "n_kg_m2": n_kg_m2} for zone in "abc"]
    before = value("record.before", job={**job, "zones": zones}, entries=book, products=products)["warnings"]
    done = {
        "id": "now",
        "kind": "spread",
        "occurred_at": job["at"],
        "product_id": "p",
        "sort": "fertilizer",
        "zones": zones,
    }
    after = [one for one in clashes([*book, done], products) if "now" in one["entry_ids"]]
    assert {one["kind"] for one in before} == {one["kind"] for one in after}
    for one in before:
        late = {**job, "at": f"{one['right_from']}T12:00:00Z", "zones": zones}
        again = value("record.before", job=late, entries=book, products=products)["warnings"]
        assert one["key"] not in {row["key"] for row in again}
