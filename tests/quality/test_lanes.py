"""The run one can wait for: each test is in it somewhere, and what a part leaves out has its reason."""

import sys
from pathlib import PurePath
from types import SimpleNamespace
from typing import cast

import pytest
from django.core.management import CommandError, call_command

from lawn.tooling import lanes
from lawn.tooling.build import ROOT
from tests.lanes import engines, order
from tests.lanes.databases import AGAIN, NOT_AGAIN
from tests.lanes.timings import MOST_PERCENT, Timings


def files(folder: str) -> set[str]:
    """The files of tests in a folder, at whatever depth."""
    return {path.relative_to(ROOT).as_posix() for path in (ROOT / "tests" / folder).rglob("test_*.py")}


def test_every_journey_is_walked_in_chromium_and_its_row_says_why_in_webkit_or_not() -> None:
    assert not engines.BOTH.keys() & engines.CHROMIUM_ALONE.keys()
    rows = engines.BOTH | engines.CHROMIUM_ALONE
    assert rows.keys() == {PurePath(file).stem for file in files("journeys")}
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
    there = set().union(*(files(folder) for folder in ("api", "domain", "operations", "sync")))
    assert again | NOT_AGAIN.keys() == there | {"tests/units/test_demo.py"}
    assert all(reason for reason in (*AGAIN.values(), *NOT_AGAIN.values()))


def test_what_takes_minutes_by_itself_is_begun_first_and_all_else_keeps_its_order() -> None:
    assert set(order.FIRST) <= files("quality") | files("live")
    names = ["tests/api/test_up.py::test_a", "tests/quality/test_tools.py::test_b", "tests/api/test_up.py::test_c"]
    items = [cast(pytest.Item, SimpleNamespace(nodeid=name)) for name in names]
    order.longest_first(items)
    assert [item.nodeid for item in items] == [names[1], names[0], names[2]]


def timed(seconds: dict[str, float]) -> Timings:
    """The timings of a whole run in which one test of each of these folders took so long."""
    timings = Timings(whole=True)
    for folder, took in seconds.items():
        timings.seconds[f"tests/{folder}/test_one.py::test_it"] = took
    return timings


def test_every_folder_of_tests_has_a_share_of_the_run() -> None:
    folders = {file.split("/")[1] for file in files(".")}
    assert folders == MOST_PERCENT.keys()


def test_a_folder_that_outgrew_its_share_is_named_with_what_takes_its_time() -> None:
    shares = {folder: float(most) for folder, most in MOST_PERCENT.items()}
    assert timed(shares).outgrown() == []
    (said,) = timed({"parity": 9 * shares["parity"], "journeys": shares["journeys"]}).outgrown()
    assert "tests/parity took" in said
    assert "tests/parity/test_one.py::test_it" in said


def test_what_a_run_of_a_part_takes_is_judged_by_no_share() -> None:
    session = SimpleNamespace(exitstatus=pytest.ExitCode.OK)
    ended = []
    for whole in (True, False):
        timings = timed({"units": 60.0})
        timings.whole = whole
        session.exitstatus = pytest.ExitCode.OK
        timings.pytest_sessionfinish(cast(pytest.Session, session))
        ended.append(session.exitstatus)
    assert ended == [pytest.ExitCode.TESTS_FAILED, pytest.ExitCode.OK]


def test_the_table_of_a_run_holds_its_folders_and_its_slowest_tests() -> None:
    lines = list(timed({"journeys": 120.0, "units": 60.0}).lines())
    assert any("2.0 min" in line and "tests/journeys" in line for line in lines)
    assert any("60.0 s  tests/units/test_one.py::test_it" in line for line in lines)


def parts(**programs: str) -> list[lanes.Part]:
    return [lanes.Part(name, (sys.executable, "-c", program)) for name, program in programs.items()]


def test_the_quick_lane_goes_on_after_a_part_that_fails_and_shows_what_it_said() -> None:
    said: list[str] = []
    failed = lanes.tell(parts(bad="raise SystemExit('a wrong word')", good="print('not to be seen')"), said.append, 1)
    assert failed == ["bad"]
    assert [line.split()[0] for line in said] == ["FAILED", "a", "passed"]
    assert "not to be seen" not in "".join(said)


def test_the_parts_of_the_lane_choose_their_settings_and_ask_nobody(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DJANGO_SETTINGS_MODULE", "lawn.settings")
    look = "import os, sys; assert 'DJANGO_SETTINGS_MODULE' not in os.environ; assert not sys.stdin.read()"
    assert lanes.run(parts(look=look)[0]).passed


def test_check_ends_with_an_error_that_names_what_failed(monkeypatch: pytest.MonkeyPatch, node_modules: object) -> None:
    monkeypatch.setattr(lanes, "quick", lambda: parts(bad="raise SystemExit(3)", good=""))
    with pytest.raises(CommandError, match=r"Failed after \d+ s: bad\."):
        call_command("check")
    monkeypatch.setattr(lanes, "quick", lambda: parts(good=""))
    call_command("check")


@pytest.mark.parametrize("asked", [["--deploy"], ["--tag", "models"], ["--list-tags"], ["lawn"], ["--settings-only"]])
def test_check_with_django_s_own_options_is_django_s_alone(monkeypatch: pytest.MonkeyPatch, asked: list[str]) -> None:
    monkeypatch.setattr(lanes, "quick", lambda: pytest.fail("the lane ran"))
    call_command("check", *asked)


def test_the_quick_lane_holds_every_linter_and_every_folder_it_names() -> None:
    names = [part.name for part in lanes.quick()]
    assert [*names[:3], names[3]] == ["vitest 1/2", "vitest 2/2", "pytest", "mypy"]
    assert {"tsc", "biome", "ruff", "ruff format"} <= set(names)
    assert all((ROOT / "tests" / name).exists() for name in (*lanes.FOLDERS, *lanes.FILES))
