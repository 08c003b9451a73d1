"""A copy of the project in which faults are planted; the project's own files are never touched."""

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path

from tests.plants.fault import ROOT, Planted

# Written to by the tools themselves: linked, they would be written to here as well.
_OWN = shutil.ignore_patterns(".vite", ".vite-temp", ".cache")
_MODULES = Path("frontend", "node_modules")
_ticks = count(1)


class Tree:
    """One copy. Two runs at once need two."""

    def __init__(self, root: Path) -> None:
        """Hold the copy that lies at `root`."""
        self.root = root

    @contextmanager
    def planted(self, plant: Planted) -> Iterator[None]:
        """Hold the fault in the copy, and put the text back afterwards."""
        file = self.root / plant.file
        text, times = file.read_text(encoding="utf-8"), file.stat()
        file.write_text(plant.in_text(text), encoding="utf-8")
        # Python tells compiled files by whole seconds and length: each planting has a second of its own.
        moment = int(times.st_mtime) + 1000 + next(_ticks)
        os.utime(file, (moment, moment))
        try:
            yield
        finally:
            file.write_text(text, encoding="utf-8")
            os.utime(file, ns=(times.st_atime_ns, times.st_mtime_ns))


def _files(root: Path) -> list[str]:
    """Return what git tracks and what is new and not ignored."""
    listed = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    found = subprocess.run(listed, cwd=root, capture_output=True, text=True, check=True).stdout
    return [name for name in dict.fromkeys(found.split("\0")) if name and (root / name).is_file()]


def _link(source: str, target: str) -> None:
    """Link a file, or copy it where the folder of the copies lies on another disk."""
    try:
        os.link(source, target)
    except OSError:
        shutil.copy2(source, target)


@contextmanager
def copied(root: Path = ROOT) -> Iterator[Tree]:
    """Make a copy for as long as the body runs; the installed Node modules are linked into it."""
    with tempfile.TemporaryDirectory(prefix="evenfall-plants-", ignore_cleanup_errors=True) as folder:
        top = Path(folder)
        for name in _files(root):
            (top / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(root / name, top / name)
        if (root / _MODULES).is_dir():
            shutil.copytree(root / _MODULES, top / _MODULES, symlinks=True, ignore=_OWN, copy_function=_link)
        yield Tree(top)
