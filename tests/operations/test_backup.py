"""`backup` and `restore`: whole or not at all, checked on the way out and on the way in (S11, F22)."""

import json
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from lawn.models import Conflict, Entry, Household, Member, ParkedOp, Person, Session, Stream, Zone
from lawn.operations import Refused, archive, restore, tables
from lawn.operations.backup import backup
from tests.factories import KeeperFactory
from tests.operations.conftest import PICTURE, PICTURE_NAME
from tests.sync.conftest import signed_in


def everything() -> dict[str, list[str]]:
    """Every kept row as text, but for the epochs."""
    found = {model._meta.db_table: list(tables.lines_of(model)) for model in tables.models_of()}
    for epoch in map(str, Household.objects.values_list("epoch", flat=True)):
        found["lawn_household"] = [line.replace(epoch, "epoch") for line in found["lawn_household"]]
    return found


@pytest.fixture
def file(keeper: Member, tmp_path: Path) -> Path:
    backup(tmp_path / "book.zip")
    return tmp_path / "book.zip"


def test_s11_a_restore_gives_back_every_row_and_photo_under_a_new_epoch(
    keeper: Member, file: Path, folder: Path
) -> None:
    before, epoch = everything(), Household.objects.get().epoch
    assert all(model.objects.exists() for model in (Conflict, ParkedOp, Stream, Zone, Entry))
    Entry.objects.all().delete()
    Zone.objects.update(name="Lost")
    (photo,) = (folder / "photos").rglob(PICTURE_NAME)
    photo.unlink()
    call_command("restore", file, "--replace")
    assert everything() == before
    assert Household.objects.get().epoch != epoch
    assert photo.read_bytes() == PICTURE


def test_f22_restored_rows_are_those_of_the_backup_not_a_mixture(keeper: Member, file: Path) -> None:
    other = KeeperFactory.create()
    call_command("restore", file, "--replace")
    assert [household.id for household in Household.objects.all()] == [keeper.household_id]
    assert not Person.objects.filter(id=other.person_id).exists()


def test_s21_sessions_are_not_in_a_backup_and_those_of_the_store_stay(keeper: Member, tmp_path: Path) -> None:
    ended = signed_in(keeper)
    backup(tmp_path / "book.zip")
    ended.logout()
    browser = signed_in(keeper)
    living = set(Session.objects.values_list("session_key", flat=True))
    call_command("restore", tmp_path / "book.zip", "--replace")
    assert set(Session.objects.values_list("session_key", flat=True)) == living
    assert ended.get("/api/v1/accounts/me").status_code == 401
    assert browser.get("/api/v1/accounts/me").status_code == 200
    with zipfile.ZipFile(tmp_path / "book.zip") as parts:
        assert not [name for name in parts.namelist() if "session" in name]


def test_a_backup_is_for_its_owner_only_and_never_over_a_file_unasked(keeper: Member, file: Path) -> None:
    assert file.stat().st_mode & 0o777 == 0o600
    first = file.read_bytes()
    with pytest.raises(CommandError, match="--force"):
        call_command("backup", file)
    assert file.read_bytes() == first
    Zone.objects.update(name="Changed since")
    call_command("backup", file, "--force")
    assert file.read_bytes() != first
    assert [path.name for path in file.parent.iterdir() if path.is_file()] == ["book.zip"]


