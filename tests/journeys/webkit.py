"""A phone with WebKit, the engine family of iPhone browsers: WebKitGTK's MiniBrowser by Selenium.

Its automation profile lives only as long as the browser. So "the app was closed" means here that its page
was closed and another opened within the same browser; a cold start from disk is Chromium's to show.
Network emulation does not exist here either: out of signal means that the server is stopped.
"""

import os
import signal
import subprocess
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from selenium import webdriver
from selenium.common.exceptions import (
    ElementClickInterceptedException,
    ElementNotInteractableException,
    JavascriptException,
    NoSuchWindowException,
    SessionNotCreatedException,
    StaleElementReferenceException,
    WebDriverException,
)
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.remote.client_config import ClientConfig
from selenium.webdriver.remote.file_detector import UselessFileDetector
from selenium.webdriver.remote.remote_connection import RemoteConnection
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.ui import Select
from selenium.webdriver.webkitgtk.service import Service
from urllib3.exceptions import HTTPError

from tests.journeys.phone import Gone, Phone

_PROMISED = """
const list = [...arguments]; const done = list.pop();
Promise.resolve((function () { %s
 }).apply(null, list)).then((value) => done({value}), (trouble) => done({trouble: String(trouble)}));
"""
_STILL = """
const element = arguments[0];
element.scrollIntoView({block: "center", inline: "nearest", behavior: "instant"});
const at = () => { const box = element.getBoundingClientRect(); return [box.left, box.top, box.width, box.height]; };
const frame = () => new Promise((done) => requestAnimationFrame(done));
const before = at();
return frame().then(frame).then(frame).then(() => {
  const [left, top, width, height] = at();
  const met = document.elementFromPoint(left + width / 2, top + height / 2);
  const same = before.every((value, k) => value === at()[k]);
  const able = !element.disabled && element.getAttribute("aria-disabled") !== "true";
  if (!same || !able || !met || !(element.contains(met) || met.contains(element))) return false;
  window.__tap = {element, met};
  return true;
});
"""
# The page may be laid out anew between that look and the tap, or begin to rest. So where the click was heard is noted,
# and whether a button refused it for that (`ui/parts/button`): it did nothing, and a person taps again.
_LISTEN = """
const {element, met} = window.__tap; const tap = window.__tap = {heard: ""};
const label = (target) => [...(element.labels ?? [])].some((one) => one.contains(target));
window.addEventListener("click", ({target}) => {
  tap.heard ||= target === met || element.contains(target) || label(target) ? "here" : "elsewhere";
}, {capture: true});
window.addEventListener("click", ({target, defaultPrevented}) => {
  if (defaultPrevented && target.closest("button.button")) tap.heard = "at rest";
});
return true;
"""
_HEARD = "return window.__tap ? window.__tap.heard : 'here'"  # a tap that led to another page was heard
_LOST = (JavascriptException, NoSuchWindowException, StaleElementReferenceException)
_UNREAD = "Could not parse script result"  # the driver's words where the page left before it had answered
_ELEMENT_TROUBLE = (
    ElementClickInterceptedException,
    ElementNotInteractableException,
    StaleElementReferenceException,
)

START_S = 30  # at the first try; each later one is given so much more
START_TRIES = 5
SCRIPT_S = 120
LOAD_S = 120
COMMAND_S = 180
HEARD_S = 5.0  # from a tap to its click; WebDriver answers once it is made


_WORK = "const end = performance.now() + 400; while (performance.now() < end) Math.sqrt(end);"


def _descendants(pid: int) -> list[int]:
    try:
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
    except OSError:
        return []
    return [one for child in children for one in (int(child), *_descendants(int(child)))]


def _command(pid: int) -> bytes:
    with suppress(OSError):
        return Path(f"/proc/{pid}/cmdline").read_bytes()
    return b""


def _busy(pid: int) -> int:
    """Clock ticks that process has worked (proc(5), stat: utime)."""
    with suppress(OSError):
        return int(Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[11])
    return 0


class Display:
    """A screen that is not there: Xvfb on a number it picks itself."""

    def __init__(self) -> None:
        reading, writing = os.pipe()
        command = ["Xvfb", "-displayfd", str(writing), "-screen", "0", "1400x1000x24", "-nolisten", "tcp"]
        command += [
            "-noreset"
        ]  # else it restarts whenever the last window closes, and the next browser finds no screen
        self._process = subprocess.Popen(command, pass_fds=(writing,), stderr=subprocess.DEVNULL)
        os.close(writing)
        with os.fdopen(reading) as told:  # it writes number and line end apart: closing in between would kill it
            self.name = ":" + told.readline().strip()

    def close(self) -> None:
        """Take the screen away."""
        self._process.terminate()
        self._process.wait()


