"""Sizes of the built app, gzipped as the server hands them out: the shell, each part fetched later, the engine."""

import gzip
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from lawn.tooling import build
from tests.bench.figures import Figure, sized

SHELL_LIMIT_KB = 150.0
ENGINE = ("micropython-", "engine-", "worker-")
# Fetched right after the first paint: books, syncing and clashes whatever page is opened; on Today the log's latest
# lines too, with the words of every kind of entry.
AT_THE_START = (
    *("book-", "sync-", "clash-", "cards-"),
    *("mow-", "spread-", "pass-", "stock-count-", "tray-test-", "observation-", "reading-", "drawing-"),
    *("bought-", "soil-test-"),
)
_NAMED = re.compile(r"(?:src|href)=\"/?(assets/[^\"]+)\"")
_IMPORTED = re.compile(r"(?:from|import)\s*\"\./([^\"]+)\"")


def gzipped_kb(content: bytes) -> float:
    """Size after gzip, in kB of 1,000 bytes: the stricter reading of a kB."""
    return len(gzip.compress(content, 9, mtime=0)) / 1000


@dataclass(frozen=True)
class Built:
    """A build of the app on the disk."""

    folder: Path

    @cached_property
    def shell(self) -> list[Path]:
        """The page and every script and style that its first load fetches, whichever place it shows."""
        page = self.folder / "index.html"
        waiting = [self.folder / name for name in _NAMED.findall(page.read_text())]
        waiting += [path for path in self._assets() if path.name.startswith(AT_THE_START)]
        found = [page]
        while waiting:
            path = waiting.pop()
            if path in found:
                continue
            found.append(path)
            if path.suffix == ".js":
                waiting += [path.parent / name for name in _IMPORTED.findall(path.read_text())]
        return found

    @property
    def engine(self) -> list[Path]:
        """The arithmetic: the worker, MicroPython and the Python files."""
        return [path for path in self._assets() if path.name.startswith(ENGINE)]

    @property
    def later(self) -> list[Path]:
        """Scripts and styles fetched when a place is first opened."""
        return [path for path in self._assets() if path not in self.shell and path not in self.engine]

    def _assets(self) -> list[Path]:
        kinds = (".js", ".mjs", ".css", ".wasm", ".json")
        return sorted(path for path in (self.folder / "assets").iterdir() if path.suffix in kinds)


def total_kb(paths: list[Path]) -> float:
    """All of them gzipped, each by itself as it is served."""
    return sum(gzipped_kb(path.read_bytes()) for path in paths)


def measure(say: Callable[[str], None], runs: int = 1) -> list[Figure]:
    """Weigh the build; the same at every run."""
    build.ensure_built(say)
    built = Built(build.DIST)
    against, limit = "limit of the shell", SHELL_LIMIT_KB
    figures = [sized("size", "shell on first load, no engine", total_kb(built.shell), against, limit)]
    figures += [
        sized("size", f"  {_plain(path)}", gzipped_kb(path.read_bytes()), against, limit) for path in built.shell
    ]
    figures += [
        sized("size", f"later: {_plain(path)}", gzipped_kb(path.read_bytes()), against, limit) for path in built.later
    ]
    figures.append(sized("size", "engine, after the first paint", total_kb(built.engine), against, limit))
    figures += [
        sized("size", f"  {_plain(path)}", gzipped_kb(path.read_bytes()), against, limit) for path in built.engine
    ]
    return figures


def _plain(path: Path) -> str:
    """The file's name without the hash of its content."""
    return re.sub(r"-[\w-]{8}(?=\.\w+$)", "", path.name)
