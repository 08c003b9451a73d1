"""The scripts that journeys run inside a page: the finder (bundled once a run) and axe."""

import subprocess
import tempfile
from functools import cache
from pathlib import Path

from lawn.tooling import nodejs

HERE = Path(__file__).parent
MODULES = HERE.parents[1] / "frontend" / "node_modules"


class Missing(Exception):
    """Something the journeys need is not installed; the message says what to install."""


def node_modules() -> Path:
    """The front end's installed packages, or a sentence on how to get them."""
    if not (MODULES / "axe-core").is_dir():
        raise Missing("frontend/node_modules is missing: run `npm ci` in frontend/ (or `uv run manage.py up` once)")
    return MODULES


@cache
def finder() -> str:
    """The finder and layout check as one script that defines `__journey`."""
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "journey.js"
        command = [nodejs.node(), str(HERE / "bundle.mjs"), str(node_modules()), str(HERE / "page.js"), str(out)]
        subprocess.run(command, check=True, capture_output=True, text=True)
        return out.read_text() + "\nwindow.__journey = __journey;\n"


@cache
def axe() -> str:
    """The accessibility checker's own build, which defines `axe`."""
    return (node_modules() / "axe-core" / "axe.min.js").read_text()
