"""In which order a run takes its tests: what takes minutes by itself first, or one worker is left alone with it."""

import pytest

FIRST = {
    "tests/quality/test_tools.py": "the phone's own tests, mypy and tsc take minutes of one test each",
    "tests/live/test_suite_on_postgresql.py": "a thousand tests in one",
}


def longest_first(items: list[pytest.Item]) -> None:
    """Move those to the front, all others as they stand; workers begin at the front and steal from the end."""
    items.sort(key=lambda item: item.nodeid.partition("::")[0] not in FIRST)
