"""A12: whatever an archive holds, a restore ends with a sentence, unpacks no more than it may, and changes nothing."""

import json
import zipfile
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from lawn.models import Member
from lawn.operations import archive
from lawn.operations.backup import backup
from tests import pictures
from tests.operations.conftest import PICTURE_NAME
from tests.operations.test_backup import everything

ENTRIES, PEOPLE = "tables/lawn_entry.jsonl", "tables/lawn_person.jsonl"
Parts = dict[str, bytes]


@pytest.fixture
def file(keeper: Member, tmp_path: Path) -> Path:
    backup(tmp_path / "book.zip")
    return tmp_path / "book.zip"


def forged(file: Path, change: Callable[[Parts], None], listed: Callable[[dict[str, Any]], Any] | None = None) -> None:
    """Write the archive anew with other parts, its list and its seal right: by someone who knows the form."""
    with zipfile.ZipFile(file) as source:
        parts = {name: source.read(name) for name in source.namelist() if not name.startswith("manifest")}
        manifest = json.loads(source.read("manifest.json"))
    change(parts)
    manifest["parts"] = {
        name: {"sha256": sha256(content).hexdigest(), "bytes": len(content)} for name, content in parts.items()
    }
    said = listed(manifest) if listed else None
    text = said if isinstance(said, bytes) else json.dumps(said if said is not None else manifest).encode()
    parts |= {"manifest.json": text, "manifest.sha256": sha256(text).hexdigest().encode()}
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as target:
        for name, content in parts.items():
            target.writestr(name, content)


def refused(file: Path, words: str) -> None:
    before = everything()
    with pytest.raises(CommandError, match=words):
        call_command("restore", file, "--replace")
    assert everything() == before


def rows(change: Callable[[list[str]], list[str]], part: str = ENTRIES) -> Callable[[Parts], None]:
    """Change the lines of a table."""

    def changing(parts: Parts) -> None:
        parts[part] = "".join(f"{line}\n" for line in change(parts[part].decode().splitlines())).encode()

    return changing


ROWS: dict[str, Callable[[Parts], None]] = {
    "no JSON": rows(lambda lines: [*lines[:-1], "{"]),
    "a row too short": rows(lambda lines: [*lines[:-1], "[1]"]),
    "a row that is a number": rows(lambda lines: [*lines[:-1], "7"]),
    "columns that are no list": rows(lambda lines: ["7", *lines[1:]]),
    "no line at all": rows(lambda lines: []),
    "an id that is none": rows(lambda lines: [*lines[:-1], lines[-1].replace('"0', '"z')]),
    "nesting without end": rows(lambda lines: [*lines[:-1], "[" * 200_000]),
    "a row twice": rows(lambda lines: [*lines, lines[-1]]),
    "a person of nothing but gaps": rows(
        lambda lines: [*lines, json.dumps([None] * len(json.loads(lines[0])))], PEOPLE
    ),
    "bytes that are no text": lambda parts: parts.update({ENTRIES: parts[ENTRIES] + b"\xff\xfe\n"}),
    "a household's row missing": rows(lambda lines: lines[:1], "tables/lawn_household.jsonl"),
}


@pytest.mark.parametrize("what", ROWS)
def test_a12_rows_that_are_none_end_with_a_sentence(keeper: Member, file: Path, what: str) -> None:
    forged(file, ROWS[what])
    refused(file, r"\.$")


LISTS: dict[str, Callable[[dict[str, Any]], Any]] = {
    "a list of contents that is a list": lambda said: [],
    "that is null": lambda said: b"null",
    "of endless nesting": lambda said: b"[" * 200_000,
    "without parts": lambda said: {name: of for name, of in said.items() if name != "parts"},
    "whose parts are a text": lambda said: {**said, "parts": "many"},
    "whose sums are numbers": lambda said: {**said, "parts": {name: {"sha256": 7} for name in said["parts"]}},
    "whose sizes are below 0": lambda said: {
        **said,
        "parts": {n: {**of, "bytes": -1} for n, of in said["parts"].items()},
    },
    "without migrations": lambda said: {name: of for name, of in said.items() if name != "migrations"},
    "whose migrations are numbers": lambda said: {**said, "migrations": {"lawn": [7]}},
    "of an app nobody knows": lambda said: {**said, "migrations": {**said["migrations"], "another": ["0001"]}},
    "of no tables yet": lambda said: {**said, "migrations": {}},
    "whose households are a list": lambda said: {**said, "households": []},
    "whose tables say texts": lambda said: {**said, "tables": dict.fromkeys(said["tables"], "7")},
    "without the day": lambda said: {name: of for name, of in said.items() if name != "made_at"},
}


