"""`doctor`: each damage is told in a sentence that says what to do; a sound store has no finding."""

from collections.abc import Callable
from io import StringIO
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from django.core.management import call_command

from lawn.models import Change, Conflict, Device, Entry, Household, Member, Op, Stream, Zone
from lawn.operations import doctor
from tests.operations.conftest import PICTURE_NAME


def faults() -> list[str]:
    return [finding.says for finding in doctor.look() if finding.fault]


def test_a_sound_store_has_no_fault_and_its_parked_ops_are_mentioned(keeper: Member) -> None:
    said = StringIO()
    call_command("doctor", stdout=said)
    assert "All is well." in said.getvalue()
    assert "2 entries are set aside" in said.getvalue()


def spoil_photo(folder: Path) -> None:
    (photo,) = (folder / "photos").rglob(PICTURE_NAME)
    photo.write_bytes(b"another picture")


def open_to_all(folder: Path) -> None:
    folder.chmod(0o755)
    (folder / "book.sqlite3").touch()
    (folder / "book.sqlite3").chmod(0o644)  # whatever the umask


DAMAGE: dict[str, tuple[Callable[[Path], object], str]] = {
    "digest": (lambda folder: Household.objects.update(digest_a=7), "manage.py doctor --repair"),
    "entry without change": (lambda folder: Change.objects.filter(t="entry").delete(), "is not among the changes"),
    "change without entry": (lambda folder: Entry.objects.all().delete(), "the change of entry"),
    "change without zone": (lambda folder: Zone.objects.all().delete(), "the change of zone"),
    "change without conflict": (lambda folder: Conflict.objects.all().delete(), "the change of conflict"),
    "member without change": (lambda folder: Change.objects.filter(t="member").delete(), ": member "),
    "household without change": (lambda folder: Change.objects.filter(t="household").delete(), ": household "),
    "unknown kind": (lambda folder: Change.objects.filter(t="zone").update(t="moon"), "a kind unknown here, moon"),
    "counter behind": (lambda folder: Household.objects.update(seq=1), "beyond the counter 1"),
    "answer beyond the counter": (
        lambda folder: Op.objects.filter(result__s="applied").update(result={"s": "applied", "seq": 999}),
        "was answered with a number beyond",
    ),
    "line behind": (lambda folder: Stream.objects.update(acked_dseq=1), "which its phone's line has not reached"),
    "line lost": (lambda folder: Stream.objects.all().delete(), "which its phone's line has not reached"),
    "phone of nobody": (lambda folder: Device.objects.update(member_id=uuid4()), "belongs to no member"),
    "photo": (spoil_photo, f"{PICTURE_NAME} is damaged"),
    "open folder": (
        open_to_all,
        "Everybody on this machine can read",
    ),
}


@pytest.mark.parametrize("damage", list(DAMAGE))
def test_each_damage_is_found_and_ends_with_code_1(keeper: Member, folder: Path, damage: str) -> None:
    do, words = DAMAGE[damage]
    do(folder)
    assert any(words in said for said in faults()), faults()
    with pytest.raises(SystemExit) as ended:
        call_command("doctor", stdout=StringIO())
    assert ended.value.code == 1


@pytest.mark.parametrize(
    ("name", "value", "words"),
    [
        ("DEBUG", True, "EVENFALL_DEBUG is on"),
        ("ADDRESS", "http://book.example.org", "use https"),
        ("ALLOWED_HOSTS", ["*"], "allows every host name"),
        ("SECRET_KEY", "short", "shorter than 32"),
    ],
)
def test_each_dangerous_setting_is_found(keeper: Member, settings: Any, name: str, value: object, words: str) -> None:
    setattr(settings, name, value)
    assert any(words in said for said in faults())


def test_p09_repair_works_sums_out_anew_and_touches_nothing_else(keeper: Member) -> None:
    before = Household.objects.values().get()
    entries = list(Entry.objects.order_by("id").values())
    Household.objects.update(digest_a=7, digest_b=8)
    said = StringIO()
    call_command("doctor", "--repair", stdout=said)
    assert "the digest is now" in said.getvalue()
    assert Household.objects.values().get() == before
    assert list(Entry.objects.order_by("id").values()) == entries


def test_p09_repair_deletes_nothing_it_cannot_mend(keeper: Member) -> None:
    Entry.objects.all().delete()
    left = Change.objects.count()
    with pytest.raises(SystemExit):
        call_command("doctor", "--repair", stdout=StringIO())
    assert Change.objects.count() == left


def test_s11_a_new_epoch_is_begun_when_asked(keeper: Member) -> None:
    before = Household.objects.get()
    call_command("doctor", "--new-epoch", stdout=StringIO())
    after = Household.objects.get()
    assert after.epoch != before.epoch
    assert (after.seq, after.digest_a, after.name) == (before.seq, before.digest_a, before.name)
