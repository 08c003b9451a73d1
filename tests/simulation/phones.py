"""The phones' half: the app's own store and sync, bundled once, in a Node of its own at the end of a pipe."""

import hashlib
import json
import subprocess
import tempfile
from pathlib import Path
from typing import Any

from lawn.tooling import nodejs
from lawn.tooling.build import FRONTEND

_HERE = FRONTEND / "tools" / "simulation"


# what happened, in order, and when each tab wants to go on
Found = tuple[list[list[Any]], dict[str, int | None]]
_ENCODER = json.JSONEncoder(separators=(",", ":"))
# Lives are short and leave much behind: a nursery of one size, which still stays near the core, and no threads of
# its own for sweeping it.
FLAGS = ("--min-semi-space-size=16", "--max-semi-space-size=16", "--single-threaded-gc")


class Missing(Exception):
    """The phones cannot be started; the message says what to do."""


def bundle(folder: str) -> Path:
    """Bundle the phones' half into a folder; return the file. Raises Missing."""
    if not (FRONTEND / "node_modules" / "rolldown").is_dir():
        raise Missing("frontend/node_modules is missing: run `npm ci` in frontend/ (or `uv run manage.py up` once)")
    out = Path(folder) / "phones.mjs"
    made = subprocess.run(
        [nodejs.node(), str(_HERE / "bundle.mjs"), str(out)], capture_output=True, text=True, check=False
    )
    if made.returncode or not out.exists():
        raise Missing(f"the phones could not be bundled:\n{made.stdout}{made.stderr}")
    return out


class Phones:
    """Phones by name, each obeying one order at a time; all that is said either way goes into `trace`."""

    def __init__(self, script: Path | None = None) -> None:
        self._folder = None if script else tempfile.TemporaryDirectory(prefix="evenfall-phones-")
        self._script = script or bundle(self._folder.name if self._folder else "")
        self._process = subprocess.Popen(
            [nodejs.node(), *FLAGS, str(self._script)], stdin=subprocess.PIPE, stdout=subprocess.PIPE
        )
        self.trace = hashlib.sha256()
        self.lines: list[bytes] | None = None
        # what was answered in the life before, as bytes and as read
        self._before: list[tuple[bytes, Found]] = []
        self._number = 0

    def order(self, what: str, at: int, **said: Any) -> Found:
        """Give one order; return what happened, in order, and when each tab of the phone wants to go on."""
        assert self._process.stdin
        assert self._process.stdout
        line = _ENCODER.encode({"do": what, "at": at, **said}).encode() + b"\n"
        self._process.stdin.write(line)
        self._process.stdin.flush()
        answer = self._process.stdout.readline()
        if not answer:
            raise RuntimeError(f"the phones' process ended at: {line[:400]!r}")
        self.trace.update(line)
        self.trace.update(answer)
        if self.lines is not None:
            self.lines += [line, answer]
        return self._read(answer)

    def _read(self, answer: bytes) -> Found:
        """Read an answer; one that was given at the same place of the life before is not read twice."""
        number, self._number = self._number, self._number + 1
        if number < len(self._before) and self._before[number][0] == answer:
            return self._before[number][1]
        del self._before[number:]
        said = json.loads(answer)
        found: Found = said["told"], said["timers"]
        self._before.append((answer, found))
        return found

    def begin(self) -> None:
        """Begin a life: its trace is its own, and what it hears may be what the life before it heard."""
        self.trace, self._number = hashlib.sha256(), 0

    def close(self) -> None:
        """End the process."""
        assert self._process.stdin
        self._process.stdin.close()
        self._process.wait(timeout=30)
        if self._folder:
            self._folder.cleanup()

    def __enter__(self) -> "Phones":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()
