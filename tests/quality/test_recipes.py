"""`manage.py new` lays out files that the linters pass as they are, each where its kind belongs."""

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from lawn.tooling import recipes
from lawn.tooling.build import FRONTEND, ROOT
from tests.quality.test_tools import node_tool, run

WRITTEN = ("lawn/engine", "fixtures/kinds", "frontend/src")
CONFIGS = ("pyproject.toml", "frontend/biome.json", "frontend/tsconfig.json", "frontend/.dependency-cruiser.mjs")


@pytest.fixture
def copy(tmp_path: Path, node_modules: Path) -> Path:
    """As much of the tree as the recipes write in and the linters read."""
    for name in WRITTEN:
        shutil.copytree(ROOT / name, tmp_path / name, ignore=shutil.ignore_patterns("*.test.ts*", "__pycache__"))
    for name in CONFIGS:
        shutil.copy(ROOT / name, tmp_path / name)
    (tmp_path / "frontend/node_modules").symlink_to(FRONTEND / "node_modules")
    return tmp_path


def biome(copy: Path, made: list[Path]) -> None:
    tool, *rest = node_tool("@biomejs/biome/bin/biome")
    run([tool, *(str(FRONTEND / name) for name in rest), "check", *map(str, made)], copy / "frontend")


def cruise(copy: Path) -> None:
    tool, program = node_tool("dependency-cruiser/bin/dependency-cruiser.mjs")
    run([tool, str(FRONTEND / program), "--config", ".dependency-cruiser.mjs", "src"], copy / "frontend")


@pytest.mark.parametrize("name", ["mowing.height_now", "label.halved", "swath.least", "units.spoken"])
def test_a_call_is_laid_out_and_answers(copy: Path, name: str) -> None:
    made = recipes.call(copy, name)
    run([sys.executable, "-m", "ruff", "check", *map(str, made)], copy)
    run([sys.executable, "-m", "ruff", "format", "--check", *map(str, made)], copy)
    ask = f"from lawn.engine.door import call; print(call({name!r}, {{'area_m2': 75.0}})['value'])"
    (copy / "lawn/__init__.py").touch()
    done = subprocess.run([sys.executable, "-c", ask], cwd=copy, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "{'ground_m2': 75.0}"


def test_a_kind_of_log_entry_is_laid_out_with_its_form_where_its_feature_registers_it(copy: Path) -> None:
    made = recipes.kind(copy, "worm_count")
    assert len(made) == 4
    asked = re.findall(r"^ {6}(\w+): \{", (copy / "frontend/src/features/log/entries/worm-count.ts").read_text(), re.M)
    fields = json.loads((copy / "fixtures/kinds/entry/worm_count.json").read_text())
    common = json.loads((copy / "fixtures/kinds/entry.json").read_text())["body"]
    assert set(fields) <= set(asked) <= {*fields, *common, "note"}
    assert 'button: "Add worm count"' in (copy / "frontend/src/features/log/kinds.ts").read_text()
    biome(copy, [path for path in made if path.suffix in (".ts", ".tsx")])
    cruise(copy)
    run([sys.executable, "-m", "ruff", "check", str(copy / "lawn/engine/log/entries.py")], copy)


def test_a_feature_is_laid_out_with_its_place(copy: Path) -> None:
    made = recipes.feature(copy, "liming")
    assert len(made) == 3
    biome(copy, made)
    cruise(copy)


@pytest.mark.parametrize("name", ["Soil", "soil-test", "", "1st"])
def test_what_is_no_name_is_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(recipes.RecipeError, match="is no name"):
        recipes.feature(tmp_path, name)


def test_nothing_there_is_written_over(copy: Path) -> None:
    with pytest.raises(recipes.RecipeError, match="already"):
        recipes.feature(copy, "shed")
    with pytest.raises(recipes.RecipeError, match="already"):
        recipes.kind(copy, "observation")
