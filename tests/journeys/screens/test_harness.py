"""The harness itself, proved on small pages of its own: each check sees its fault and stays quiet without it."""

import functools
import http.server
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.browsers import MakePhone
from tests.journeys.phone import COLOURS, Impatient, Phone

PAGE = """<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Trial page</title>
<meta name="viewport" content="width=device-width"><link rel="stylesheet" href="{css}">
<script src="trial.js" defer></script></head><body>{body}</body></html>"""

GOOD = """<main><h1>Trial</h1><button id="add">Add one</button> <output>0 so far</output>
<p><label>Width <input id="w" aria-describedby="wm"></label> <span id="wm"></span></p>
<p><label>Unit <select><option>ft</option><option>m</option></select></label></p>
<fieldset><legend>Shape</legend><label><input type="radio" name="s">Circle</label>
<label><input type="radio" name="s" id="sq">Square</label></fieldset>
<button hidden>Unseen</button><dialog aria-label="Sure"><button id="no">No</button></dialog>
<button id="ask">Ask</button>
<p><label>Late <select id="late"><option>none yet</option></select></label> <button id="later">Later</button></p>
<button id="small" style="display:none">Soon large</button></main>"""
SCRIPT = """
let n = 0; const by = (id) => document.getElementById(id);
by("add")?.addEventListener("click", () => { n += 1; document.querySelector("output").textContent = `${n} so far`; });
by("ask")?.addEventListener("click", () => document.querySelector("dialog").showModal());
by("no")?.addEventListener("click", () => document.querySelector("dialog").close());
const busy = (is) => document.querySelector("main").setAttribute("aria-busy", is);
by("later")?.addEventListener("click", () => { busy(true); by("small").className = "small";
  by("small").style.display = "block";
  setTimeout(() => { by("late").append(new Option("there now")); by("small").className = ""; busy(false); }, 300); });
by("w")?.addEventListener("input", (e) => { const bad = Number.isNaN(Number(e.target.value));
  e.target.setAttribute("aria-invalid", bad); by("wm").textContent = bad ? "Not a number. Write digits." : ""; });
"""
GOOD_CSS = """body{margin:8px;font:16px/1.5 sans-serif;color:#111;background:#fff}
button,input,select,label{min-height:48px} label{display:inline-block}
button.small{min-height:18px;height:18px;padding:0}"""
BAD = """<main><h1>Trial</h1><img src="none.png"><div class="wide">wide</div>
<button class="cut">A long name cut</button>
<p class="one">lies upon</p><p class="two">one another</p><button class="under">Under it</button>
<div class="lid">lid</div><button class="small">s</button></main>"""
BAD_CSS = """body{margin:0;font:16px/1.5 sans-serif;color:#bbb;background:#fff;position:relative;min-height:600px}
.wide{width:500px}.cut{width:40px;overflow:hidden;white-space:nowrap}.one,.two{position:absolute;top:300px;margin:0}
.under,.lid{position:absolute;top:400px;left:0;width:100px;height:60px}.lid{background:#eee;z-index:2}
.small{position:absolute;top:500px;height:18px;padding:0}"""
FILES = {
    "/good.html": ("text/html", PAGE.format(css="good.css", body=GOOD)),
    "/bad.html": ("text/html", PAGE.format(css="bad.css", body=BAD)),
    "/good.css": ("text/css", GOOD_CSS),
    "/bad.css": ("text/css", BAD_CSS),
    "/trial.js": ("text/javascript", SCRIPT),
    "/worker.js": ("text/javascript", "// It does nothing: only that it is there is asked."),
}


class Pages(http.server.BaseHTTPRequestHandler):
    """Serves the trial pages under the strictness the real server has."""

    def do_GET(self) -> None:
        """Answer with the file asked for, or 404."""
        kind, text = FILES.get(self.path, ("text/plain", ""))
        self.send_response(200 if text else 404)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Security-Policy", "default-src 'self'")
        self.end_headers()
        self.wfile.write(text.encode())

    def log_message(self, format: str, *args: object) -> None:
        """Keep quiet."""


@pytest.fixture(scope="module")
def pages() -> Iterator[str]:
    """The address of the trial pages."""
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Pages)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()


@pytest.fixture
def trial(make_phone: MakePhone, pages: str, tmp_path: Path, lasting: bool) -> Iterator[Phone]:
    """A phone on the good trial page."""
    phone = make_phone(pages, tmp_path, lasting=lasting)
    phone.open("/good.html")
    yield phone
    phone.quit()


def test_a_phone_acts_by_role_and_name(trial: Phone) -> None:
    trial.tap("button", "Add one")
    trial.see("1 so far")
    trial.fill("Width", "abc")
    trial.see_complaint("Width", "Write digits")
    trial.fill("Width", "12")
    assert trial.value("Width") == "12"
    trial.choose("Unit", "m")
    assert trial.value("Unit") == "m"
    trial.choose("Shape", "Square")
    assert trial.evaluate("return document.getElementById('sq').checked")
    trial.wait(lambda: trial.evaluate("return [innerWidth, innerHeight]") == [360, 640], "not 360 × 640")


