"""The engine keeps to what MicroPython has: its syntax trees are walked, and each rule is shown to bite."""

import ast
from pathlib import Path

import pytest

ENGINE = Path(__file__).resolve().parents[2] / "lawn" / "engine"
FILES = sorted(ENGINE.rglob("*.py"))
IMPORTS = {"math", "collections", "datetime", "json"}
FROM = {"collections": {"namedtuple"}, "datetime": {"date"}}
JSON_ONLY_IN = {"door.py"}
# Absent there, or different in the last bit, in ties or on overflow.
CALLS = {"sum", "round", "print", "open", "input", "eval", "exec", "compile", "hash", "id", "format", "globals"}
METHODS = {
    "bit_length",
    "removeprefix",
    "removesuffix",
    "_asdict",
    "format",
    "fsum",
    "prod",
    "hypot",
    "dist",
    "comb",
    "perm",
    "cbrt",
    "exp2",
    "nextafter",
    "today",
    "now",
    "zfill",
    "isidentifier",
    "casefold",
}
NODES = (
    ast.Match,
    ast.AsyncFunctionDef,
    ast.AsyncFor,
    ast.AsyncWith,
    ast.Await,
    ast.JoinedStr,  # numbers are formatted on the phone
    ast.TryStar,
    ast.Global,
    ast.Nonlocal,
)
BUILT_IN_GENERICS = {"dict", "list", "tuple", "set", "frozenset", "type"}


def never_run(node: ast.AST) -> bool:
    """Tell whether a node is the block for type checkers, which no runtime enters."""
    return isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"


def running(node: ast.AST) -> list[ast.AST]:
    """Every node that a runtime would meet, annotations left out (MicroPython ignores them)."""
    found = [node]
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns"):
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST) and not never_run(child):
                found += running(child)
    return found


def import_faults(node: ast.AST, file: str) -> list[str]:
    """Imports other than the few allowed ones and the engine's own."""
    if isinstance(node, ast.Import):
        names = [alias.name for alias in node.names]
        return [f"import {n}" for n in names if n not in IMPORTS or (n == "json" and file not in JSON_ONLY_IN)]
    if isinstance(node, ast.ImportFrom):
        module = node.module or ""
        if node.level or module.split(".")[:2] == ["lawn", "engine"]:
            return [f"relative import of {module}"] if node.level else []
        extra = {alias.name for alias in node.names} - FROM.get(module, set())
        return [f"from {module} import {name}" for name in sorted(extra)]
    return []


def call_faults(node: ast.AST) -> list[str]:
    """Calls of functions and methods that are absent or behave otherwise there."""
    if not isinstance(node, ast.Call):
        return []
    names = {word.arg for word in node.keywords}
    if isinstance(node.func, ast.Name):
        strict_zip = node.func.id == "zip" and names
        defaults = node.func.id == "namedtuple" and "defaults" in names
        return [node.func.id] if node.func.id in CALLS or strict_zip or defaults else []
    if isinstance(node.func, ast.Attribute):
        return [f".{node.func.attr}"] if node.func.attr in METHODS else []
    return []


def display_faults(node: ast.AST) -> list[str]:
    """[*a], {**a}, positional-only parameters, generics taken at run time, text formatting by %."""
    if isinstance(node, (ast.List, ast.Tuple, ast.Set)) and any(isinstance(x, ast.Starred) for x in node.elts):
        return ["[*a]"]
    if isinstance(node, ast.Dict) and None in node.keys:
        return ["{**a}"]
    if isinstance(node, ast.arguments) and node.posonlyargs:
        return ["positional-only /"]
    if isinstance(node, ast.Subscript) and isinstance(node.value, ast.Name) and node.value.id in BUILT_IN_GENERICS:
        return [f"{node.value.id}[...] at run time"]
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Mod) and isinstance(node.left, ast.Constant):
        return ["text % value"] if isinstance(node.left.value, str) else []
    return []


def faults(source: str, file: str = "topic.py") -> list[str]:
    """Everything in a source that MicroPython lacks or the house rules forbid."""
    found = []
    for node in running(ast.parse(source)):
        found += import_faults(node, file) + call_faults(node) + display_faults(node)
        if isinstance(node, NODES):
            found.append(type(node).__name__)
    return found


@pytest.mark.parametrize("path", FILES, ids=[path.relative_to(ENGINE).as_posix() for path in FILES])
def test_the_engine_keeps_to_the_subset(path: Path) -> None:
    assert faults(path.read_text(encoding="utf-8"), path.name) == []


def test_there_are_files_to_read() -> None:
    assert len(FILES) > 15


@pytest.mark.parametrize(
    "source",
    [
        "import typing",
        "import json",
        "import random",
        "import os.path",
        "from dataclasses import dataclass",
        "from datetime import datetime",
        "from collections import OrderedDict",
        "from __future__ import annotations",
        "from . import label",
        "from lawn.models import zone",
        "a = sum([1.0])",
        "a = round(1.5)",
        "print(1)",
        "a = (3).bit_length()",
        "a = math.hypot(1, 2)",
        "a = date.today()",
        "a = f'{x}'",
        "a = '%.1f' % x",
        "a = '{}'.format(x)",
        "a = [*b]",
        "a = {**b}",
        "def f(a, /): pass",
        "zip(a, b, strict=True)",
        "namedtuple('A', 'b', defaults=(1,))",
        "row._asdict()",
        "Rows = dict[str, int]",
        "match a:\n    case 1: pass",
        "try:\n    pass\nexcept* ValueError:\n    pass",
        "async def f(): pass",
    ],
)
def test_each_rule_bites(source: str) -> None:
    assert faults(source)


@pytest.mark.parametrize(
    "source",
    [
        "def f(*, a: dict[str, int] | None = None) -> list[str]: return []",
        "TYPE_CHECKING = False\nif TYPE_CHECKING:\n    from typing import Any",
        "a: list[float] = []",
        "if (b := 1) > 0: pass",
        "f(*a, **b)",
        "from lawn.engine.product.label import rate",
    ],
)
def test_what_micropython_has_is_allowed(source: str) -> None:
    assert faults(source) == []