def test_a_backup_that_breaks_off_leaves_no_file(
    keeper: Member, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(self: archive.Draft, name: str, path: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(archive.Draft, "add_file", broken)
    with pytest.raises(OSError, match="No space"):
        backup(tmp_path / "book.zip")
    assert [path for path in tmp_path.iterdir() if path.is_file()] == []


def test_what_was_written_wrongly_is_found_before_it_gets_its_name(
    keeper: Member, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A disk that loses a bit: the part is not what was summed while it was written."""
    real = archive._Summed.write

    def losing(self: archive._Summed, block: bytes) -> None:
        real(self, block)
        self._part.write(b"\n")

    monkeypatch.setattr(archive._Summed, "write", losing)
    with pytest.raises(Refused, match="is not what was written"):
        backup(tmp_path / "book.zip")
    assert not (tmp_path / "book.zip").exists()


def rewritten(file: Path, change: Callable[[str, bytes], bytes | None]) -> None:
    """Write an archive anew with parts changed, or left out where the change gives None."""
    with zipfile.ZipFile(file) as source:
        parts = {name: change(name, source.read(name)) for name in source.namelist()}
    with zipfile.ZipFile(file, "w") as target:
        for name, content in parts.items():
            if content is not None:
                target.writestr(name, content)


DAMAGE: dict[str, tuple[Callable[[str, bytes], bytes | None], str]] = {
    "a row changed": (
        lambda name, content: content.replace(b"Dew", b"Due") if name.endswith("entry.jsonl") else content,
        "lawn_entry.jsonl is not what was written",
    ),
    "a photo changed": (
        lambda name, content: content[::-1] if name.startswith("photos") else content,
        f"{PICTURE_NAME} is not what was written",
    ),
    "a table missing": (
        lambda name, content: None if name.endswith("zone.jsonl") else content,
        "lawn_zone.jsonl cannot be read",
    ),
    "the list missing": (lambda name, content: None if name == "manifest.json" else content, "not a whole backup"),
}


@pytest.mark.parametrize("damage", list(DAMAGE))
def test_a_damaged_backup_is_refused_by_name_and_the_store_stays(keeper: Member, file: Path, damage: str) -> None:
    change, words = DAMAGE[damage]
    before = everything()
    rewritten(file, change)
    with pytest.raises(CommandError, match=words):
        call_command("restore", file, "--replace")
    assert everything() == before


def test_a_backup_cut_short_is_refused(keeper: Member, file: Path) -> None:
    file.write_bytes(file.read_bytes()[:-400])
    with pytest.raises(CommandError, match="not a whole backup"):
        call_command("restore", file, "--replace")


def sealed(file: Path, **changes: Any) -> None:
    """Change an archive's list of contents and seal it rightly: made so by another version, not damaged."""
    from hashlib import sha256

    with zipfile.ZipFile(file) as source:
        manifest = {**json.loads(source.read("manifest.json")), **changes}
    text = json.dumps(manifest).encode()
    seals = {"manifest.json": text, "manifest.sha256": sha256(text).hexdigest().encode()}
    rewritten(file, lambda name, content: seals.get(name, content))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"migrations": {"lawn": ["9999_from_the_future"]}}, "newer version of this program"),
        ({"format": 99}, "form 99"),
        ({"made_at": "2026-01-01", "households": {}}, "does not hold the households"),
    ],
)
def test_what_this_program_cannot_know_is_refused_in_a_sentence(
    keeper: Member, file: Path, changes: dict[str, Any], words: str
) -> None:
    before = everything()
    sealed(file, **changes)
    with pytest.raises(CommandError, match=words):
        call_command("restore", file, "--replace")
    assert everything() == before


def test_a_list_changed_without_its_seal_is_refused(keeper: Member, file: Path) -> None:
    rewritten(file, lambda name, content: content + b" " if name == "manifest.json" else content)
    with pytest.raises(CommandError, match="list of contents is not the one"):
        call_command("restore", file, "--replace")


def test_a_store_with_people_in_it_is_not_replaced_unasked(keeper: Member, file: Path) -> None:
    before = everything()
    with pytest.raises(CommandError, match="--replace"):
        call_command("restore", file)
    assert everything() == before


def test_a_restore_that_breaks_off_half_way_changes_nothing(
    keeper: Member, file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before, real = everything(), restore._exchange_table

    def broken(model: Any, staged: str) -> None:
        if model is Zone:
            raise OSError("the machine is going down")
        real(model, staged)

    monkeypatch.setattr(restore, "_exchange_table", broken)
    with pytest.raises(OSError, match="going down"):
        call_command("restore", file, "--replace")
    assert everything() == before


def test_what_a_restore_replaces_is_kept_whole(keeper: Member, file: Path, folder: Path) -> None:
    Zone.objects.update(name="Written since")
    before = everything()
    call_command("restore", file, "--replace")
    (aside,) = folder.glob("before-restore-*.zip")
    call_command("restore", aside, "--replace")
    assert everything() == before


def test_sums_that_had_gone_wrong_come_back_right(keeper: Member, tmp_path: Path) -> None:
    right = Household.objects.values_list("digest_a", "digest_b").get()
    Household.objects.update(digest_a=1, digest_b=2)
    backup(tmp_path / "book.zip")
    call_command("restore", tmp_path / "book.zip", "--replace")
    assert Household.objects.values_list("digest_a", "digest_b").get() == right
