"""Builds the phone app when it is stale: the one way, for `manage.py up` and for the tests alike.

Stale means that the content of what goes into the build differs from what the last build was made
of; times of files say nothing after a clone. A file lock lets parallel callers build once.
"""

import hashlib
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from lawn.tooling import nodejs

ROOT = Path(__file__).resolve().parents[2]
FRONTEND = ROOT / "frontend"
DIST = FRONTEND / "dist"
_MODULES = FRONTEND / "node_modules"
_NOTES = ROOT / "var" / "build"  # git-ignored: what the last install and build were made of
FORMER = _NOTES / "former"  # 1/assets, 2/assets: hashed files of the two builds before (S18)
_NOT_BUILT = ("node_modules", "dist", ".build", "tests")
_NOT_SERVED = (".test.ts", ".test.tsx", ".md")

_STDERR = 2
Say = Callable[[str], None]


class BuildError(Exception):
    """Node, npm or the front end's build failed; the message says at which step."""


def ensure_modules(say: Say) -> None:
    """Install the front end's Node modules unless they match package-lock.json already."""
    with _alone("install"):
        made_of = _digest([FRONTEND / "package.json", FRONTEND / "package-lock.json"])
        if _noted("modules") == made_of and _MODULES.is_dir():
            return say("Node modules are up to date.")
        say("Installing Node modules (a minute or two the first time) ...")
        _run("npm ci", [*nodejs.npm(), "ci", "--no-progress", "--loglevel=error"])
        _note("modules", made_of)


def ensure_built(say: Say) -> None:
    """Build the front end unless the build on disk was made of these very sources."""
    ensure_modules(say)
    with _alone("build"):
        made_of = _digest(sources())
        if _noted("dist") == made_of and (DIST / "index.html").exists():
            return say("The front end is up to date.")
        say("Building the front end ...")
        set_aside()
        (_NOTES / "dist").unlink(missing_ok=True)
        _run("the build", [*nodejs.npm(), "run", "--silent", "build"])
        say("Compressing it ...")
        _run("whitenoise.compress", [sys.executable, "-m", "whitenoise.compress", "--quiet", str(DIST)])
        _note("dist", made_of)


def set_aside() -> None:
    """Keep the hashed files of the build that is about to be replaced, and of the one before it.

    Pages of those builds may still be open on phones, and ask for their lazy screens (S18); after a server was
    rolled back these are the newer build's (F43). A build that never ended was never served: nothing to keep.
    """
    assets = DIST / "assets"
    if not _noted("dist") or not assets.is_dir():
        return
    shutil.rmtree(FORMER / "new", ignore_errors=True)
    shutil.copytree(assets, FORMER / "new" / "assets")
    shutil.rmtree(FORMER / "2", ignore_errors=True)
    if (FORMER / "1").exists():
        (FORMER / "1").rename(FORMER / "2")
    (FORMER / "new").rename(FORMER / "1")


def sources() -> list[Path]:
    """List every file that goes into the build: the app, the engine it ships and the fixtures."""
    own = [path for path in _files(FRONTEND) if not path.name.endswith(_NOT_SERVED)]
    engine = [path for path in _files(ROOT / "lawn" / "engine") if path.suffix == ".py"]
    fixtures = [path for path in _files(ROOT / "fixtures") if path.suffix == ".json"]
    return own + engine + fixtures


def _files(folder: Path) -> Iterator[Path]:
    for path in sorted(folder.iterdir()):
        if path.is_dir() and path.name not in _NOT_BUILT and path.name != "__pycache__":
            yield from _files(path)
        elif path.is_file():
            yield path


def _digest(paths: list[Path]) -> str:
    total = hashlib.sha256()
    for path in sorted(paths):
        content = hashlib.sha256(path.read_bytes()).hexdigest()
        total.update(f"{path.relative_to(ROOT).as_posix()} {content}\n".encode())
    return total.hexdigest()


def _noted(name: str) -> str:
    path = _NOTES / name
    return path.read_text() if path.exists() else ""


def _note(name: str, text: str) -> None:
    (_NOTES / name).write_text(text)


def _run(step: str, command: list[str]) -> None:
    if not shutil.which(command[0]):
        raise BuildError(f"{step}: {command[0]} is missing. Install the project's packages: uv sync")
    # Its output goes to stderr: `up` says its own lines on stdout, and a test's report stays whole.
    done = subprocess.run(command, cwd=FRONTEND, env=nodejs.environment(), stdout=_STDERR, check=False)
    if done.returncode:
        raise BuildError(f"{step} failed with code {done.returncode}; its own words are above.")


@contextmanager
def _alone(name: str) -> Iterator[None]:
    """Hold a lock that other processes of this machine respect, so that only one builds."""
    _NOTES.mkdir(parents=True, exist_ok=True)
    with (_NOTES / f"{name}.lock").open("w") as file:
        _lock(file)
        yield


def _lock(file: IO[str]) -> None:
    try:
        import fcntl
    except ImportError:  # Windows has no flock; there two builds at once are the person's to avoid
        return
    fcntl.flock(file, fcntl.LOCK_EX)
