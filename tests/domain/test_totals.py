"""The book's totals from its rows: struck-out entries do not count, re-dated ones count on their new day."""

from datetime import date
from typing import Any

import pytest

from lawn.book.merging import fold
from lawn.book.sync.author import Pen
from lawn.models import Entry, Member
from lawn.models.ids import new_id
from tests.factories import NOW, DeviceFactory, KeeperFactory
from tests.folding import totals_of

VERGE = "0190aaaa-0000-7000-8000-000000000001"
PRODUCT = "0190bbbb-0000-7000-8000-000000000001"
TODAY = date(2026, 6, 15)

pytestmark = pytest.mark.django_db


def entry(kind: str, at: str, *, overlay: dict[str, Any] | None = None, **fields: Any) -> list[dict[str, Any]]:
    """One op that logs one entry, perhaps with an overlay from the start."""
    body = {"kind": kind, "occurred_at": at, **fields}
    return [{"t": "entry", "id": str(new_id()), "body": body, "set": overlay or {}}]


def walk(at: str, used_kg: float, n_kg_m2: float | None, **more: Any) -> list[dict[str, Any]]:
    zones = [{"zone_id": VERGE, "area_m2": 100, "used_kg": used_kg, "n_kg_m2": n_kg_m2}]
    facts: dict[str, Any] = {"product_id": PRODUCT, "aim": {"kind": "label"}, "area_m2": 100, "target_kg_m2": 0.02}
    return entry("spread", at, zone_ids=[VERGE], zones=zones, used_kg=used_kg, **facts, **more)


@pytest.fixture
def pen() -> Pen:
    keeper: Member = KeeperFactory.create()
    return Pen(keeper, DeviceFactory.create(member=keeper))


def totals(pen: Pen, *entries: list[dict[str, Any]]) -> dict[str, Any]:
    assert {result["s"] for result in pen.write(entries, NOW)} == {"applied"}
    return totals_of(pen.member.household_id, TODAY)


def test_totals_add_up_what_stands_in_the_book(pen: Pen) -> None:
    """By hand: 10 kg counted, then 2 and 3 kg walked; 4 + 6 g of nitrogen a square metre."""
    found = totals(
        pen,
        walk("2026-05-20T18:00:00+02:00", 3, 0.006),
        entry("stock_count", "2026-04-01T10:00:00+02:00", product_id=PRODUCT, left_kg=10),
        walk("2026-04-20T18:00:00+02:00", 2, 0.004),
        walk("2026-03-01T18:00:00+02:00", 7, 0.001),
        entry("mow", "2026-06-10T19:00:00+02:00", zone_ids=[VERGE]),
    )
    assert found["zones"][VERGE]["n_year_kg_m2"] == pytest.approx(0.011, abs=1e-12)
    assert (found["zones"][VERGE]["last_feed"], found["zones"][VERGE]["last_mow"]) == ("2026-05-20", "2026-06-10")
    assert found["products"][PRODUCT]["left_kg"] == pytest.approx(5, abs=1e-12)
    assert found["working"]


def test_what_was_bought_is_in_the_shed_and_a_later_count_corrects_it(pen: Pen) -> None:
    """By hand: two bags of 20 kg, 12 kg walked; then 31 kg counted, a loose 4 kg bought and 5 kg walked."""
    bags = entry("bought", "2026-04-01T10:00:00+02:00", product_id=PRODUCT, bags=2, net_kg=20, price=30)
    first = totals(pen, bags, walk("2026-04-20T18:00:00+02:00", 12, 0.004))["products"][PRODUCT]
    assert (first["left_kg"], first["counted_kg"]) == (pytest.approx(28, abs=1e-12), None)
    later = totals(
        pen,
        entry("stock_count", "2026-05-01T10:00:00+02:00", product_id=PRODUCT, left_kg=31),
        entry("bought", "2026-05-02T10:00:00+02:00", product_id=PRODUCT, bought_kg=4),
        walk("2026-05-20T18:00:00+02:00", 5, 0.004),
    )["products"][PRODUCT]
    assert (later["left_kg"], later["bought_since_kg"]) == (pytest.approx(30, abs=1e-12), 4)


def test_a_struck_out_purchase_is_not_in_the_shed(pen: Pen) -> None:
    bags: dict[str, Any] = {"product_id": PRODUCT, "bags": 2, "net_kg": 20}
    void: dict[str, Any] = {"void": {"void": True, "why": "Taken back"}}
    found = totals(
        pen,
        entry("bought", "2026-04-01T10:00:00+02:00", **bags),
        entry("bought", "2026-04-02T10:00:00+02:00", overlay=void, **bags),
    )
    assert found["products"][PRODUCT]["left_kg"] == pytest.approx(40, abs=1e-12)


