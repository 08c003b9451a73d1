"""A phone with Chromium, driven by Playwright, on a profile kept on disk.

The profile is a folder, so ending the browser and starting it again offline is a true cold start. What a killed
Chromium has kept is told apart: IndexedDB written with strict durability at once, local storage after about 5 s,
cookies after about 30 s (measured); ending it in order writes all of them.
"""

import os
import signal
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from playwright.sync_api import (
    Browser,
    BrowserContext,
    CDPSession,
    ElementHandle,
    Error,
    Page,
    Playwright,
    ViewportSize,
)

from tests.journeys.phone import Gone, Phone

# Plain headless, and nothing fetched that the app did not ask for. No sandbox: tests may run as root.
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip
# Playwright itself waits for an element to stand still, uncovered and enabled. One that is taken off the page ends the
# wait at once, and the caller looks again; a short wait might end after the tap and make it twice.
TAP_MS = 30_000
VIEWPORT: ViewportSize = {"width": 360, "height": 640}
LOAD_MS = 120_000  # a whole page on a crowded machine; only a failure waits this long


class Chromium(Phone):
    """One Chromium process with its own profile."""

    browser = "chromium"

    def __init__(self, playwright: Playwright, executable: str | None, base_url: str, pictures: Path) -> None:
        super().__init__(base_url, pictures)
        self._playwright = playwright
        self._executable = executable
        self._folder = tempfile.TemporaryDirectory(prefix="phone-", ignore_cleanup_errors=True)
        self._offline = False
        self.start()

    @property
    def profile(self) -> str:
        """The folder that holds what this browser keeps."""
        return self._folder.name

    def start(self) -> None:
        """Start the browser on its profile, as a person opens it from the home screen."""
        self.context: BrowserContext = self._begun()
        self.context.set_default_timeout(LOAD_MS)
        self.page: Page = self.context.pages[0] if self.context.pages else self.context.new_page()
        self.context.set_offline(self._offline)

    def _begun(self) -> BrowserContext:
        return self._playwright.chromium.launch_persistent_context(
            self._folder.name,
            executable_path=self._executable,
            headless=True,
            args=FLAGS,
            viewport=VIEWPORT,
            has_touch=True,
            accept_downloads=True,
            timeout=LOAD_MS,
        )

    def evaluate(self, body: str, *arguments: object) -> Any:
        """Run a function body in the page with `arguments`; a returned promise is awaited."""
        try:
            return self.page.evaluate(_wrapped(body), list(arguments))
        except Error as trouble:
            raise _told(trouble) from trouble

    def element(self, body: str, *arguments: object) -> ElementHandle | None:
        """Run a function body that returns an element; a handle on it, or None."""
        try:
            return self.page.evaluate_handle(_wrapped(body), list(arguments)).as_element()
        except Error as trouble:
            raise _told(trouble) from trouble

    def goto(self, url: str) -> None:
        """Load a whole page by address."""
        self._load(lambda: self.page.goto(url, wait_until="load"))

    def reload(self) -> None:
        """Load the present page again."""
        self._load(lambda: self.page.reload(wait_until="load"))

    def _load(self, load: Callable[[], object]) -> None:
        """Load, once more where a sheet just closed is still on its way back to its page: faster than any hand."""
        try:
            load()
        except Error as trouble:
            if "ERR_ABORTED" not in str(trouble):
                raise
            load()

    def back(self) -> None:
        """Press the browser's back."""
        self.page.go_back(wait_until="commit")

    def click(self, element: ElementHandle) -> None:
        """Tap an element, scrolled into view, as a finger would."""
        self._on_element(lambda: element.click(timeout=TAP_MS))

    def type_into(self, element: ElementHandle, text: str) -> None:
        """Replace what a field holds by `text`, typed."""
        self._on_element(lambda: element.fill(text, timeout=TAP_MS))

    def option_words(self, element: ElementHandle, wanted: object) -> str | None:
        """The words of the matching option of a select element; None for any other element."""
        try:
            words = element.evaluate("(element, wanted) => __journey.optionWords(element, wanted)", wanted)
        except Error as trouble:  # options may come after their field
            raise _told(trouble) from trouble
        return None if words is None else str(words)

    def pick(self, element: ElementHandle, option: str) -> None:
        """Choose the option of a select element by its visible words."""
        self._on_element(lambda: element.select_option(label=option.strip(), timeout=TAP_MS))

    def touch(self, element: ElementHandle, x: float, y: float) -> None:
        """Tap a drawing at a place, in CSS pixels from its top left corner."""
        self._on_element(lambda: element.click(position={"x": x, "y": y}, timeout=TAP_MS))

    def give_file(self, element: ElementHandle, path: Path) -> None:
        """Choose that file for a file input."""
        self._on_element(lambda: element.set_input_files(path))

    def size(self, width: int, height: int) -> None:
        """Give the page a viewport of that many CSS pixels."""
        self.page.set_viewport_size({"width": width, "height": height})

    def picture(self, path: Path) -> None:
        """Save what the screen shows as PNG."""
        self.page.screenshot(path=path, animations="disabled")

    def offline(self, on: bool) -> None:
        """Cut the browser's network by emulation, service worker included."""
        self._offline = on
        self.context.set_offline(on)

    def devtools(self) -> CDPSession:
        """A DevTools session on the page, for what no test library offers (CPU slowing, traces)."""
        return self.context.new_cdp_session(self.page)

    def kill_page(self) -> None:
        """End every process of this browser by SIGKILL and start it again on the same profile."""
        for pid, _ in processes_on(self.profile):
            _end(pid)
        try:
            self.context.close()
        except Error:
            pass  # already dead, which was the point
        self._forget_lock()
        self.start()

    def add_tab(self) -> None:
        """Open another tab of the same browser and turn to it."""
        self.page = self.context.new_page()

    def show_tab(self, number: int) -> None:
        """Turn to a tab by its number."""
        self.page = self.context.pages[number]

    def close_tab(self) -> None:
        """Close the present tab and turn to the first of those left."""
        self.page.close()
        self.show_tab(0)

    def freeze_tab(self, number: int) -> Callable[[], None]:
        """Freeze a tab as Chromium itself does with those long out of sight."""
        devtools = self.context.new_cdp_session(self.context.pages[number])
        devtools.send("Page.setWebLifecycleState", {"state": "frozen"})

        def go_on() -> None:
            devtools.send("Page.setWebLifecycleState", {"state": "active"})

        return go_on

    def restart(self) -> None:
        """End the whole browser and start it again on the same profile."""
        self.context.close()
        self.start()

    def quit(self) -> None:
        """Put the phone away for good."""
        try:
            self.context.close()
        finally:
            self._folder.cleanup()

    def _forget_lock(self) -> None:
        """A killed Chromium leaves its profile's lock behind; its owner is dead, so it may go."""
        for lock in Path(self._folder.name).glob("Singleton*"):
            lock.unlink(missing_ok=True)

    @staticmethod
    def _on_element(act: Any) -> None:
        try:
            act()
        except Error as trouble:
            raise Gone(str(trouble)) from trouble


