"""What must be so of the whole tree, as git would hand it to someone else."""

import json
import re
import subprocess
import tomllib
from pathlib import Path

import pytest

from lawn.tooling.build import ROOT

# Named in the architecture; dot-files and dot-folders besides.
TOP = {
    "README.md",
    "DEVELOPERS.md",
    "manage.py",
    "pyproject.toml",
    "lawn",
    "api",
    "frontend",
    "tests",
    "fixtures",
}
MOST_LINES = 400
# Written by programs, not by hand, or data: length says nothing there.
NOT_BY_HAND = ("lawn/migrations/", "fixtures/", "frontend/package-lock.json", "frontend/src/platform/api.d.ts")
WRITTEN = ".gen.ts"
CODE = (".py", ".ts", ".tsx", ".css", ".mjs", ".js", ".html")
# Put together here so that this file does not find itself.
SECRET_PLACES = ["/" + "work/", "/" + "root/", "/" + "home/"]
REGISTRIES = ["registry." + "npmjs", "pypi" + ".org", "files.python" + "hosted", "registry." + "yarnpkg"]
SKIPS = [r"pytest\.mark\." + "skip", r"pytest\." + r"skip\(", r"\b(?:it|test|describe)\." + r"(?:skip|only|todo)\b"]
LINT_OFF = re.compile(r"#\s*noqa\s*$|#\s*type:\s*ignore\s*$|@ts-" + "nocheck|@ts-" + "ignore", re.M)


def tracked() -> list[Path]:
    """Every file that a commit of this moment would hold."""
    command = ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"]
    listing = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    return [ROOT / name for name in listing.split("\0") if name and (ROOT / name).is_file()]


def named(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def texts(*suffixes: str) -> dict[str, str]:
    """The files that are text, by name; only those with these suffixes where any are given."""
    found = {}
    for path in tracked():
        if suffixes and path.suffix not in suffixes:
            continue
        content = path.read_bytes()
        if b"\0" not in content:
            found[named(path)] = content.decode("utf-8")
    return found


def finding(pattern: str | re.Pattern[str], files: dict[str, str]) -> list[str]:
    """Each place where a pattern stands, as file: line."""
    return [
        f"{name}: {line.strip()[:120]}"
        for name, text in files.items()
        for line in text.splitlines()
        if re.search(pattern, line)
    ]


def test_the_top_level_is_as_the_architecture_says() -> None:
    top = {named(path).split("/")[0] for path in tracked()}
    assert {name for name in top if not name.startswith(".")} == TOP


@pytest.mark.parametrize("place", SECRET_PLACES)
def test_no_file_names_a_place_on_someones_machine(place: str) -> None:
    assert finding(rf"(?<![\w./~-]){re.escape(place)}", texts()) == []


@pytest.mark.parametrize("host", REGISTRIES)
def test_no_file_names_a_package_registry(host: str) -> None:
    assert finding(re.escape(host), texts()) == []


def test_no_built_or_locked_file_is_committed() -> None:
    built = r"(^|/)(dist|node_modules|__pycache__|\.build|var)/|(^|/)(uv|poetry|Pipfile)\.lock$|\.(pyc|sqlite3|whl)$"
    assert [name for name in map(named, tracked()) if re.search(built, name)] == []


def test_no_file_written_by_hand_is_longer_than_400_lines() -> None:
    lengths = {
        name: text.count("\n")
        for name, text in texts(*CODE).items()
        if not name.startswith(NOT_BY_HAND) and WRITTEN not in name
    }
    assert {name: lines for name, lines in lengths.items() if lines > MOST_LINES} == {}


@pytest.mark.parametrize("pattern", SKIPS)
def test_no_test_is_skipped(pattern: str) -> None:
    assert finding(pattern, texts(".py", ".ts", ".tsx", ".mjs")) == []


def test_no_check_is_turned_off_without_saying_which() -> None:
    assert finding(LINT_OFF, texts(".py", ".ts", ".tsx")) == []


def test_every_direct_dependency_is_pinned_exactly() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())
    python = project["project"]["dependencies"] + project["dependency-groups"]["dev"]
    python += project["tool"]["uv"]["constraint-dependencies"]
    assert [line for line in python if not re.fullmatch(r"[\w.-]+(\[\w+\])?==[\w.]+", line)] == []
    package = json.loads((ROOT / "frontend" / "package.json").read_text())
    node = {**package["dependencies"], **package["devDependencies"]}
    assert {name: version for name, version in node.items() if not re.fullmatch(r"\d[\w.-]*", version)} == {}


def test_what_dependencies_depend_on_is_pinned_too() -> None:
    """uv.lock exists wherever uv runs the tests; everything it resolved stands in pyproject.toml."""
    text = (ROOT / "pyproject.toml").read_text()
    locked = tomllib.loads((ROOT / "uv.lock").read_text())["package"]
    names = {package["name"] for package in locked} - {"evenfall"}
    pinned = {line.lower() for line in re.findall(r'"([\w.-]+)(?:\[\w+\])?==', text)}
    assert names - pinned == set()


def test_every_documents_link_to_a_file_leads_to_one() -> None:
    for document in ("README.md", "DEVELOPERS.md"):
        links = re.findall(r"\]\((?!https?:|#)([^)#]+)", (ROOT / document).read_text(encoding="utf-8"))
        assert [link for link in links if not (ROOT / link).exists()] == []


@pytest.mark.parametrize("command", ["pip install uv && uv run manage.py up", "pip install uv && uv run pytest"])
def test_the_readme_names_the_two_commands_and_ci_runs_the_second(command: str) -> None:
    assert command in (ROOT / "README.md").read_text(encoding="utf-8")
    assert "pip install uv && uv run pytest" in (ROOT / ".ci" / "run").read_text()
