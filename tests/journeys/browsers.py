"""Finding the two browsers; installing them where that can be done, else saying what to install."""

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from functools import cache
from pathlib import Path
from typing import Protocol

from playwright.sync_api import Browser, Playwright, sync_playwright

from tests.journeys.chromium import FLAGS, LOAD_MS, Chromium, Warm
from tests.journeys.phone import Phone
from tests.journeys.scripts import Missing
from tests.journeys.webkit import Display, WebKit

# Chromium without a window, from the same sources, as Playwright's own is where nothing shows. It has no pages of its
# own around the app's, and takes two thirds of the work. Journeys about what a browser keeps have the whole of it.
SHELL_NAMES = ("chromium-headless-shell",)
CHROMIUM_NAMES = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome")
WEBKIT_PACKAGES = ("webkit2gtk-driver", "xvfb")
MINI_BROWSER = "/usr/lib/*/webkit2gtk-4.1/MiniBrowser"


class MakePhone(Protocol):
    """Makes a phone on a server; `lasting`: in a browser of its own, with a profile on the disk."""

    def __call__(self, base_url: str, pictures: Path, *, lasting: bool = True) -> Phone:
        """Make it."""
        ...


def _on_path(names: tuple[str, ...]) -> str | None:
    return next((path for name in names if (path := shutil.which(name))), None)


def install(packages: tuple[str, ...]) -> None:
    """Try apt, as root only; whether it worked shows in whether the program is there afterwards."""
    if hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get"):
        environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        for command in (["apt-get", "update"], ["apt-get", "install", "-y", "--no-install-recommends", *packages]):
            subprocess.run(command, env=environment, stdout=subprocess.DEVNULL, check=False)


@cache
def chromium_path() -> str | None:
    """Where Chromium is; None means Playwright's own download, which is then there."""
    if found := _on_path(CHROMIUM_NAMES):
        return found
    own = subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], check=False)
    if own.returncode == 0:
        return None
    install(("chromium",))
    if found := _on_path(CHROMIUM_NAMES):
        return found
    raise Missing("no Chromium: `apt-get install chromium`, or `uv run playwright install chromium`")


def shell_path() -> str | None:
    """Where the browser is that journeys share: Chromium without a window, else Chromium."""
    return _on_path(SHELL_NAMES) or chromium_path()


def _mini_browser() -> str | None:
    return next((str(path) for path in sorted(Path("/").glob(MINI_BROWSER.lstrip("/")))), None)


@cache
def webkit_paths() -> tuple[str, str]:
    """Where WebKit's driver and its small browser are; Xvfb is made sure of as well."""

    def found() -> tuple[str, str] | None:
        driver, browser = shutil.which("WebKitWebDriver"), _mini_browser()
        return (driver, browser) if driver and browser and shutil.which("Xvfb") else None

    if not found():
        install(WEBKIT_PACKAGES)
    paths = found()
    if not paths:
        raise Missing(f"no WebKit: `apt-get install {' '.join(WEBKIT_PACKAGES)}` (Debian and its kin)")
    return paths


@contextmanager
def chromium() -> Iterator[MakePhone]:
    """Everything Chromium phones share, and the way to make one."""
    path = chromium_path()
    with sync_playwright() as playwright, ExitStack() as stack:
        yield _chromium_maker(playwright, path, stack)


def _chromium_maker(playwright: Playwright, path: str | None, stack: ExitStack) -> MakePhone:
    warm: list[Browser] = []

    def shared() -> Browser:
        if not warm or not warm[-1].is_connected():
            warm.append(playwright.chromium.launch(executable_path=shell_path(), args=FLAGS, timeout=LOAD_MS))
            stack.callback(warm[-1].close)
        return warm[-1]

    def make(base_url: str, pictures: Path, *, lasting: bool = True) -> Phone:
        return Chromium(playwright, path, base_url, pictures) if lasting else Warm(shared(), base_url, pictures)

    return make


@contextmanager
def webkit() -> Iterator[MakePhone]:
    """Everything WebKit phones share (a screen that is not there), and the way to make one."""
    driver, browser = webkit_paths()
    display = Display()
    try:
        yield lambda base_url, pictures, *, lasting=True: WebKit(driver, browser, display, base_url, pictures)
    finally:
        display.close()


SETUPS = {"chromium": chromium, "webkit": webkit}
