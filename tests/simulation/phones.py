"""The phones' half: the app's own store and sync, bundled once, in a Node of its own at the end of a pipe."""

import hashlib
import json
import subprocess
import tempfile
from pathlib import Path
from typing import Any

from lawn import nodejs
from lawn.build import FRONTEND

_HERE = FRONTEND / "tools" / "simulation"


# Lives are short and leave much behind: a larger nursery, and no threads of its own for sweeping it.
FLAGS = ("--max-semi-space-size=64", "--single-threaded-gc")


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
        self._folder = None if script else tempfile.TemporaryDirectory(prefix="swardbook-phones-")
        self._script = script or bundle(self._folder.name if self._folder else "")
        self._process = subprocess.Popen(
            [nodejs.node(), *FLAGS, str(self._script)], stdin=subprocess.PIPE, stdout=subprocess.PIPE
        )
        self.trace = hashlib.sha256()
        self.lines: list[bytes] | None = None

    def order(self, what: str, at: int, **said: Any) -> tuple[list[list[Any]], dict[str, int | None]]:
        """Give one order; return what happened, in order, and when each tab of the phone wants to go on."""
        assert self._process.stdin
        assert self._process.stdout
        line = json.dumps({"do": what, "at": at, **said}, separators=(",", ":")).encode() + b"\n"
        self._process.stdin.write(line)
        self._process.stdin.flush()
        answer = self._process.stdout.readline()
        if not answer:
            raise RuntimeError(f"the phones' process ended at: {line[:400]!r}")
        self.trace.update(line)
        self.trace.update(answer)
        if self.lines is not None:
            self.lines += [line, answer]
        found = json.loads(answer)
        return found["told"], found["timers"]

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
