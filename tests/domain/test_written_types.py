"""What the phone is told of our own contracts is what they say: types are written, never copied."""

from types import ModuleType

import pytest

from lawn.contract.table import FOLDER, contract
from lawn.management.commands.types import CONTRACTS, SOURCES


@pytest.mark.parametrize("written", CONTRACTS, ids=lambda one: str(one.FILE))
def test_the_phones_types_are_those_of_the_contract(written: ModuleType) -> None:
    fresh = (SOURCES / written.FILE).read_text(encoding="utf-8") == written.text()
    assert fresh, f"Write {written.FILE} anew: uv run manage.py types --contracts"


def test_every_field_of_the_contract_stands_on_a_line_of_its_own() -> None:
    for path in sorted(FOLDER.rglob("*.json")):
        assert all(line.count('"label":') <= 1 for line in path.read_text(encoding="utf-8").splitlines()), path


def test_a_kind_of_log_entry_is_a_file() -> None:
    kinds = [path.stem for path in sorted((FOLDER / "entry").glob("*.json"))]
    entry = contract()["kinds"]["entry"]
    assert kinds == list(entry["bodies"]) == entry["body"]["kind"]["choices"]
    assert set(contract()["kinds"]) == {path.stem for path in FOLDER.glob("*.json")}
