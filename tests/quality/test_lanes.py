"""The run one can wait for: every test is in it somewhere, and what was left out of a part stands there with its reason."""

import pytest

from lawn.tooling.build import ROOT
from tests.journeys import engines


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
