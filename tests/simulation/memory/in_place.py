"""Putting a shelf where the server's code looks for its database."""

import uuid
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from django.db import transaction
from django.db.models import Model
from django.db.models.fields.related_descriptors import ForwardManyToOneDescriptor

from lawn.book.people import access, devices
from lawn.book.sync import bootstrap, feed, pull, repair
from lawn.models import Household
from tests.simulation.memory.query import Asked, Query, same_id
from tests.simulation.memory.shelf import Shelf, form_of, part_of_key

_LONG = ("JSONField", "CharField")


def _of_household(model: type[Model], household_id: uuid.UUID) -> Asked:
    return ("id" if model is Household else "household_id"), same_id, household_id.int


@contextmanager
def in_place(shelf: Shelf) -> Iterator[Shelf]:
    """Let the server's code find this shelf where its database was."""

    def rows(model: type[Model], household_id: uuid.UUID) -> Query:
        return Query(shelf, form_of(model), (_of_household(model, household_id),))

    def insert(model: type[Model], made: Sequence[access.Columns]) -> None:
        for columns in made:
            shelf.insert(model, columns)

    def sizes(model: type[Model], household_id: uuid.UUID, ids: Iterable[uuid.UUID]) -> dict[uuid.UUID, int]:
        long = [field.attname for field in model._meta.concrete_fields if field.get_internal_type() in _LONG]
        kept = shelf.rows_of(model)
        found = {one: kept.get((one.int,) if model is Household else (household_id.int, one.int)) for one in ids}
        return {one: 300 + sum(len(row[name] or "") for name in long) for one, row in found.items() if row is not None}

    def move(changes: Sequence[Model]) -> None:
        for row in changes:
            shelf.save(row, update_fields=["seq"])

    def save(row: Model, **said: Any) -> None:
        shelf.save(row, **said)

    def fresh(row: Model, **_said: Any) -> None:
        form = form_of(type(row))
        row.__dict__.update(form.loaded(shelf.rows_of(type(row))[form.key_of(row.__dict__)]))

    def related(descriptor: Any, row: Model) -> Model:
        field = descriptor.field
        model = field.related_model
        return form_of(model).row(shelf.rows_of(model)[(part_of_key(row.__dict__[field.attname]),)])

    swaps: list[tuple[Any, str, Any]] = [
        (access, "rows", rows),
        (access, "insert", insert),
        (access, "move", move),
        (access, "sizes", sizes),
        (feed, "_take", shelf.take),
        # one process and one request at a time: every read sees the same moment anyway
        *((reader, "snapshot", shelf.atomic) for reader in (pull, bootstrap, repair)),
        (devices, "_unhurried", shelf.atomic),
        (transaction, "atomic", shelf.atomic),
        (transaction, "on_commit", shelf.on_commit),
        (Model, "save", save),
        (Model, "refresh_from_db", fresh),
        (ForwardManyToOneDescriptor, "get_object", related),
    ]
    with swapped(swaps):
        yield shelf


@contextmanager
def swapped(swaps: Iterable[tuple[Any, str, Any]]) -> Iterator[None]:
    """Put other things in the place of attributes for a while."""
    before = [(place, name, getattr(place, name)) for place, name, _ in swaps]
    for place, name, thing in swaps:
        setattr(place, name, thing)
    try:
        yield
    finally:
        for place, name, thing in reversed(before):
            setattr(place, name, thing)