class Warm(Chromium):
    """A phone among others in one browser that is kept running: a context of its own, in memory, that ends with it.

    Contexts share nothing that a page can keep or see (test_harness.py tries it). What is written to a disk, and a
    browser that ends, are for phones with a profile: journeys of lasting/ and those marked so.
    """

    def __init__(self, browser: Browser, base_url: str, pictures: Path) -> None:
        Phone.__init__(self, base_url, pictures)
        self._browser = browser
        self._offline = False
        self.start()

    def _begun(self) -> BrowserContext:
        return self._browser.new_context(viewport=VIEWPORT, has_touch=True, accept_downloads=True)

    @property
    def profile(self) -> str:
        """There is none."""
        raise AssertionError(NO_PROFILE)

    def kill_page(self) -> None:
        """Not this browser: others use it."""
        raise AssertionError(NO_PROFILE)

    def restart(self) -> None:
        """Not this browser: others use it."""
        raise AssertionError(NO_PROFILE)

    def quit(self) -> None:
        """Put the phone away for good, with all it kept."""
        self.context.close()


NO_PROFILE = "this phone shares its browser with others: mark the journey with pytest.mark.lasting"


def _wrapped(body: str) -> str:
    return f"(list) => (function () {{ {body}\n }}).apply(null, list)"


def _told(trouble: Error) -> Exception:
    """A page that went away, or has not drawn yet what a script asks for, is worth another look; a dead one is not."""
    return trouble if "has been closed" in str(trouble) else Gone(str(trouble))


def processes_on(folder: str) -> list[tuple[int, bytes]]:
    """Processes whose command line names that profile folder, with it: this phone's own and nobody else's."""
    found = []
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                command = (entry / "cmdline").read_bytes()
            except OSError:
                continue
            if f"--user-data-dir={folder}".encode() in command:
                found.append((int(entry.name), command))
    return found


def _end(pid: int) -> None:
    try:
        os.kill(pid, signal.SIGKILL)
    except ProcessLookupError:
        pass
