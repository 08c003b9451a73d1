"""The file that a backup is: a zip of parts, sealed by a manifest with the SHA-256 of each.

    manifest.json      {format, app, made_at, database, schema, migrations, households, tables, photos, parts}
    manifest.sha256    the SHA-256 of manifest.json
    tables/NAME.jsonl  a table (lawn.operations.tables)
    photos/…           the photo files, as they lie in the data folder

A zip can be looked into with any tool (PKWARE's APPNOTE 6.3), and each part is read alone. It is written under
another name, read back whole and compared, and only then takes its place: a file of the right name is a whole one.
"""

import hashlib
import json
import os
import re
import zipfile
import zlib
from collections.abc import Iterable, Iterator
from pathlib import Path
from types import TracebackType
from typing import IO, Any

from lawn.operations import Refused

FORMAT = 1
_BLOCK = 1024 * 1024
_MANIFEST, _SEAL = "manifest.json", "manifest.sha256"
MOST_LIST_BYTES = 256 * 1024 * 1024  # a list of contents names every photo of every household
MOST_LINE_BYTES = 16 * 1024 * 1024  # a row: what one push may hold is far below
_SUM = re.compile(r"\A[0-9a-f]{64}\Z")


# What reading a damaged or hostile zip raises, by Python's own zipfile and json; the last for an encrypted part, and
# for nesting past what json reads.
UNREADABLE: tuple[type[Exception], ...] = (
    *(zipfile.BadZipFile, zlib.error, LookupError, ValueError, OSError, EOFError),
    *(NotImplementedError, RuntimeError),
)


def _is_list(manifest: dict[str, Any]) -> bool:
    """Tell whether a list of contents has all that a restore reads of it, each of its sort."""
    parts, tables, households = (manifest.get(name) for name in ("parts", "tables", "households"))
    if not (isinstance(parts, dict) and isinstance(tables, dict) and isinstance(households, dict)):
        return False
    return (
        all(isinstance(said, dict) and _is_part(said) for said in parts.values())
        and all(type(rows) is int for rows in tables.values())
        and all(isinstance(said, dict) and {"changes", "digest"} <= set(said) for said in households.values())
        and _are_migrations(manifest.get("migrations"))
        and isinstance(manifest.get("made_at"), str)
    )


def _is_part(said: dict[str, Any]) -> bool:
    summed, size = said.get("sha256"), said.get("bytes")
    return isinstance(summed, str) and _SUM.match(summed) is not None and type(size) is int and size >= 0


def _are_migrations(seen: Any) -> bool:
    return isinstance(seen, dict) and all(
        isinstance(names, list) and all(isinstance(name, str) for name in names) for names in seen.values()
    )


class Draft:
    """An archive being written, under a name of its own until `finish` has read it back."""

    def __init__(self, target: Path, replace: bool) -> None:
        """Begin. Raise Refused where the target is there already and may not be replaced, or cannot be written."""
        if target.exists() and not replace:
            raise Refused(f"{target} is there already. Choose another name, or say --force to replace it.")
        self._target, self._replace = target, replace
        self._draft = target.with_name(f".{target.name}.{os.getpid()}.part")
        self._parts: dict[str, dict[str, Any]] = {}
        try:
            # 0600 from the first byte on: it holds everything, password hashes included
            handle = os.open(self._draft, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600)
        except OSError as error:
            raise Refused(f"Cannot write beside {target}: {error.strerror}.") from error
        self._file = os.fdopen(handle, "w+b")
        self._zip = zipfile.ZipFile(self._file, "w", zipfile.ZIP_DEFLATED, compresslevel=6)

    def __enter__(self) -> "Draft":
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        """Leave nothing behind of a draft that was not finished."""
        self._zip.close()
        self._file.close()
        self._draft.unlink(missing_ok=True)

    def add_lines(self, name: str, lines: Iterable[str]) -> int:
        """Write a part of text lines; return how many."""
        count = 0
        with self._part(name, zipfile.ZIP_DEFLATED) as part:
            for line in lines:
                part.write(line.encode() + b"\n")
                count += 1
        return count

    def add_file(self, name: str, path: Path) -> None:
        """Write a part from a file; pictures are packed already."""
        with path.open("rb") as source, self._part(name, zipfile.ZIP_STORED) as part:
            while block := source.read(_BLOCK):
                part.write(block)

    def _part(self, name: str, packing: int) -> "_Summed":
        info = zipfile.ZipInfo(name)
        info.compress_type, info.external_attr = packing, 0o600 << 16
        return _Summed(self._zip.open(info, "w", force_zip64=True), name, self._parts)

    def finish(self, manifest: dict[str, Any]) -> None:
        """Seal it, read it back, and give it its name; raise Refused where what was read is not what was written."""
        text = json.dumps({**manifest, "format": FORMAT, "parts": self._parts}, indent=1, ensure_ascii=False)
        for name, content in ((_MANIFEST, text), (_SEAL, hashlib.sha256(text.encode()).hexdigest())):
            with self._zip.open(zipfile.ZipInfo(name), "w") as part:
                part.write(content.encode())
        self._zip.close()
        self._file.flush()
        os.fsync(self._file.fileno())
        with Archive(self._draft) as written:
            written.check_parts()
        self._name_it()

    def _name_it(self) -> None:
        try:
            if self._replace:
                self._draft.replace(self._target)
            else:
                os.link(self._draft, self._target)  # unlike a rename, never over a file that came meanwhile
        except FileExistsError as error:
            raise Refused(f"{self._target} was made by someone else meanwhile. Choose another name.") from error
        folder = os.open(self._target.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)


