"""Finds the tests whose names carry a number of the sync design, in Python and in TypeScript."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from tests.faults.numbered import FAULTS, PROMISES, REASONS, RULES

ROOT = Path(__file__).resolve().parents[2]
# test_s08_f06_one_push_sent_twice …: each number in two digits, between underscores
IN_PYTHON = re.compile(r"(?<=_)([fsp])(\d\d)(?=_|$)")
# it("F6 one push sent twice …"), describe("S8 …")
IN_TITLE = re.compile(r"\b([FSP])(\d{1,2})\b")
TITLE = re.compile(r"""\b(?:it|test|describe)(?:\.\w+)?(?:\([^()]*\))?\(\s*(["'`])(?P<title>.*?)\1""", re.DOTALL)


class Proof(NamedTuple):
    """A test and the number its name carries, such as F6."""

    number: str
    where: str
    name: str


def in_python(root: Path) -> Iterator[Proof]:
    """Tests of the Python suite, by their functions' names."""
    for path in sorted((root / "tests").rglob("test_*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and node.name.startswith("test_"):
                for letter, digits in IN_PYTHON.findall(node.name):
                    yield Proof(f"{letter.upper()}{int(digits)}", str(path.relative_to(root)), node.name)


def in_typescript(root: Path) -> Iterator[Proof]:
    """Tests of the phone, by their titles."""
    for path in sorted((root / "frontend" / "src").rglob("*.test.ts*")):
        for found in TITLE.finditer(path.read_text(encoding="utf-8")):
            title = " ".join(found["title"].split())
            for letter, digits in IN_TITLE.findall(title):
                yield Proof(f"{letter}{int(digits)}", str(path.relative_to(root)), title)


def words() -> dict[str, str]:
    """Every number with what it stands for, in the design's order."""
    named = (("P", PROMISES), ("S", RULES), ("F", FAULTS))
    return {f"{letter}{number}": said for letter, rows in named for number, said in rows.items()}


def proofs(root: Path = ROOT) -> dict[str, list[Proof]]:
    """{number: the tests that carry it}, every number of the design among the keys; others are left in as found."""
    found: dict[str, list[Proof]] = {number: [] for number in words()}
    for proof in [*in_python(root), *in_typescript(root)]:
        tests = found.setdefault(proof.number, [])
        if proof not in tests:
            tests.append(proof)
    return found


def table(every: bool) -> str:
    """The table as text: a line a number, its tests beneath; `every` prints all of them, else the first three."""
    lines, said, found = [], words(), proofs()
    for number, tests in found.items():
        count = f"{len(tests)} test{'' if len(tests) == 1 else 's'}"
        lines.append(f"{number:4} {said.get(number, 'not a number of the design')}  ({count})")
        lines.extend(f"       {one.where}: {one.name}" for one in (tests if every else tests[:3]))
        if number in REASONS:
            lines.append(f"       not raised here: {REASONS[number]}")
    proved = sum(1 for number in FAULTS if found[f"F{number}"])
    return "\n".join([*lines, f"{proved} of {len(FAULTS)} faults proved by a named test"])
