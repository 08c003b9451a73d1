"""What the first paint waits for: the modules that the first script leads to without a fetch of their own."""

import re
from pathlib import Path

from lawn.tooling.build import FRONTEND, ROOT

SRC = FRONTEND / "src"
ENTRY = SRC / "app/main.tsx"
# `import type`, `export type` and `import(…)` lead to nothing at the first paint.
STATIC = re.compile(r"^(?:import|export)\s(?!type\b)(?:[^;]*?\sfrom\s)?\"(?P<path>(?:\.|@fixtures/)[^\"]+)\"", re.M)
# What a feature says of itself, and nothing of what it does.
SAYS = {"index.ts", "kinds.ts"}
# Besides: the card of the job under way, and what asks for warnings once Today is painted.
HELD = {
    "clash": {"late.tsx"},
    "spreading": {"model/key.ts", "today/card.tsx", "today/on-foot.ts", "today/where.ts"},
}
TABLES = {"fixtures/units.json"}
SHEETS = {"mow-sheet.tsx", "say-sheet.tsx"}


def leads_to(path: Path) -> set[Path]:
    """The project's files that this one is loaded with."""
    found = [hit["path"] for hit in STATIC.finditer(path.read_text())]
    return {resolved for name in found if (resolved := _file(path, name)).suffix != ".css"}


def _file(here: Path, name: str) -> Path:
    if name.startswith("@fixtures/"):
        return ROOT / "fixtures" / name.removeprefix("@fixtures/")
    bare = (here.parent / name).resolve()
    tries = [bare, *(bare.with_name(bare.name + end) for end in (".ts", ".tsx")), bare / "index.ts", bare / "index.tsx"]
    return next(one for one in tries if one.is_file())


def first_script() -> set[Path]:
    """All of it."""
    reached, ahead = {ENTRY}, [ENTRY]
    while ahead:
        path = ahead.pop()
        new = (leads_to(path) if path.suffix in (".ts", ".tsx") else set()) - reached
        reached |= new
        ahead += new
    return reached


def test_the_walk_finds_the_first_script() -> None:
    names = {path.name for path in first_script()}
    assert {"main.tsx", "app.tsx", "mowing.tsx", "page.tsx", "kinds.gen.ts"} <= names


def test_the_first_script_holds_no_feature_but_todays_and_its_lines() -> None:
    features = SRC / "features"
    held = [path.relative_to(features) for path in first_script() if path.is_relative_to(features)]
    others = [path for path in held if path.parts[0] != "today"]
    assert [path.as_posix() for path in others if not _belongs(path)] == []


def _belongs(path: Path) -> bool:
    within = path.relative_to(path.parts[0]).as_posix()
    return within in SAYS | HELD.get(path.parts[0], set())


def test_the_first_script_holds_no_published_table() -> None:
    tables = {path.relative_to(ROOT).as_posix() for path in first_script() if path.suffix == ".json"}
    assert tables <= TABLES


def test_sheets_of_today_are_fetched_when_they_are_first_opened() -> None:
    assert not SHEETS & {path.name for path in first_script()}


def test_what_draws_before_the_app_stands_alone() -> None:
    """An import would be one fetch more before the first paint, or all of the app."""
    assert leads_to(SRC / "app/first-frame.ts") == set()