def test_a_struck_out_walk_counts_for_nothing(pen: Pen) -> None:
    found = totals(
        pen,
        walk("2026-05-20T18:00:00+02:00", 3, 0.006, overlay={"void": {"void": True, "why": "Wrong zone"}}),
        walk("2026-04-20T18:00:00+02:00", 2, 0.004, overlay={"void": {"void": False}}),
    )
    assert found["zones"][VERGE]["n_year_kg_m2"] == pytest.approx(0.004, abs=1e-12)
    assert found["products"][PRODUCT]["used_since_count_kg"] == pytest.approx(2, abs=1e-12)


def test_a_tray_test_stands_in_the_book_and_adds_nothing(pen: Pen) -> None:
    spreader: dict[str, Any] = {"spreader_id": str(new_id()), "product_id": PRODUCT}
    trays: dict[str, Any] = {"catches_g": [3, 8, 12, 8, 3], "tray_spacing_m": 0.3, "pattern": "circuit"}
    walked = walk("2026-05-20T18:00:00+02:00", 3, 0.006)
    totals(pen, walked, entry("tray_test", "2026-05-21T18:00:00+02:00", **spreader, **trays))
    # an entry of before the contract refused such: what its kind does not carry is not read
    test = Entry.objects.get(kind="tray_test")
    Entry.objects.filter(kind="tray_test").update(body={**test.body, "used_kg": 5, "left_kg": 7, "zones": 5})
    found = totals_of(pen.member.household_id, TODAY)
    assert found["products"][PRODUCT] == {
        "used_since_count_kg": pytest.approx(3, abs=1e-12), "bought_since_kg": 0, "counted_kg": None,
        "counted_at": None, "left_kg": None,
    }  # fmt: skip
    assert found["zones"][VERGE]["passes"] == 0


def test_a_pass_left_out_of_learning_later_keeps_all_it_said(pen: Pen) -> None:
    """The overlay says so beside the entry: what was written down stays as it was."""
    body: dict[str, Any] = {
        "spread_id": str(new_id()), "product_id": PRODUCT, "spreader_id": str(new_id()), "number": 1, "dial": 9.5,
        "area_m2": 100, "used_kg": 3, "measured": "scale", "bad": False, "zone_ids": [VERGE],
    }  # fmt: skip
    out: dict[str, Any] = {
        "learning": {"bad": True, "why": "Gate shut late", "by": str(pen.member.id), "at": "2026-05-22T08:00:00Z"}
    }
    found = totals(pen, entry("pass", "2026-05-21T18:00:00+02:00", overlay=out, **body))
    kept = Entry.objects.get()
    assert kept.body["bad"] is False
    assert kept.overlays["learning"] == {"bad": True, "why": "Gate shut late"}
    assert kept.extra["learning"]["at"] == "2026-05-22T08:00:00Z"
    assert found["zones"][VERGE]["passes"] == 1


def test_seed_without_entered_nitrogen_is_no_feed(pen: Pen) -> None:
    found = totals(
        pen,
        walk("2026-04-20T18:00:00+02:00", 2, 0.004, sort="fertilizer"),
        walk("2026-05-20T18:00:00+02:00", 3, None, sort="seed"),
    )
    zone = found["zones"][VERGE]
    assert (zone["last_feed"], zone["n_unknown_feeds"]) == ("2026-04-20", 0)
    assert found["products"][PRODUCT]["used_since_count_kg"] == pytest.approx(5, abs=1e-12)


def test_a_redated_mow_counts_on_its_new_day(pen: Pen) -> None:
    moved = {"when": {"occurred_at": "2026-06-12T07:00:00+02:00"}}
    found = totals(
        pen,
        entry("mow", "2026-06-01T19:00:00+02:00", zone_ids=[VERGE], overlay=moved),
        entry("mow", "2026-06-05T19:00:00+02:00", zone_ids=[VERGE]),
    )
    assert found["zones"][VERGE]["last_mow"] == "2026-06-12"


def test_another_households_log_counts_for_nothing(pen: Pen) -> None:
    other: Member = KeeperFactory.create()
    totals(Pen(other, DeviceFactory.create(member=other)), walk("2026-05-20T18:00:00+02:00", 3, 0.006))
    assert totals(pen, entry("observation", "2026-05-20T18:00:00+02:00", text="Dew"))["zones"] == {}


def test_a_log_the_engine_refuses_is_an_error_with_its_facts() -> None:
    bad = [{"id": "e1", "kind": "mow", "occurred_at": "yesterday"}]
    with pytest.raises(fold.Unfoldable) as refused:
        fold.totals(bad, TODAY)
    assert refused.value.error["name"] == "entries[0].occurred_at"
