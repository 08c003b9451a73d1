"""Putting a backup back, whole or not at all."""

import os
import tempfile
import uuid
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

from django.apps import apps
from django.conf import settings
from django.core.exceptions import ValidationError
from django.core.management import call_command
from django.core.management.color import no_style
from django.db import DatabaseError, DataError, OperationalError, connection, transaction
from django.utils import timezone

from lawn.contract.refusal import Refused as PictureRefused
from lawn.models import Household, Person
from lawn.operations import Refused, history, room, staging, tables
from lawn.operations.archive import UNREADABLE, Archive
from lawn.operations.backup import PHOTOS, backup
from lawn.photos import check, files

Say = Callable[[str], None]

_TRIES = 5
# What rows and lists of a sealed archive raise that fit nothing here.
_UNFIT: tuple[type[Exception], ...] = (*UNREADABLE, TypeError, AttributeError, ValidationError, DatabaseError)


class _Busy(Refused):
    """Another transaction held what the exchange needs, or each waited for the other; nothing has been done."""


def restore(source: Path, *, replace: bool = False, say: Say = lambda line: None) -> Path | None:
    """Put the backup's rows and photos in the place of what the store holds; return where the old rows lie, if any.

    Everything is checked in a database beside (lawn.operations.staging) first. The exchange itself is one transaction
    that keeps writers out: the server may run meanwhile and answers "later" for its length. Every household begins a
    new epoch, so that phones send again what the backup lacks. Raises Refused, and then nothing has changed.
    """
    with ExitStack() as held:
        archive = held.enter_context(Archive(source))
        history.refuse_newer(archive.manifest["migrations"], str(source))
        for place in (Path(tempfile.gettempdir()), Path(settings.DATA_DIR)):
            room.refuse_full(place, archive.unpacked_bytes(), f" for what {archive.path} unpacks to")
        archive.check_parts()
        call_command("migrate", verbosity=0, interactive=False)
        if not replace:
            _refuse_people()
        with _blamed_on(source):
            staged = held.enter_context(staging.unpacked(archive))
            photos = _photos_of(archive)
        say(f"{source} of {archive.manifest['made_at']} is whole; putting it in place ...")
        _copy_photos(archive, photos, say)
        aside = _exchange(staged, replace, say)
    call_command("migrate", verbosity=0, interactive=False)  # names of permissions this version added
    return aside


@contextmanager
def _blamed_on(source: Path) -> Iterator[None]:
    """End what a sealed archive can still get wrong with a sentence: rows that are none, ids that are none."""
    try:
        yield
    except _UNFIT as error:
        raise Refused(f"{source} cannot be restored ({error}). Nothing has been changed.") from error


def _refuse_people() -> None:
    if Household.objects.exists() or Person.objects.exists():
        raise Refused("The store has people in it. Say --replace to put the backup in its place; it is kept aside.")


def _exchange(staged: str, replace: bool, say: Say) -> Path | None:
    for _ in range(_TRIES - 1):
        try:
            return _exchange_once(staged, replace, say)
        except _Busy:
            say("The store is busy; trying again ...")
    return _exchange_once(staged, replace, say)


def _exchange_once(staged: str, replace: bool, say: Say) -> Path | None:
    aside = None
    with transaction.atomic():
        _keep_writers_out()
        if not replace:
            _refuse_people()
        elif Household.objects.exists() or Person.objects.exists():
            aside = _keep_aside(say)
        for model in tables.models_of():
            _exchange_table(model, staged)
        connection.check_constraints()
        _count_on()
    return aside


def _keep_writers_out() -> None:
    """Let readers read the old rows until the end; SQLite's transaction holds the one write lock already.

    The households come first, as in every push: one that has begun is waited for while nothing it needs is held.
    """
    if connection.vendor == "postgresql":
        named = {model._meta.db_table for model in tables.models_of()}
        first = Household._meta.db_table
        names = ", ".join(f'"{name}"' for name in [first, *sorted(named - {first})])
        try:
            with connection.cursor() as cursor:
                cursor.execute(f"LOCK TABLE {names} IN EXCLUSIVE MODE")
        except OperationalError as busy:
            raise _Busy(f"The store is too busy to be exchanged ({busy}). Stop the server and try again.") from busy


def _keep_aside(say: Say) -> Path:
    """Back up what is about to be replaced, inside the same transaction: not an entry comes between."""
    stamp = timezone.now().strftime("%Y%m%d-%H%M%S-%f")
    aside = Path(settings.DATA_DIR) / f"before-restore-{stamp}.zip"
    backup(aside)
    say(f"What was there is kept in {aside}")
    return aside


def _exchange_table(model: Any, staged: str) -> None:
    model._base_manager.all()._raw_delete("default")
    try:
        count = tables.store(model, tables.rows_from(model, tables.lines_of(model, staged)))
    except (DataError, ValueError) as error:  # what one database holds another may refuse, such as a NUL in a text
        raise Refused(f"{model._meta.db_table} cannot be stored here ({error}). Nothing has been changed.") from error
    if count != model._base_manager.count():
        raise Refused(f"{model._meta.db_table} does not hold what was put into it. Nothing has been changed.")


def _count_on() -> None:
    """Let columns that count by themselves go on after the highest number put in."""
    with connection.cursor() as cursor:
        for statement in connection.ops.sequence_reset_sql(
            no_style(), list(apps.get_models(include_auto_created=True))
        ):
            cursor.execute(statement)


def _photos_of(archive: Archive) -> list[tuple[str, uuid.UUID, str]]:
    """Return each photo's part, household and name; raise Refused where one is not named as photos are."""
    found = []
    for part in archive.names(PHOTOS):
        folder, name = part.split("/")[1:-1], part.split("/")[-1]
        if not files.is_name(name) or len(folder) != 1 or folder[0] not in archive.manifest["households"]:
            raise Refused(f"The archive holds a photo under a name that is none: {part}.")
        found.append((part, uuid.UUID(folder[0]), name))
    return found


def _copy_photos(archive: Archive, photos: list[tuple[str, uuid.UUID, str]], say: Say) -> None:
    """Write the photo files that are not there yet. One that the store would not take from a phone is left out."""
    for part, household_id, sha256 in photos:
        if not files.has(household_id, sha256):
            _copy_photo(archive, part, household_id, sha256, say)


def _copy_photo(archive: Archive, part: str, household_id: uuid.UUID, sha256: str, say: Say) -> None:
    """Write one photo, looked at as one that comes from a phone is: a restore is no way round that."""
    Path(settings.PHOTOS_DIR).mkdir(parents=True, exist_ok=True)
    draft = Path(settings.PHOTOS_DIR) / f".{sha256}.{os.getpid()}.part"
    try:
        if archive.bytes_of(part) > check.MOST_BYTES:
            raise check.too_large()
        with draft.open("wb") as file:
            archive.copy(part, file)
        check.check(draft.read_bytes(), sha256)
        files.publish(household_id, sha256, draft)
    except PictureRefused as refused:
        say(f"The photo {sha256} is left out: {refused.message}")
    finally:
        draft.unlink(missing_ok=True)