@pytest.mark.parametrize("what", LISTS)
def test_a12_a_list_that_says_too_little_ends_with_a_sentence(keeper: Member, file: Path, what: str) -> None:
    forged(file, lambda parts: None, LISTS[what])
    refused(file, r"\.$")


def test_a12_what_would_fill_the_disk_is_refused_before_it_is_unpacked(keeper: Member, file: Path) -> None:
    size = 1 << 60
    forged(
        file,
        lambda parts: None,
        lambda said: {**said, "parts": {**said["parts"], ENTRIES: {**said["parts"][ENTRIES], "bytes": size}}},
    )
    refused(file, "Too little room")


def test_a12_a_part_larger_than_its_list_says_is_refused(keeper: Member, file: Path) -> None:
    forged(
        file,
        lambda parts: None,
        lambda said: {**said, "parts": {**said["parts"], ENTRIES: {**said["parts"][ENTRIES], "bytes": 1}}},
    )
    refused(file, "its size is another")


@pytest.mark.parametrize(("bound", "words"), [("MOST_LIST_BYTES", "allowed are"), ("MOST_LINE_BYTES", "a row of over")])
def test_a12_a_list_or_a_row_past_its_bound_is_never_held_in_memory(
    keeper: Member, file: Path, monkeypatch: pytest.MonkeyPatch, bound: str, words: str
) -> None:
    monkeypatch.setattr(archive, bound, 100)
    refused(file, words)


def test_a12_two_parts_of_one_name_are_refused(keeper: Member, file: Path) -> None:
    with zipfile.ZipFile(file, "a") as more, pytest.warns(UserWarning, match="Duplicate name"):
        more.writestr(ENTRIES, "[]\n")
    refused(file, "two parts of one name")


@pytest.mark.parametrize(
    "name",
    [
        f"photos/{'0' * 8}-0000-7000-8000-000000000000/{PICTURE_NAME}",  # a household that is not in the archive
        f"photos/../../{PICTURE_NAME}",
        "photos/nobody/photo.jpg",
        f"photos/{PICTURE_NAME}",
    ],
)
def test_a12_a_photo_under_a_name_that_is_none_is_refused(keeper: Member, file: Path, name: str) -> None:
    forged(file, lambda parts: parts.update({name: b"anything"}))
    refused(file, "under a name that is none")


@pytest.mark.parametrize(
    "content",
    [
        b"no picture at all",
        pictures.jpeg(pictures.quarters(40, 30), exif=pictures.location()),
        pictures.jpeg(pictures.noise(60, 40))[:-200],
    ],
    ids=["no picture", "with a place", "cut off"],
)
def test_a12_a_photo_no_phone_could_have_sent_is_left_out_and_named(
    keeper: Member, file: Path, folder: Path, capsys: pytest.CaptureFixture[str], content: bytes
) -> None:
    name = pictures.name(content)
    forged(file, lambda parts: parts.update({f"photos/{keeper.household_id}/{name}": content}))
    call_command("restore", file, "--replace")
    assert f"The photo {name} is left out" in capsys.readouterr().out
    assert list((folder / "photos").rglob(name)) == []
    assert len(list((folder / "photos").rglob(PICTURE_NAME))) == 1


def test_a12_an_encrypted_archive_ends_with_a_sentence(keeper: Member, file: Path) -> None:
    """Bit 0 of a part's flags says it is encrypted (PKWARE's APPNOTE 6.3, 4.4.4)."""
    data = bytearray(file.read_bytes())
    at = data.rindex(b"PK\x01\x02")
    data[at + 8] |= 1
    file.write_bytes(bytes(data))
    refused(file, r"\.$")