class _Summed:
    """A part being written, whose size and sum are noted when it is closed."""

    def __init__(self, part: IO[bytes], name: str, parts: dict[str, dict[str, Any]]) -> None:
        self._part, self._name, self._parts = part, name, parts
        self._sum, self._size = hashlib.sha256(), 0

    def write(self, block: bytes) -> None:
        """Write and sum."""
        self._sum.update(block)
        self._size += len(block)
        self._part.write(block)

    def __enter__(self) -> "_Summed":
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self._part.close()
        if error is None:
            self._parts[self._name] = {"sha256": self._sum.hexdigest(), "bytes": self._size}


class Archive:
    """A backup file opened for reading; the manifest is believed once its own sum is right."""

    def __init__(self, path: Path) -> None:
        """Open it. Raise Refused for what is no whole archive, or one of a later form."""
        self.path = path
        try:
            self._zip = zipfile.ZipFile(path)
            text, seal = self._small(_MANIFEST), self._small(_SEAL)
            self.manifest: dict[str, Any] = json.loads(text)
        except FileNotFoundError as error:
            raise Refused(f"There is no file {path}.") from error
        except UNREADABLE as error:
            raise Refused(f"{path} is not a whole backup of this program ({error}).") from error
        if hashlib.sha256(text).hexdigest().encode() != seal:
            raise Refused(f"{path} is damaged: its list of contents is not the one that was written.")
        if not isinstance(self.manifest, dict):
            raise Refused(f"{path} is not a whole backup of this program (its list of contents is none).")
        if self.manifest.get("format") != FORMAT:
            raise Refused(f"{path} has form {self.manifest.get('format')}; this program reads form {FORMAT}.")
        if not _is_list(self.manifest):
            raise Refused(f"{path} is not a whole backup of this program (its list of contents says too little).")

    def _small(self, name: str) -> bytes:
        """Return a part that is read at once; zip files never give more than the size they state."""
        size = self._zip.getinfo(name).file_size
        if size > MOST_LIST_BYTES:
            raise ValueError(f"{name} would be {size:,} bytes, allowed are {MOST_LIST_BYTES:,}")
        return self._zip.read(name)

    def __enter__(self) -> "Archive":
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self._zip.close()

    def check_parts(self) -> None:
        """Read every part; raise Refused naming the first that is missing, damaged, or not in the list."""
        parts: dict[str, dict[str, Any]] = self.manifest["parts"]
        names = self._zip.namelist()
        extra = set(names) - set(parts) - {_MANIFEST, _SEAL}
        if extra:
            raise Refused(f"{self.path} is damaged: {min(extra)} is not in its list of contents.")
        if len(set(names)) < len(names):
            raise Refused(f"{self.path} is damaged: it holds two parts of one name.")
        for info in self._zip.infolist():
            if info.filename in parts and info.file_size != parts[info.filename]["bytes"]:
                raise Refused(f"{self.path} is damaged: {info.filename} is not what was written (its size is another).")
        for name, said in parts.items():
            if self._sum_of(name) != said["sha256"]:
                raise Refused(f"{self.path} is damaged: {name} is not what was written.")

    def _sum_of(self, name: str) -> str:
        found = hashlib.sha256()
        try:
            with self._zip.open(name) as part:
                while block := part.read(_BLOCK):
                    found.update(block)
        except zlib.error as error:
            raise Refused(f"{self.path} is damaged: {name} cannot be unpacked.") from error
        except UNREADABLE as error:
            raise Refused(f"{self.path} is damaged: {name} cannot be read ({error}).") from error
        return found.hexdigest()

    def unpacked_bytes(self) -> int:
        """Return how much all parts are together; each is held to its size as it is read."""
        return sum(int(said["bytes"]) for said in self.manifest["parts"].values())

    def bytes_of(self, name: str) -> int:
        """Return how much one part is."""
        return int(self.manifest["parts"][name]["bytes"])

    def lines(self, name: str) -> Iterator[str]:
        """Yield the lines of a text part, without line ends."""
        with self._zip.open(name) as part:
            while line := part.readline(MOST_LINE_BYTES + 1):
                if len(line) > MOST_LINE_BYTES:
                    raise Refused(f"{self.path}: {name} has a row of over {MOST_LINE_BYTES:,} bytes.")
                yield line.decode("utf-8").rstrip("\n")

    def names(self, folder: str) -> list[str]:
        """Return the parts under a folder."""
        return sorted(name for name in self.manifest["parts"] if name.startswith(f"{folder}/"))

    def copy(self, name: str, target: IO[bytes]) -> None:
        """Write a part into an open file."""
        with self._zip.open(name) as part:
            while block := part.read(_BLOCK):
                target.write(block)
