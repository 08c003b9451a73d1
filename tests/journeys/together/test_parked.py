"""Entries that were set aside: seen in words, mended and sent again, or thrown away by the person alone."""

import re
from collections.abc import Callable

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

# An older build's laxer form, or a fault of ours: a height of cut that no server takes lies in the outbox.
SPOIL = """
const books = (all) => all.map((one) => one.name).filter((one) => one.startsWith("evenfall:"));
return indexedDB.databases().then((all) => new Promise((done, fail) => {
  const [name] = books(all);
  const opening = indexedDB.open(name);
  opening.onerror = () => fail(opening.error);
  opening.onsuccess = () => {
    const db = opening.result;
    const write = db.transaction("outbox", "readwrite");
    const asked = write.objectStore("outbox").getAll();
    asked.onsuccess = () => {
      for (const op of asked.result) {
        const item = op.m.find((one) => one.set?.cut);
        if (!item) continue;
        item.set.cut = {cut_height_mm: 900};
        write.objectStore("outbox").put(op);
      }
    };
    write.oncomplete = () => { db.close(); done(true); };
    write.onabort = () => { db.close(); fail(write.error); };
  };
}));
"""


def set_aside(phone: Phone, server: Server, book: Book) -> None:
    """A zone's new height of cut, spoilt on its way and set aside by the server."""
    zone = book.zone("Verge")
    acts.signed_in(phone, book.email)
    acts.wait_installed(phone)
    phone.open(f"/ground/{zone}/edit")
    phone.see_role("button", "Save the zone")
    server.stop()
    phone.fill("Mowing height", "3")
    phone.tap("button", "Save the zone")
    phone.see_role("heading", "Verge")
    phone.wait(lambda: acts.waiting(phone) == 1, "the edit is not in the outbox")
    phone.evaluate(SPOIL)
    phone.put_away()
    server.start()
    phone.open("/")
    phone.see_role("link", "1 needs fixing")


def test_f14_s09_an_entry_set_aside_is_mended_field_by_field_and_sent_again(
    new_phone: Callable[[], Phone], server: Server, book: Book
) -> None:
    phone = new_phone()
    set_aside(phone, server, book)
    phone.tap("link", "1 needs fixing")
    phone.see_role("heading", "Needs fixing (1)")
    phone.see("Zone: Verge")
    assert phone.axe() + phone.layout_faults() == []

    phone.tap("link", "Fix: Zone: Verge")
    phone.see_complaint("Mowing height", "too large")
    assert phone.axe() + phone.layout_faults() == []
    phone.fill("Mowing height", "90")
    phone.tap("button", "Send it again")
    phone.see_complaint("Mowing height", "too large")
    phone.fill("Mowing height", "3.5")
    phone.tap("button", "Send it again")
    phone.see("Fixed and sent again.")
    phone.gone("Needs fixing (1)")
    acts.place(phone, "Today")
    acts.all_saved(phone)

    second = new_phone()
    acts.signed_in(second, book.email)
    acts.place(second, "Ground")
    second.tap("link", re.compile("^Verge"))
    second.see(re.compile(r"3\.5\s*in"))


def test_p1_what_was_set_aside_goes_only_after_asking(phone: Phone, server: Server, book: Book) -> None:
    set_aside(phone, server, book)
    phone.tap("link", "1 needs fixing")
    phone.tap("button", "Discard: Zone: Verge")
    phone.see("Once discarded it cannot be brought back")
    phone.tap("button", "Keep it")
    phone.reload()
    phone.see("Needs fixing (1)")
    phone.tap("button", "Discard: Zone: Verge")
    phone.tap("button", "Discard")
    phone.gone("Needs fixing (1)")
    acts.place(phone, "Today")
    acts.all_saved(phone)


def test_s09_an_entry_refused_for_a_lost_role_is_sent_as_it_is_once_the_role_is_back(
    new_phone: Callable[[], Phone], server: Server, book: Book
) -> None:
    """No planted fault: a keeper renames the household without signal and is a member when signal is back."""
    first, second = new_phone(), new_phone()
    acts.signed_in(first, book.email)
    acts.join(second, acts.invite(first), "Second Keeper")
    give_role(first, "Second Keeper", "Keeper")
    second.open("/household")
    second.see_role("button", "Rename the household")
    acts.wait_installed(second)
    server.stop()
    second.tap("button", "Rename the household")
    second.fill("Name", "The Bend")
    second.tap("button", "Save the name")
    second.wait(lambda: acts.waiting(second) == 1, "the name is not in the outbox")
    second.put_away()
    server.start()
    give_role(first, "Second Keeper", "Member")

    second.open("/household/entries")
    second.see("Only a keeper changes the household.")
    give_role(first, "Second Keeper", "Keeper")
    second.tap("button", re.compile("^Send again: Household"))
    second.gone("Needs fixing (1)")
    first.open("/household")
    first.see_role("heading", "The Bend")


def give_role(phone: Phone, name: str, role: str) -> None:
    """Change a member's role on the keeper's phone."""
    phone.open("/household")
    phone.tap("link", re.compile("^" + name))
    phone.choose(f"What {name} may do", role)
    phone.see(f"{name} is {role.lower()} now.")
