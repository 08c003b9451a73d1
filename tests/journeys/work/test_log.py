"""The log can be put right and never wiped."""

import csv
import io
import re

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server


@pytest.fixture
def entry(phone: Phone, book: Book) -> Phone:
    """A phone at the page of one mow in the log."""
    zone = book.zone("Verge")
    made = book.enter({"kind": "mow", "zone_ids": [zone], "cut_height_mm": 75})
    acts.signed_in(phone, book.email)
    phone.see_role("button", "Mowed again: Verge")
    phone.open(f"/log/{made}")
    phone.see_role("heading", "History")
    return phone


def test_a_note_amended_leaves_the_first_one_in_the_history(entry: Phone) -> None:
    entry.tap("button", "Add a note")
    entry.fill("Note", "Blade was blunt")
    entry.tap("button", "Save the note")
    entry.see("Note saved.")
    entry.tap("button", "Edit the note")
    entry.fill("Note", "Blade sharpened since")
    entry.tap("button", "Save the note")
    entry.see("Blade sharpened since")
    entry.reload()
    entry.see("Blade sharpened since")
    entry.see("Blade was blunt")
    entry.see(re.compile(r"Blade sharpened since\s*First Keeper"))  # one line of the history


def test_an_entry_struck_out_counts_no_more_and_can_be_put_back(entry: Phone) -> None:
    entry.tap("button", "Cross out")
    entry.fill("Reason (optional)", "Rain came first")
    entry.tap("button", "Cross out", inside=("dialog", "Cross out this entry?"))
    entry.see("Crossed out. You can restore it.")
    entry.see("Rain came first")
    acts.place(entry, "Today")
    entry.see_role("button", "Mowed: Verge")
    entry.see("Not mowed yet")
    acts.place(entry, "Log")
    entry.see("Crossed out")
    entry.tap("link", re.compile("^Mow"))
    entry.tap("button", "Restore")
    entry.see("Restored. It counts again.")
    acts.place(entry, "Today")
    entry.see_role("button", "Mowed again: Verge")


# What the page hands to the browser as a file.
KEEP_FILES = """
window.kept = [];
const make = URL.createObjectURL;
URL.createObjectURL = (blob) => {
  blob.text().then((text) => window.kept.push(text));
  return make.call(URL, blob);
};
"""


def test_the_log_is_saved_as_a_table_without_signal_and_read_back_whole(
    phone: Phone, book: Book, server: Server
) -> None:
    zone = book.zone('Verge, "north"')
    noted = '=1+1, "wet"\nand long'
    book.enter({"kind": "mow", "zone_ids": [zone], "cut_height_mm": 63.5})
    book.enter({"kind": "observation", "zone_ids": [zone], "text": noted})
    acts.signed_in(phone, book.email)
    phone.see_role("button", re.compile("^Mowed again"))
    acts.wait_installed(phone)
    server.stop()
    acts.place(phone, "Log")
    phone.evaluate(KEEP_FILES)
    phone.tap("button", "Save as a table")
    phone.tap("button", "Save the table")
    text = str(phone.wait(lambda: phone.evaluate("return window.kept[0]"), "no file was made"))
    rows = {row["kind"]: row for row in csv.DictReader(io.StringIO(text.removeprefix("\ufeff"), newline=""))}
    assert set(rows) == {"mow", "observation"}
    assert rows["mow"]["cut_height_mm"] == "63.5"
    assert {row["zones"] for row in rows.values()} == {'Verge, "north"'}
    assert rows["observation"]["text"] == "'" + noted  # no spreadsheet runs it
    assert rows["observation"]["done_by"] == "First Keeper"
