"""Every promise, rule and fault of the sync design has a test that carries its number."""

from pathlib import Path

from tests.faults.numbered import FAULTS, PROMISES, REASONS, RULES
from tests.faults.proofs import Proof, in_python, in_typescript, proofs, words


def test_the_design_has_so_many_numbers() -> None:
    assert (list(PROMISES), list(RULES), list(FAULTS)) == (
        list(range(1, 11)),
        list(range(1, 23)),
        list(range(1, 57)),
    )


def test_every_number_is_proved_by_a_named_test() -> None:
    assert [number for number, tests in proofs().items() if not tests] == []


def test_no_test_carries_a_number_the_design_does_not_have() -> None:
    assert {number: tests for number, tests in proofs().items() if number not in words()} == {}


def test_reasons_are_for_numbers_of_the_design() -> None:
    assert set(REASONS) <= set(words())


def test_names_are_read_in_both_languages(tmp_path: Path) -> None:
    (tmp_path / "tests").mkdir()
    (tmp_path / "tests" / "test_one.py").write_text("def test_s08_f06_twice() -> None: ...\ndef helper_f07_no(): ...\n")
    (tmp_path / "frontend" / "src").mkdir(parents=True)
    (tmp_path / "frontend" / "src" / "a.test.ts").write_text(
        'describe("S11 kept", () => { it(\n  "F22 sends again (P1)", { timeout: 9 }, x) })\n// it says F99\n'
    )
    assert [(one.number, one.name) for one in in_python(tmp_path)] == [
        ("S8", "test_s08_f06_twice"),
        ("F6", "test_s08_f06_twice"),
    ]
    where = "frontend/src/a.test.ts"
    assert list(in_typescript(tmp_path)) == [
        Proof("S11", where, "S11 kept"),
        Proof("F22", where, "F22 sends again (P1)"),
        Proof("P1", where, "F22 sends again (P1)"),
    ]