@contextmanager
def _gone_where_lost() -> Iterator[None]:
    """Raise Gone where the driver says that the page went away while it was asked."""
    try:
        yield
    except WebDriverException as trouble:
        if isinstance(trouble, _LOST) or _UNREAD in str(trouble):
            raise Gone(str(trouble)) from trouble
        raise


class WebKit(Phone):
    """One MiniBrowser under WebKitWebDriver."""

    browser = "webkit"

    def __init__(self, driver_path: str, browser_path: str, display: Display, base_url: str, pictures: Path) -> None:
        super().__init__(base_url, pictures)
        self._tabs: list[str] = []
        self._environment = {
            **os.environ,
            "DISPLAY": display.name,
            "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS": "1",  # tests may run as root
        }
        self._options = webdriver.WebKitGTKOptions()
        self._options.binary_location = browser_path
        self._options.add_argument("--automation")
        self._options.add_argument("--full-screen")  # no toolbar, so that the window is the viewport
        self.driver = self._started(driver_path)
        self.driver.set_script_timeout(SCRIPT_S)
        self.driver.set_page_load_timeout(LOAD_S)
        self.size(360, 640)

    def _started(self, driver_path: str) -> webdriver.Remote:
        """Start driver and browser; on a crowded machine the browser now and then hangs while starting: again."""
        for tried in range(1, START_TRIES + 1):
            self._service = Service(driver_path, env=self._environment)
            self._service.start()
            try:
                return self._connected(tried * START_S)
            except (TimeoutError, HTTPError, SessionNotCreatedException):
                self._end_service()
                if tried == START_TRIES:
                    raise
        raise AssertionError("unreachable")

    def _connected(self, patience_s: int) -> webdriver.Remote:
        address = self._service.service_url
        patient = ClientConfig(remote_server_addr=address, timeout=patience_s)
        driver = webdriver.Remote(command_executor=RemoteConnection(client_config=patient), options=self._options)
        patient.timeout = COMMAND_S
        return driver

    def _end_service(self) -> None:
        """End the driver and the browser it started."""
        process = self._service.process
        if process is None:
            return
        children = Path(f"/proc/{process.pid}/task/{process.pid}/children")
        with suppress(FileNotFoundError, ProcessLookupError):  # ended by itself meanwhile, as it should
            for child in children.read_text().split():
                os.kill(int(child), signal.SIGKILL)
        process.kill()
        process.wait()

    def evaluate(self, body: str, *arguments: object) -> Any:
        """Run a function body in the page with `arguments`; a returned promise is awaited."""
        with _gone_where_lost():
            answer = self.driver.execute_async_script(_PROMISED % body, *arguments)
        if "trouble" in answer:
            raise Gone(answer["trouble"])
        return answer.get("value")

    def element(self, body: str, *arguments: object) -> WebElement | None:
        """Run a function body that returns an element; a handle on it, or None."""
        with _gone_where_lost():
            found = self.driver.execute_script(body, *arguments)
        return found if isinstance(found, WebElement) else None

    def goto(self, url: str) -> None:
        """Load a whole page by address."""
        self.driver.get(url)

    def reload(self) -> None:
        """Load the present page again."""
        self.driver.refresh()

    def back(self) -> None:
        """Press the browser's back."""
        self.driver.back()

    def click(self, element: WebElement) -> None:
        """Tap an element, scrolled into view, as a finger would."""
        self._on_element(lambda: self._tap_visible(element))

    def type_into(self, element: WebElement, text: str) -> None:
        """Replace what a field holds by `text`, typed."""

        def type_text() -> None:
            element.send_keys(Keys.CONTROL + "a", Keys.DELETE)
            element.send_keys(text)
            if (value := element.get_property("value")) != text:
                raise Gone(f"{text!r} was typed and {value!r} is there")

        self._on_element(type_text)

    def option_words(self, element: WebElement, wanted: object) -> str | None:
        """The words of the matching option of a select element; None for any other element."""
        words = self.evaluate("return __journey.optionWords(arguments[0], arguments[1])", element, wanted)
        return None if words is None else str(words)

    def pick(self, element: WebElement, option: str) -> None:
        """Choose the option of a select element by its visible words."""

        def pick_option() -> None:
            self._wait_still(element)
            Select(element).select_by_visible_text(option.strip())

        self._on_element(pick_option)

    def touch(self, element: WebElement, x: float, y: float) -> None:
        """Tap a drawing at a place, in CSS pixels from its top left corner; WebDriver counts from the middle."""

        def tap() -> None:
            self._wait_still(element)
            box = element.rect
            right, down = round(x - box["width"] / 2), round(y - box["height"] / 2)
            ActionChains(self.driver).move_to_element_with_offset(element, right, down).click().perform()

        self._on_element(tap)

    def give_file(self, element: WebElement, path: Path) -> None:
        """Choose that file for a file input."""
        with self.driver.file_detector_context(UselessFileDetector):  # the file is here: nothing to be sent ahead
            element.send_keys(str(path))

    def size(self, width: int, height: int) -> None:
        """Give the page a viewport of that many CSS pixels."""
        self._ask_size(width, height)
        there = "return [innerWidth, innerHeight]"
        self.wait(lambda: self.evaluate(there) == [width, height], f"the window is not {width} by {height}")

    def _ask_size(self, width: int, height: int) -> None:
        """Only the first window is without a toolbar, which keeps any other a little wider than asked for."""
        self.driver.set_window_size(width, height)

    def picture(self, path: Path) -> None:
        """Save what the screen shows as PNG."""
        self.driver.save_screenshot(str(path))

    def kill_page(self) -> None:
        """Close the page at once while another stands ready; that one becomes the phone's page."""
        old = self.driver.current_window_handle
        self.driver.switch_to.new_window("window")
        fresh = self.driver.current_window_handle
        self.driver.switch_to.window(old)
        self.driver.close()
        self.driver.switch_to.window(fresh)
        self._ask_size(360, 640)

    def add_tab(self) -> None:
        """Open another window of the same browser, in view as well, and turn to it."""
        self._tabs = self._tabs or [self.driver.current_window_handle]
        self.driver.switch_to.new_window("window")
        self._tabs.append(self.driver.current_window_handle)
        self._ask_size(360, 640)

    def show_tab(self, number: int) -> None:
        """Turn to a tab by its number."""
        self.driver.switch_to.window(self._tabs[number])

    def close_tab(self) -> None:
        """Close the present tab and turn to the first of those left."""
        self._tabs.remove(self.driver.current_window_handle)
        self.driver.close()
        self.show_tab(0)

    def freeze_tab(self, number: int) -> Callable[[], None]:
        """Stop the process that tab runs in: WebDriver has no call for it, and a phone suspends pages just so."""
        here = self.driver.current_window_handle
        self.show_tab(number)
        busiest = self._working()
        self.driver.switch_to.window(here)  # the driver asks the present page at each step: it must live
        os.kill(busiest, signal.SIGSTOP)
        return lambda: os.kill(busiest, signal.SIGCONT)

    def _working(self) -> int:
        """The process of the present page: the one that works when that page is given work, and works most by far."""
        before = {pid: _busy(pid) for pid in self._web_processes()}

        def stands_out() -> int:
            self.driver.execute_script(_WORK)
            *others, most = sorted((_busy(pid) - ticks, pid) for pid, ticks in before.items())
            return most[1] if most[0] >= 20 and all(4 * ticks <= most[0] for ticks, _ in others) else 0

        return self.wait(stands_out, "no process stands out that runs this page")

    def _web_processes(self) -> list[int]:
        """The processes that run pages, among all that descend from this phone's driver."""
        process = self._service.process
        return [pid for pid in _descendants(process.pid if process else 0) if b"WebKitWebProcess" in _command(pid)]

    def restart(self) -> None:
        """Close the page and open another: as cold as it gets while the profile lives in memory."""
        self.kill_page()

    def quit(self) -> None:
        """Put the phone away for good."""
        try:
            self.driver.quit()
        finally:
            self._end_service()

    def _tap_visible(self, element: WebElement) -> None:
        """Tap once the element stands still, uncovered, in the middle of the screen.

        WebDriver itself taps where the element was a moment ago and scrolls only as far as the edge, where a
        fixed bar may lie upon it.
        """
        self._wait_still(element)
        self.driver.execute_script(_LISTEN)
        element.click()
        heard, end = "", time.monotonic() + HEARD_S
        while not heard and time.monotonic() < end:
            heard = self._heard()
        if heard != "here":
            raise Gone(f"the tap was heard {heard or 'nowhere'}")

    def _heard(self) -> str:
        """Where the last tap was heard, "" for not yet."""
        try:
            with _gone_where_lost():
                return str(self.driver.execute_script(_HEARD))
        except Gone:
            return "here"

    def _wait_still(self, element: WebElement) -> None:
        if not self.evaluate(_STILL, element):
            raise Gone("it moves or is covered")

    @staticmethod
    def _on_element(act: Any) -> None:
        try:
            act()
        except _ELEMENT_TROUBLE as trouble:
            raise Gone(str(trouble)) from trouble
        except WebDriverException as trouble:
            if "stale" not in str(trouble).lower():
                raise
            raise Gone(str(trouble)) from trouble
