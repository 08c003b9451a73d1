"""What can be held to at any speed of the machine: bytes of a pull, and that a round does not walk the history."""

import subprocess
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from lawn.models import Member
from lawn.tooling import nodejs
from tests.bench import browsers
from tests.bench.entries import mows
from tests.bench.fill import fill
from tests.bench.sync import rounds as histories
from tests.bench.syncing import MANY
from tests.factories import KeeperFactory
from tests.sync.conftest import phone_of, signed_in
from tests.sync.phone import Phone

BYTES_AN_ENTRY = 70
SHORT, LONG = 20, 1_200
# A round at 100,000 entries may cost 1.2 times one at 1,000; here the histories lie still further apart.
TIMES = 1.2


def steps_of(work: Callable[[], object]) -> int:
    """Steps that the database's machine takes for some work; a walk through a table shows in them at once."""
    if connection.vendor != "sqlite":
        with CaptureQueriesContext(connection) as asked:
            work()
        return len(asked)
    steps = 0

    def count() -> int:
        nonlocal steps
        steps += 1
        return 0

    connection.ensure_connection()
    connection.connection.set_progress_handler(count, 1)
    try:
        work()
    finally:
        connection.connection.set_progress_handler(None, 1)
    return steps


def keeper_of(count: int) -> Member:
    """The keeper of a household of many entries."""
    keeper: Member = KeeperFactory.create()
    fill(keeper.household_id, count)
    return keeper


def rounds(phone: Phone) -> tuple[int, int]:
    """Steps of a round with nothing new, and of one with one new entry."""
    phone.sync()
    phone.log("mow", zone_ids=[], cut_height_mm=65)
    phone.sync()
    idle = steps_of(phone.sync)
    phone.log("mow", zone_ids=[], cut_height_mm=65)
    return idle, steps_of(phone.sync)


@pytest.mark.django_db
def test_a_bulk_pull_is_at_most_70_bytes_an_entry() -> None:
    keeper = keeper_of(1_000)
    phone = phone_of(keeper)
    answer = signed_in(keeper).post(
        f"/api/v1/households/{keeper.household_id}/sync",
        phone.request(),
        content_type="application/json",
        headers={"Accept-Encoding": "gzip"},
    )
    assert answer["Content-Encoding"] == "gzip"
    assert len(answer.content) / 1_000 <= BYTES_AN_ENTRY


@pytest.mark.django_db
def test_s10_a_round_costs_the_same_however_long_the_history() -> None:
    short, long = (rounds(phone_of(keeper_of(count))) for count in (SHORT, LONG))
    assert min(short) > 0
    assert [after <= TIMES * before for before, after in zip(short, long, strict=True)] == [True, True], (short, long)


@pytest.mark.usefixtures("node_modules")
def test_the_script_of_the_bench_starts_outside_a_module(tmp_path: Path) -> None:
    script = tmp_path / "bench.cjs"
    script.write_text(browsers.bundle() + "\nconsole.log(Object.keys(__bench).join(' '));")
    done = subprocess.run([nodejs.node(), str(script)], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-2000:]
    assert {"open", "write", "start", "close"} <= set(done.stdout.split())


@pytest.mark.parametrize("count", [MANY, histories.LONG])
def test_no_entry_of_the_bench_is_dated_ahead(count: int) -> None:
    latest = datetime.fromisoformat(mows(count)[-1]["body"]["occurred_at"])
    assert latest < datetime.now(UTC)
