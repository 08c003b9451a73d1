"""The rooms of the house: who may import whom, and how many modules stand side by side."""

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import grimp
import pytest

from lawn.tooling import build
from tests.quality.test_tools import node_tool, run
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


def cruise(frontend: Path, *places: str) -> list[str]:
    return [*node_tool("dependency-cruiser/bin/dependency-cruiser.mjs"), "--config", ".dependency-cruiser.mjs", *places]


def test_imports_keep_to_the_phones_rooms(node_modules: Path) -> None:
    run(cruise(node_modules, "src"), node_modules)


# A file that imports what its room may not, and the rule that says so.
BREAKING = [
    ("src/features/shed/model/probe.ts", "../../log/model", "a-feature-is-known-by-its-index"),
    ("src/features/shed/model/probe.ts", "../../../app/lazy", "features-do-not-know-the-app"),
    ("src/app/probe.ts", "../features/log/model", "app-knows-what-features-show"),
    ("src/ui/parts/probe.ts", "../../features/log", "only-the-app-knows-features"),
    ("src/platform/probe.ts", "../records/look", "platform-stands-on-format"),
    ("src/format/probe.ts", "../platform/online", "format-stands-alone"),
    ("src/records/probe.ts", "../ui/parts/late", "records-and-forms-stand-on-platform-and-format"),
    ("src/forms/probe.ts", "./probe", "no-circle-of-files"),
]


@pytest.mark.parametrize(("at", "path", "rule"), BREAKING)
def test_an_import_that_breaks_a_rule_of_the_phone_is_found(
    node_modules: Path, tmp_path: Path, at: str, path: str, rule: str
) -> None:
    """In a copy that holds no more than the two files."""
    asked = (Path(at).parent / path).as_posix()
    for name, text in ((at, f'import "{path}";\n'), (f"{asked}/index.ts", "export {};\n")):
        place = Path(os.path.normpath(tmp_path / name))
        place.parent.mkdir(parents=True, exist_ok=True)
        if path != "./probe" or name == at:
            place.write_text(text)
    for name in (".dependency-cruiser.mjs", "tsconfig.json"):
        (tmp_path / name).write_bytes((node_modules / name).read_bytes())
    (tmp_path / "node_modules").symlink_to(node_modules / "node_modules")
    command = cruise(node_modules, "src")
    command[1] = str(node_modules / command[1])
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode != 0
    assert rule in done.stdout


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
