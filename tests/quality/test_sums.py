"""No model and no screen adds quantities up: a figure that a person acts on is the engine's."""

import re
from pathlib import Path

import pytest

from lawn.tooling.build import FRONTEND

SRC = FRONTEND / "src"
ROOMS = ("features", "records")
QUANTITY = r"[\w.?\])]*(?:_kg|_m2|_kg_m2|_m3|_l|price|bags|capacity|mass)\b"
SUMS = re.compile(
    rf"\.reduce\(|\b\w*(?:_kg|_m2|_kg_m2|_m3)\s*[-+*/]=|{QUANTITY}(?:\s*\?\?\s*0\)?)?\s+[-+*/]\s+{QUANTITY}"
)
# What adds up and is no quantity of the trade, each with the reason.
ALLOWED = {
    "features/ground/screens/measure/result.tsx": "says an error in percent of its own figure",
    "features/shed/screens/trays/lopsided.tsx": "finds the nearest row of a published table",
    "records/contract/shapes.ts": "corners counted, as the server counts them",
    "records/kinds.ts": "the contract's own rules of a group: parts of a whole",
}


def phone_files() -> list[Path]:
    """Every model, record and screen; neither tests and their fakes nor drawings, which are to scale."""
    found = [path for room in ROOMS for path in sorted((SRC / room).rglob("*.ts*"))]
    return [path for path in found if "drawing" not in path.parts and not _of_tests(path)]


def _of_tests(path: Path) -> bool:
    return ".test." in path.name or path.name.startswith("fake-") or path.name.endswith(".gen.ts")


def sums_in(text: str) -> list[str]:
    """Each line that adds quantities up, comments left out."""
    lines = [line.strip() for line in text.splitlines() if not line.strip().startswith(("*", "//", "/*"))]
    return [line for line in lines if SUMS.search(line)]


def test_no_model_and_no_screen_adds_quantities_up() -> None:
    names = {path.relative_to(SRC).as_posix(): path for path in phone_files()}
    assert len(names) > 150
    found = {name: rows for name, path in names.items() if (rows := sums_in(path.read_text(encoding="utf-8")))}
    assert {name: rows for name, rows in found.items() if name not in ALLOWED} == {}
    assert sorted(found) == sorted(ALLOWED)  # what is allowed is still there


@pytest.mark.parametrize(
    "line",
    [
        "zones.reduce((sum, zone) => sum + zone.area_m2, 0);",
        "const fills = Math.ceil(mass_kg / capacity - 1e-9);",
        "used_kg += row.used_kg;",
        "const left_kg = start_kg - used_kg;",
        "const rate = aim.mass_kg / zone.area_m2;",
    ],
)
def test_such_a_sum_would_be_seen(line: str) -> None:
    assert sums_in(line) == [line]
