"""What two people did apart to the same grass, and what they said they would do: seen on every phone."""

import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

MakePhone = Callable[[], Phone]
FED_TWICE = "Put down again sooner than the label allows"
SHORTLY = "Put down again too soon"


def two_members(new_phone: MakePhone, book: Book) -> tuple[Phone, Phone]:
    """The keeper's phone, and that of somebody who has just joined by a link."""
    keeper, member = new_phone(), new_phone()
    acts.signed_in(keeper, book.email)
    acts.join(member, acts.invite(keeper), "Second Keeper")
    return keeper, member


def fed(book: Book, zone: str, product: str, days_ago: int) -> str:
    """A spreading job over a zone, that many days ago."""
    at = datetime.now(UTC) - timedelta(days=days_ago)
    ground = {"zone_id": zone, "area_m2": 200.0, "used_kg": 2.0, "n_kg_m2": 0.0003}
    return book.enter(
        {
            "kind": "spread", "occurred_at": at.isoformat(timespec="seconds"), "zone_ids": [zone],
            "product_id": product, "aim": {"by": "label"}, "area_m2": 200.0, "target_kg_m2": 0.01, "used_kg": 2.0,
            "sort": "fertilizer", "n_percent": 3.0, "zones": [ground],
        }
    )  # fmt: skip


def feed_offline(phone: Phone) -> None:
    """Walk the zone once with the product, from the first step to the finish card."""
    phone.open("/spread")
    phone.tap("checkbox", re.compile("^Verge"))
    acts.choose_walk(phone, "Slow feed", "Two wheels")
    phone.tap("button", re.compile("^Start pass 1 at dial"))
    acts.walk_pass(phone, 1, left="8")
    phone.tap("button", re.compile("^Finish( here)?$"))
    phone.see_role("heading", "Spreading saved")


def test_f34_s04_a_zone_fed_on_two_phones_apart_is_a_card_on_both_until_one_settles_it(
    new_phone: MakePhone, server: Server, book: Book
) -> None:
    book.zone("Verge", area_m2=185.8)
    # so little nitrogen that twice of it passes no ceiling: the days between are all that is wrong
    little = {"n_percent": 3.0, "p2o5_percent": 0.0, "k2o_percent": 9.0}
    book.product("Slow feed", caution={"interval_days": 42}, analysis=little)
    book.spreader("Two wheels")
    first, second = two_members(new_phone, book)
    for phone in (first, second):
        acts.wait_installed(phone)
        phone.open("/")
        phone.see("Not mowed yet")
        acts.all_saved(phone)
    server.stop()
    for phone in (first, second):
        feed_offline(phone)
        assert not phone.sees(FED_TWICE)
    server.start()

    for phone in (first, second):
        phone.open("/")
        acts.all_saved(phone)
        phone.see_role("heading", FED_TWICE)
        phone.see("was put down twice, on the same day. The label says wait at least 42 days.")
        assert phone.axe() + phone.layout_faults() == []
        for place in acts.PLACES[1:]:
            acts.place(phone, place)
            phone.see_role("link", re.compile(SHORTLY))
            assert phone.axe() + phone.layout_faults() == []

    first.tap("link", re.compile(SHORTLY))
    first.tap("button", "Both are right")
    first.fill("Note (optional)", "We talked; nothing more until the later date")
    first.tap("button", "Resolve")
    first.see("Resolved on every phone.")
    first.gone(FED_TWICE)
    acts.all_saved(first)
    second.open("/log")
    acts.all_saved(second)
    second.gone(SHORTLY)
    acts.place(second, "Today")
    second.see_role("heading", "Latest entries")
    second.gone(FED_TWICE)


def test_s04_striking_one_of_the_two_out_ends_the_warning_on_both(new_phone: MakePhone, book: Book) -> None:
    zone, product = book.zone("Verge"), book.product("Slow feed", caution={"interval_days": 42})
    fed(book, zone, product, 5)
    fed(book, zone, product, 2)
    first, second = new_phone(), new_phone()
    for phone in (first, second):
        acts.signed_in(phone, book.email)
        phone.see("was put down twice, 3 days apart.")
    first.tap("button", re.compile("^Days between the two"))
    first.see("Least days between the two")
    assert first.axe() + first.layout_faults() == []
    first.tap("button", "Close")
    first.tap("button", re.compile("^Cross out: Spreading by First Keeper"), nth=1)
    first.tap("button", "Cross out", inside=("dialog", "Cross out this entry?"))
    first.see("Crossed out. You can restore it.")
    first.gone(FED_TWICE)
    acts.all_saved(first)
    second.open("/")
    acts.all_saved(second)
    second.gone(FED_TWICE)


def test_what_one_says_they_will_do_is_seen_on_the_other_phone_until_it_is_done(
    new_phone: MakePhone, book: Book
) -> None:
    book.zone("Verge")
    first, second = two_members(new_phone, book)
    second.tap("button", "I’ll do it: Verge")
    second.see("You’ll mow tonight")
    acts.all_saved(second)
    second.open("/")  # without the first tap's offer to undo
    first.open("/")
    first.see("Second Keeper will mow tonight")
    assert not first.sees_role("button", "I’ll do it: Verge")
    assert first.axe() + first.layout_faults() == []

    second.tap("button", re.compile("^Drop it: You’ll"))
    second.tap("button", "Undo")
    second.see("You’ll mow tonight")
    assert second.axe() + second.layout_faults() == []
    second.tap("button", re.compile("^Done: You’ll"))
    second.see("Mow logged.")
    second.gone("You’ll mow tonight")
    acts.all_saved(second)
    first.open("/")
    first.see_role("button", "Mowed again: Verge")
    first.gone("Second Keeper will mow tonight")


def test_a_job_is_claimed_for_another_day_with_a_note(phone: Phone, book: Book) -> None:
    book.zone("Verge")
    acts.signed_in(phone, book.email)
    phone.tap("button", "Take a job")
    assert phone.axe() + phone.layout_faults() == []
    phone.choose("Job", "Water")
    phone.fill("Note", "Only the new patch")
    phone.tap("button", "Take it")
    phone.see("You’ll water tonight")
    phone.see("Only the new patch")
    phone.tap("button", re.compile("^Done: You’ll"))
    phone.see("Marked watered.")
    phone.gone("You’ll water tonight")
