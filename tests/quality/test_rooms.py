"""The rooms of the house: who may import whom, and how many modules stand side by side."""

import re
import sys
from collections.abc import Iterator
from pathlib import Path

import grimp
import pytest

from lawn.tooling import build
from tests.quality.test_tools import run
from tests.quality.test_tree import named, tracked

# "About fifteen": what one can still look over.
MOST_MODULES = 16
ROOMS = ("lawn", "api", "frontend/src", "frontend/tools", "tests")
MODULES = (".py", ".ts", ".tsx", ".mjs")
# They grow by one file a change and nobody reads them side by side.
NUMBERED = ("lawn/migrations",)
BESIDE = re.compile(
    r"\.test\.tsx?$|^(fake-.*|real-engine)\.ts$"
)  # unit tests beside their files, and what stands in for others in them


def test_imports_keep_to_the_servers_rooms() -> None:
    run([sys.executable, "-c", "from importlinter.cli import lint_imports_command as run; run()"], build.ROOT)


def circles(imports: dict[str, set[str]]) -> Iterator[str]:
    """Each module from which a way of imports leads back to itself."""
    for start in sorted(imports):
        seen: set[str] = set()
        ways = list(imports[start])
        while ways:
            one = ways.pop()
            if one not in seen:
                seen.add(one)
                ways.extend(imports.get(one, ()))
        if start in seen:
            yield start


def test_no_circle_of_python_files() -> None:
    graph = grimp.build_graph("lawn", "api", "tests", exclude_type_checking_imports=True, cache_dir=None)
    # a package with its own modules is no circle: importing a module always runs the package's __init__
    imports = {
        name: {other for other in graph.find_modules_directly_imported_by(name) if not name.startswith(f"{other}.")}
        for name in graph.modules
    }
    assert list(circles(imports)) == []


def test_a_circle_would_be_found() -> None:
    assert list(circles({"a": {"b"}, "b": {"c"}, "c": {"b"}})) == ["b", "c"]


def side_by_side(paths: list[Path]) -> dict[str, int]:
    """How many modules stand in each folder; unit tests beside their files are not counted."""
    counts: dict[str, int] = {}
    for path in paths:
        folder = named(path.parent)
        if path.suffix in MODULES and path.name != "__init__.py" and not BESIDE.search(path.name):
            counts[folder] = counts.get(folder, 0) + 1
    return counts


@pytest.mark.parametrize("room", ROOMS)
def test_no_folder_holds_more_modules_than_one_can_look_over(room: str) -> None:
    counts = side_by_side([path for path in tracked() if named(path).startswith(f"{room}/")])
    assert {at: n for at, n in counts.items() if n > MOST_MODULES and not at.startswith(NUMBERED)} == {}
