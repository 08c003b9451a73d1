"""The run one can wait for: each test is in it somewhere, and what a part leaves out has its reason."""

import pytest

from lawn.tooling.build import ROOT
from tests.journeys import engines
from tests.live.databases import AGAIN, NOT_AGAIN


def modules(folder: str) -> set[str]:
    return {path.stem for path in (ROOT / "tests" / folder).glob("test_*.py")}


def test_every_journey_is_walked_in_chromium_and_its_row_says_why_in_webkit_or_not() -> None:
    assert not engines.BOTH.keys() & engines.CHROMIUM_ALONE.keys()
    rows = engines.BOTH | engines.CHROMIUM_ALONE
    assert rows.keys() == modules("journeys")
    assert all(len(reason) > 20 for reason in rows.values())
    walked = {name: engines.browsers_of(f"tests.journeys.{name}") for name in rows}
    assert all(browsers[0] == "chromium" for browsers in walked.values())
    assert {name for name, browsers in walked.items() if "webkit" in browsers} == engines.BOTH.keys()


def test_a_journey_that_no_row_names_is_not_walked_in_silence() -> None:
    with pytest.raises(LookupError, match=r"test_new: .*engines\.py"):
        engines.browsers_of("tests.journeys.test_new")


def test_every_file_that_may_reach_the_database_runs_on_postgresql_or_says_why_not() -> None:
    again = {test.partition("::")[0] for test in AGAIN}
    assert not again & NOT_AGAIN.keys()
    folders = ("api", "domain", "operations", "sync")
    files = {f"tests/{folder}/{name}.py" for folder in folders for name in modules(folder)}
    assert again | NOT_AGAIN.keys() == files | {"tests/units/test_demo.py"}
    assert all(reason for reason in (*AGAIN.values(), *NOT_AGAIN.values()))
