"""A newer build, an older one again, and none: by a yes, mid-sync, and by the kill-switch (S18, F42, F43)."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.journeys import acts
from tests.journeys.book import Book, start_book
from tests.journeys.builds import other_build, serve
from tests.journeys.phone import Phone
from tests.journeys.server import Server

SCRIPT = "return document.querySelector('script[type=module]').getAttribute('src')"
UPDATE = "return navigator.serviceWorker.getRegistration().then((known) => known.update()).then(() => true)"
STATE = """
return Promise.all([caches.keys(), navigator.serviceWorker.getRegistrations()])
  .then(([kept, workers]) => [kept.length, workers.length]);
"""
# The solver's files come through the worker, half a minute after the start: this one is asked for and never answered.
HANGS = """
window.asked = fetch("/assets/highs-never.wasm").catch(() => 0);
return true;
"""
NEWER = "A newer version is on this phone."


@pytest.fixture(scope="module")
def builds(built_frontend: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """Two builds: what a phone has, and what comes after it."""
    folder = tmp_path_factory.mktemp("builds")
    return other_build(built_frontend, folder / "old", "A"), other_build(built_frontend, folder / "new", "B")


@pytest.fixture
def server(builds: tuple[Path, Path]) -> Iterator[Server]:
    """A server of its own, with the older build."""
    made = Server()
    serve(made, builds[0])
    yield made
    made.close()


@pytest.fixture
def kept(phone: Phone, book: Book) -> Phone:
    """A phone that has the older build and a household with one zone."""
    book.zone("Verge")
    acts.sign_in(phone, book.email)
    phone.see_role("button", "Mowed: Verge")
    acts.wait_installed(phone)
    phone.reload()  # from now on the worker serves it
    phone.see_role("button", "Mowed: Verge")
    return phone


def built_as(phone: Phone, tag: str) -> bool:
    """Is the page of the build with that tag?"""
    return str(phone.evaluate(SCRIPT)).endswith(f"{tag}.js")


def test_s18_a_newer_build_waits_for_a_yes_and_older_pages_keep_working(
    kept: Phone, server: Server, builds: tuple[Path, Path]
) -> None:
    kept.add_tab()
    kept.open("/shed/product/new")
    kept.fill("Name", "Half typed")
    serve(server, builds[1], former=builds[0])
    kept.evaluate(UPDATE)
    kept.see(NEWER)
    assert built_as(kept, "A"), "it waits"
    assert kept.value("Name") == "Half typed", "and interrupts nothing"
    kept.fill("Name", "Typed on")
    kept.tap("button", "Use it now")
    kept.wait(lambda: built_as(kept, "B"), "the newer build was not taken")
    kept.wait(lambda: kept.value("Name") == "Typed on", "what was typed is gone")
    server.stop()  # the older page finds the screens it has not opened yet on the phone itself
    kept.show_tab(0)
    assert built_as(kept, "A"), "nobody asked this page"
    for name in ("Season", "Ground", "Log"):
        acts.place(kept, name)


def test_f42_a_worker_that_takes_over_while_entries_are_being_sent_loses_and_doubles_none(
    kept: Phone, server: Server, book: Book, builds: tuple[Path, Path]
) -> None:
    serve(server, builds[1], former=builds[0])
    kept.evaluate(UPDATE)
    kept.see(NEWER)
    server.hang()
    kept.tap("button", "Mowed: Verge")
    acts.wait_on_its_way(kept)
    kept.tap("button", "Use it now")
    kept.wait(lambda: built_as(kept, "B"), "the newer build was not taken")
    server.go_on()
    kept.see_role("button", "Mowed again: Verge")
    acts.all_saved(kept)
    assert len(book.entries()) == 1


def test_f42_a_file_that_hangs_holds_no_newer_build_back(
    kept: Phone, server: Server, book: Book, builds: tuple[Path, Path]
) -> None:
    serve(server, builds[1], former=builds[0])
    kept.evaluate(UPDATE)
    kept.see(NEWER)
    server.hang()
    kept.evaluate(HANGS)
    kept.tap("button", "Use it now")
    kept.wait(lambda: built_as(kept, "B"), "the newer build was not taken")
    server.go_on()
    kept.see_role("button", "Mowed: Verge")
    assert book.entries() == []


def test_f43_after_a_rollback_the_older_build_goes_on_with_the_newer_ones_book(
    kept: Phone, server: Server, book: Book, builds: tuple[Path, Path]
) -> None:
    old, new = builds
    serve(server, new, former=old)
    kept.evaluate(UPDATE)
    kept.tap("button", "Use it now")
    kept.wait(lambda: built_as(kept, "B"), "the newer build was not taken")
    kept.tap("button", "Mowed: Verge")
    serve(server, old, former=new)
    kept.evaluate(UPDATE)
    kept.see(NEWER)
    kept.tap("button", "Use it now")
    kept.wait(lambda: built_as(kept, "A"), "the older build was not taken")
    kept.see_role("button", "Mowed again: Verge")
    acts.all_saved(kept)
    assert len(book.entries()) == 1


def test_s18_the_kill_switch_takes_the_caches_and_no_entry_and_can_be_undone(
    kept: Phone, server: Server, book: Book, builds: tuple[Path, Path]
) -> None:
    server.stop()
    kept.tap("button", "Mowed: Verge")
    kept.wait(lambda: acts.waiting(kept) == 1, "no entry waits")
    serve(server, builds[1], former=builds[0], worker=False)
    kept.evaluate("return navigator.serviceWorker.getRegistration().then((one) => one.update()).catch(() => 0)")
    kept.see("The server asks for a fresh start of the app.")
    kept.tap("button", "Reload")
    kept.wait(lambda: built_as(kept, "B"), "the page does not come from the server")
    kept.wait(lambda: kept.evaluate(STATE) == [0, 0], "caches or a worker are left")
    kept.see_role("button", "Mowed again: Verge")
    acts.all_saved(kept)
    assert len(book.entries()) == 1
    serve(server, builds[1])
    kept.reload()
    acts.wait_installed(kept)
    server.stop()
    kept.reload()
    kept.see_role("button", "Mowed again: Verge")


@pytest.fixture
def book(server: Server) -> Book:
    """A household of its own on this server."""
    return start_book(server)
