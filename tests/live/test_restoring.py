"""F22: a server put back to an older backup, on both databases, with phones that go on writing meanwhile (S11)."""

import threading
from collections.abc import Callable
from functools import partial
from pathlib import Path

from tests.live.cluster import until
from tests.live.conftest import Home
from tests.live.phones import KeepingPhone
from tests.sync.live import at_once

ZONE = "0190aaaa-0000-7000-8000-0000000000f2"


def test_f22_s11_a_two_day_old_backup_is_restored_and_phones_bring_back_what_it_lacks(
    home: Home, tmp_path: Path
) -> None:
    """Two days of one phone alone, two of both: some is in the backup, some on one phone only, some on both."""
    mine, theirs = home.phone(), home.phone()
    mine.write("zone", ZONE, name={"name": "Verge"})
    mine.write_through(9)
    theirs.write_through(7)
    home.server.manage("backup", str(tmp_path / "monday.zip"))
    mine.write("zone", ZONE, name={"name": "Verge by the street"})
    mine.write_through(8)
    theirs.write_through(5)
    mine.note("Never sent before the restore")
    home.server.manage("restore", str(tmp_path / "monday.zip"), "--replace")
    late = home.phone()
    late.sync_through()
    assert len(late.all_of("entry")) == 16  # the backup's, and nothing newer
    home.check()
    assert (mine.refills, theirs.refills, late.refills) == (1, 1, 0)
    assert len(late.all_of("entry")) == 30
    assert late.see("zone", ZONE, "name") == {"name": "Verge by the street"}


def test_f22_s11_backup_and_restore_while_four_phones_write_lose_nothing(home: Home, tmp_path: Path) -> None:
    """The backup is of one moment amid the pushes; the restore falls between two other moments."""
    writers = [home.phone() for _ in range(4)]
    for phone in writers:
        phone.write_through(3)
    backed_up, done = threading.Event(), threading.Event()

    def write(phone: KeepingPhone) -> None:
        # So many rounds beside the backup, and as many again beside the restore: however long either takes to begin,
        # some are left for the second.
        for at_last in (backed_up, done):
            for _ in range(25):
                if not at_last.is_set():
                    phone.write_through(2)
            at_last.wait()

    def operate() -> None:
        try:
            home.server.manage("backup", str(tmp_path / "running.zip"))
            before = len(home.history.acknowledged)
            backed_up.set()
            until(lambda: len(home.history.acknowledged) >= before + 8, "more is written after the backup")
            home.server.manage("restore", str(tmp_path / "running.zip"), "--replace")
        finally:
            backed_up.set()
            done.set()

    jobs: list[Callable[[], None]] = [operate, *[partial(write, phone) for phone in writers]]
    at_once(jobs)
    home.check()
    assert [phone.refills for phone in writers] == [1, 1, 1, 1]


def test_f22_what_a_restore_replaced_is_kept_and_can_be_put_back(home: Home, tmp_path: Path) -> None:
    phone = home.phone()
    phone.write_through(2)
    home.server.manage("backup", str(tmp_path / "old.zip"))
    phone.write_through(3)
    held = {row["id"] for row in phone.all_of("entry")}
    kept_before = set(home.server.data.glob("before-restore-*.zip"))
    home.server.manage("restore", str(tmp_path / "old.zip"), "--replace")
    (aside,) = set(home.server.data.glob("before-restore-*.zip")) - kept_before
    home.server.manage("restore", str(aside), "--replace")
    fresh = home.phone()
    fresh.sync_through()
    assert {row["id"] for row in fresh.all_of("entry")} == held
    assert aside.stat().st_mode & 0o077 == 0
