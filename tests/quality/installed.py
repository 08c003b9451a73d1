"""What the server runs on, as installed: the project's own dependencies and all that those bring."""

import re
import tomllib
from importlib.metadata import Distribution, distribution

from packaging.requirements import Requirement

from lawn.tooling.build import ROOT


def plain(name: str) -> str:
    """Return a distribution's name as all its spellings are compared (Python packaging's "name normalization")."""
    return re.sub(r"[-_.]+", "-", name).lower()


def project() -> dict[str, list[str]]:
    """Return the pins of pyproject.toml: of the server, of the tests, and of what both bring."""
    read = tomllib.loads((ROOT / "pyproject.toml").read_text())
    return {
        "server": read["project"]["dependencies"],
        "tests": read["dependency-groups"]["dev"],
        "brought": read["tool"]["uv"]["constraint-dependencies"],
    }


def runtime() -> dict[str, str]:
    """Return {name: installed version} of the server's dependencies, to the last one."""
    return {name: found.version for name, found in distributions().items()}


def distributions() -> dict[str, Distribution]:
    """Return {name: distribution} of all that the server imports, this machine's markers and extras heeded."""
    found: dict[str, Distribution] = {}
    waiting = [Requirement(line) for line in project()["server"]]
    while waiting:
        wanted = waiting.pop()
        name = plain(wanted.name)
        here = distribution(wanted.name)
        if name not in found or wanted.extras:
            found[name] = here
            waiting += [needed for needed in map(Requirement, here.requires or []) if _here(needed, wanted.extras)]
    return found


def _here(needed: Requirement, extras: set[str]) -> bool:
    return needed.marker is None or any(needed.marker.evaluate({"extra": extra}) for extra in {"", *extras})
