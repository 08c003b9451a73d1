"""Asks the registries for published weaknesses of what the server and the phone app depend on.

    uv run python -m tests.quality.audit

A program and not a test: an answer depends on the day and on what the machine can reach, and a test that passes because
nobody answered would say nothing. It ends with 1 where a weakness or a withdrawn version is found, with 2 where a
registry did not answer (it says which and how), with 0 only where both did. Python's registry is the one that uv.lock
was made from (its JSON interface, "vulnerabilities" and "yanked"); the phone's is npm's own, by `npm audit`.
"""

import json
import subprocess
import sys
import tomllib
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlsplit

import httpx

from lawn.tooling import nodejs
from lawn.tooling.build import FRONTEND, ROOT
from tests.quality.installed import runtime

Fetch = Callable[[str], dict[str, Any] | None]


@dataclass(frozen=True)
class Told:
    """What one registry said: what was found, or why there is no answer."""

    found: list[str]
    silence: str = ""


def python_answers(pins: dict[str, str], fetch: Fetch) -> Told:
    """Ask for each pinned version; stop at the first that is not answered, since the others will not be either."""
    found: list[str] = []
    for name, version in sorted(pins.items()):
        answer = fetch(f"{name}/{version}")
        if answer is None or "vulnerabilities" not in answer:
            return Told(found, f"Python's registry does not say what is known of {name} {version}")
        found += weaknesses(name, version, answer)
    return Told(found)


def weaknesses(name: str, version: str, answer: dict[str, Any]) -> list[str]:
    """Return a line for each weakness that was not taken back, and one for a withdrawn version."""
    known = [one for one in answer["vulnerabilities"] if not one.get("withdrawn")]
    lines = [
        f"{name} {version}: {one['id']}, mended in {', '.join(one.get('fixed_in') or ['none yet'])}" for one in known
    ]
    withdrawn = (answer.get("info") or {}).get("yanked")
    return lines + ([f"{name} {version}: withdrawn by its makers"] if withdrawn else [])


def npm_answers(said: str) -> Told:
    """Read what `npm audit --json` printed."""
    try:
        report = json.loads(said)
    except ValueError:
        return Told([], "npm said nothing that can be read")
    if "vulnerabilities" not in report:
        return Told([], f"npm's registry does not answer: {report.get('message', 'no reason given')[:120]}")
    return Told(
        [f"{name}: {one['severity']}, {one['range']}" for name, one in sorted(report["vulnerabilities"].items())]
    )


def _index() -> str:
    """Return the address of the registry that uv.lock names."""
    for package in tomllib.loads((ROOT / "uv.lock").read_text())["package"]:
        if address := package.get("source", {}).get("registry"):
            parts = urlsplit(address)
            return f"{parts.scheme}://{parts.netloc}"
    raise SystemExit("uv.lock names no registry. Write it anew: uv lock")


def _fetch(path: str) -> dict[str, Any] | None:
    try:
        answer = httpx.get(f"{_index()}/pypi/{path}/json", timeout=20, follow_redirects=True)
        return dict(answer.json()) if answer.status_code == 200 else None
    except (httpx.HTTPError, ValueError):
        return None


def _npm() -> str:
    command = [*nodejs.npm(), "audit", "--json", "--omit=dev"]
    done = subprocess.run(command, cwd=FRONTEND, env=nodejs.environment(), capture_output=True, text=True, check=False)
    return done.stdout


def verdict(told: list[Told]) -> int:
    """Return the exit code: 1 found, 2 not answered, 0 asked and nothing found."""
    if any(one.found for one in told):
        return 1
    return 2 if any(one.silence for one in told) else 0


def main() -> int:
    """Ask both, say what they said."""
    told = [python_answers(runtime(), _fetch), npm_answers(_npm())]
    for one in told:
        for line in one.found:
            sys.stdout.write(f"found: {line}\n")
        if one.silence:
            sys.stdout.write(f"not answered: {one.silence}\n")
    if verdict(told) == 0:
        sys.stdout.write("Both registries answered; neither knows of a weakness.\n")
    return verdict(told)


if __name__ == "__main__":
    sys.exit(main())
