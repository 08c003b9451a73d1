"""Runs the engine as the phone does: the same files, compiled, under MicroPython, here in Node."""

import json
import subprocess
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from lawn.tooling import nodejs

ROOT = Path(__file__).resolve().parents[2]
RUNNER = ROOT / "frontend" / "tools" / "engine-node.mjs"
MICROPYTHON = ROOT / "frontend" / "node_modules" / "@micropython"


class NotInstalledError(Exception):
    """MicroPython's package is not there yet; the message says what to run."""


class PhoneEngineError(Exception):
    """The runner itself failed; the message is what it printed."""


def answer(name: str, args_json: str) -> str:
    """Return one call's answer, as JSON text, from MicroPython."""
    return _run([name, args_json], "").strip()


def answers(cases: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the answers of many calls, each case holding call and args, from one MicroPython."""
    found: list[dict[str, Any]] = json.loads(_run(["--batch"], json.dumps({"cases": list(cases)})))
    return found


def times(cases: Sequence[dict[str, Any]], repeats: int) -> list[list[float]]:
    """Return, for each case, how many milliseconds each of `repeats` calls took in one MicroPython."""
    found: list[list[float]] = json.loads(_run(["--times"], json.dumps({"cases": list(cases), "repeats": repeats})))
    return found


def _run(arguments: list[str], stdin: str) -> str:
    if not MICROPYTHON.is_dir():
        raise NotInstalledError(
            "MicroPython is not installed. Run `uv run manage.py up` once, or `npm ci` in the folder frontend."
        )
    command = [nodejs.node(), str(RUNNER), *arguments]
    done = subprocess.run(command, input=stdin, capture_output=True, text=True, check=False, env=nodejs.environment())
    if done.returncode:
        raise PhoneEngineError(done.stderr.strip()[-2000:])
    return done.stdout