def test_a_phone_does_not_find_what_a_person_cannot_reach(trial: Phone) -> None:
    assert not trial.sees_role("button", "Unseen")
    assert not trial.sees("Unseen")
    trial.tap("button", "Ask")
    trial.see_role("button", "No")
    assert not trial.sees_role("button", "Add one"), "a modal dialog makes the rest of the page inert"
    trial.tap("button", "No")
    trial.tap("button", "Add one")


def test_what_comes_late_is_waited_for(trial: Phone) -> None:
    trial.tap("button", "Later")
    trial.choose("Late", "there now")
    assert trial.value("Late") == "there now"


def test_a_screen_is_judged_once_it_is_at_rest(trial: Phone) -> None:
    trial.tap("button", "Later")
    assert trial.layout_faults() == []


def test_waiting_ends_with_what_the_page_showed(trial: Phone) -> None:
    with pytest.raises(Impatient, match='button "Add one"'):
        trial.wait(functools.partial(trial.sees, "never there"), "hopeless", patience_s=0.1)


def test_a_sound_page_has_no_faults(trial: Phone) -> None:
    assert trial.axe() == []
    assert trial.layout_faults() == []


SIGNS = (
    "page scrolls sideways",
    'wide" spans 0 to 500',
    'text of <button .cut> "A long name cut" needs',
    '"lies upon" lies upon "one another"',
    'Under it" is covered by <div .lid>',
    's" is 18 px high, needs 44',
)


def test_each_fault_of_layout_is_seen(trial: Phone) -> None:
    trial.open("/bad.html")
    faults = trial.layout_faults()
    assert [sign for sign in SIGNS if not any(sign in fault for fault in faults)] == [], faults


def test_the_accessibility_checker_sees_faults(trial: Phone) -> None:
    trial.open("/bad.html")
    found = " ".join(trial.axe())
    assert "image-alt" in found
    assert "color-contrast" in found
    assert {fault.partition(":")[0] for fault in trial.axe(COLOURS)} == {"color-contrast"}


@pytest.mark.lasting
def test_a_killed_page_is_gone_and_the_next_one_works(trial: Phone) -> None:
    trial.tap("button", "Add one")
    trial.kill_page()
    trial.open("/good.html")
    trial.see("0 so far")


def test_a_picture_is_kept(trial: Phone) -> None:
    assert trial.screenshot("trial").read_bytes().startswith(b"\x89PNG")


# What a page can keep, of each sort that the app keeps; and how much of it there is.
KEEP = """
localStorage.setItem("kept", "1"); sessionStorage.setItem("kept", "1"); document.cookie = "kept=1; max-age=3600";
const made = new Promise((done) => {
  const opening = indexedDB.open("kept", 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore("kept");
  opening.onsuccess = () => { opening.result.close(); done(); };
});
return Promise.all([made, caches.open("kept"), navigator.serviceWorker.register("/worker.js")]).then(() => true);
"""
KEPT = """
const all = [indexedDB.databases(), caches.keys(), navigator.serviceWorker.getRegistrations()];
return Promise.all(all).then((found) => [localStorage, sessionStorage, ...found].map((one) => one.length)
  .concat(document.cookie ? 1 : 0));
"""


def test_what_one_phone_keeps_no_other_sees_neither_beside_it_nor_after_it(
    make_phone: MakePhone, pages: str, tmp_path: Path, lasting: bool
) -> None:
    def phone() -> Phone:
        made = make_phone(pages, tmp_path, lasting=lasting)
        made.open("/good.html")
        return made

    first = phone()
    try:
        assert first.evaluate(KEPT) == [0] * 6
        first.evaluate(KEEP)
        assert first.evaluate(KEPT) == [1] * 6
        beside = phone()
        assert beside.evaluate(KEPT) == [0] * 6
        beside.quit()
        assert first.evaluate(KEPT) == [1] * 6
    finally:
        first.quit()
    after = phone()
    assert after.evaluate(KEPT) == [0] * 6
    after.quit()


REMEMBERED = """
const {session} = JSON.parse(localStorage.getItem("evenfall.session"));
return new Promise((done, fail) => {
  const opening = indexedDB.open("evenfall", 1);
  opening.onerror = () => fail(opening.error);
  opening.onsuccess = () => {
    const asked = opening.result.transaction("kept").objectStore("kept").get("evenfall.session");
    asked.onsuccess = () => { opening.result.close(); done([session, asked.result.session]); };
  };
});
"""


def test_a_phone_signed_in_before_remembers_what_a_sign_in_by_hand_leaves(
    new_phone: Callable[[], Phone], book: Book
) -> None:
    by_hand, before = new_phone(), new_phone()
    acts.sign_in(by_hand, book.email)
    acts.signed_in(before, book.email)
    for phone in (by_hand, before):
        acts.all_saved(phone)
    assert by_hand.evaluate(REMEMBERED) == before.evaluate(REMEMBERED)
