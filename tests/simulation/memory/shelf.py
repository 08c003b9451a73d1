"""The server's tables in memory, so that thousands of households can live in minutes.

A `Shelf` stands in for the part of Django's database layer that lawn.book and api use: rows asked for by household,
rows saved, transactions and savepoints that take back what was written, and the counter taken by UPDATE … RETURNING.
That it behaves as the database does is not believed but proved: a sample of seeds runs on SQLite as well, and the two
traces must be the same (test_shelf.py).
"""

import json
import uuid
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from json.encoder import JSONEncoder, c_make_encoder, encode_basestring_ascii  # type: ignore[attr-defined]
from typing import Any

from django.db import IntegrityError, models
from django.db.models import Model
from django.db.models.base import ModelState

from lawn.book.merging.digest import Sums
from lawn.models import Household

Columns = dict[str, Any]
Pk = tuple[Any, ...]
Rows = dict[Pk, Columns]
# What json.loads and json.dumps come to, without what they look at first at each of some hundred calls a life.
_scan = json.JSONDecoder().scan_once  # type: ignore[attr-defined]
_encode = c_make_encoder(None, JSONEncoder().default, encode_basestring_ascii, None, ": ", ", ", False, False, True)


def part_of_key(value: Any) -> Any:
    """Return a key's value as rows are looked up by it: a UUID's number, whose hash Python need not work out."""
    return value.int if type(value) is uuid.UUID else value


@cache
def form_of(model: type[Model]) -> "Form":
    """Return the layout of a model."""
    return Form(model)


class Form:
    """How a model's rows are laid out: its columns, its key, what must stand once."""

    def __init__(self, model: type[Model]) -> None:
        fields = [field for field in model._meta.concrete_fields if field.column is not None]
        self.model = model
        self.names = [field.attname for field in fields]
        self.json = [field.attname for field in fields if isinstance(field, models.JSONField)]
        self.floats = [field.attname for field in fields if isinstance(field, models.FloatField)]
        key: Any = model._meta.pk
        named = getattr(key, "field_names", None) or [key.name]
        self.key = [model._meta.get_field(name).attname for name in named]  # type: ignore[union-attr]
        together = [rule for rule in model._meta.constraints if isinstance(rule, models.UniqueConstraint)]
        self.once = [[model._meta.get_field(name).attname for name in rule.fields] for rule in together]  # type: ignore[union-attr]
        self._columns = {name: name for name in self.names}
        self._columns |= {field.name: field.attname for field in fields}

    def column_of(self, name: str) -> str:
        """Return the column a field's name stands for; raise NotImplementedError where there is none."""
        found = self._columns.get(name)
        if found is None:
            raise NotImplementedError(f"{self.model.__name__} cannot be asked by {name} here")
        return found

    def columns(self, said: Mapping[str, Any]) -> Columns:
        """Return a row as it is stored."""
        return self.stored({name: said[name] for name in self.names})

    def stored(self, found: Columns) -> Columns:
        """Return columns as the database keeps them: JSON as text, floats as floats."""
        for name in self.json:
            if name in found:
                found[name] = None if found[name] is None else "".join(_encode(found[name], 0))
        for name in self.floats:
            if found.get(name) is not None:
                found[name] = float(found[name])
        return found

    def loaded(self, columns: Columns) -> Columns:
        """Return columns as they are read."""
        found = dict(columns)
        for name in self.json:
            text = found[name]
            if text is not None:
                found[name] = {} if text == "{}" else _scan(text, 0)[0]
        return found

    def row(self, columns: Columns) -> Model:
        """Return a model's instance, as if read from the database."""
        made = self.model.__new__(self.model)
        state = ModelState()
        state.adding, state.db = False, "default"
        made.__dict__ = found = self.loaded(columns)
        found["_state"] = state
        return made

    def key_of(self, columns: Columns) -> Pk:
        """Return the primary key's values."""
        return tuple([part_of_key(columns[name]) for name in self.key])


class Shelf:
    """All tables, and what was done to them since each open savepoint began."""

    def __init__(self) -> None:
        self.tables: dict[type[Model], Rows] = {}
        self._undo: list[tuple[Form, Pk, Columns | None]] = []
        # which key holds the values that may stand only once, by model and rule
        self._holders: dict[tuple[type[Model], int], dict[Pk, Pk]] = {}
        self._depth = 0
        self._after: list[Callable[[], object]] = []

    def rows_of(self, model: type[Model]) -> Rows:
        """Return a model's table."""
        found = self.tables.get(model)
        if found is None:
            found = self.tables[model] = {}
        return found

    def write(self, form: Form, key: Pk, columns: Columns | None) -> None:
        """Put or take out one row, remembering what stood there; raise IntegrityError."""
        if columns is not None:
            for number, names in enumerate(form.once):
                holder = self._held(form, number).get(_values(columns, names), key)
                if holder != key:
                    raise IntegrityError(f"UNIQUE constraint failed: {form.model.__name__} {names}")
        if self._depth:
            self._undo.append((form, key, self.rows_of(form.model).get(key)))
        self._put(form, key, columns)

    def _held(self, form: Form, number: int) -> dict[Pk, Pk]:
        return self._holders.setdefault((form.model, number), {})

    def _put(self, form: Form, key: Pk, columns: Columns | None) -> None:
        rows = self.rows_of(form.model)
        if form.once:
            before = rows.get(key)
            for number, names in enumerate(form.once):
                holders = self._held(form, number)
                if before is not None:
                    holders.pop(_values(before, names), None)
                if columns is not None:
                    holders[_values(columns, names)] = key
        if columns is None:
            rows.pop(key, None)
        else:
            rows[key] = columns

    def insert(self, model: type[Model], said: Mapping[str, Any]) -> None:
        """Store a new row; raise IntegrityError where its key is taken."""
        form = form_of(model)
        columns = form.columns(said)
        key = form.key_of(columns)
        if key in self.rows_of(model):
            raise IntegrityError(f"{model.__name__} {key} is there already")
        self.write(form, key, columns)

    def save(self, row: Model, force_insert: bool = False, update_fields: Iterable[str] | None = None) -> None:
        """Do what Model.save does."""
        form = form_of(type(row))
        columns = form.columns(vars(row))
        key = form.key_of(columns)
        before = self.rows_of(form.model).get(key)
        if force_insert or before is None:
            self.insert(form.model, vars(row))
            row._state.adding = False
            return
        names = form.names if update_fields is None else [form.column_of(name) for name in update_fields]
        self.write(form, key, {**before, **{name: columns[name] for name in names}})

    @contextmanager
    def atomic(self, *_said: object, **_named: object) -> Iterator[None]:
        """Open a transaction, or a savepoint within one."""
        mark = len(self._undo)
        self._depth += 1
        try:
            yield
        except BaseException:
            while len(self._undo) > mark:
                self._put(*self._undo.pop())
            if self._depth == 1:
                self._after.clear()
            raise
        else:
            if self._depth == 1:
                self._undo.clear()
        finally:
            self._depth -= 1
        if self._depth == 0:
            work, self._after = self._after, []
            for one in work:
                one()

    def on_commit(self, work: Callable[[], object], **_named: object) -> None:
        """Run something once the transaction is committed."""
        if self._depth:
            self._after.append(work)
        else:
            work()

    def image(self) -> dict[type[Model], Rows]:
        """Return all tables as they are, for a backup; rows are never changed in place."""
        return {model: dict(rows) for model, rows in self.tables.items()}

    def restore(self, image: dict[type[Model], Rows]) -> None:
        """Put all tables back to a backup."""
        self.tables, self._holders = {}, {}
        for model, rows in image.items():
            for key, columns in rows.items():
                self._put(form_of(model), key, columns)

    def plain(self, model: type[Model]) -> list[Columns]:
        """Return a model's rows as plain columns, for the checker."""
        form = form_of(model)
        return [form.loaded(columns) for columns in self.rows_of(model).values()]

    def one(self, model: type[Model], household: uuid.UUID, row: uuid.UUID) -> Columns:
        """Return one row of a household."""
        key = (row.int,) if model is Household else (household.int, row.int)
        return form_of(model).loaded(self.rows_of(model)[key])

    def take(self, household_id: uuid.UUID, most: int) -> tuple[int, Sums, int]:
        """Do what the counter's UPDATE … RETURNING does."""
        key = (household_id.int,)
        before = self.rows_of(Household).get(key)
        if before is None:
            raise Household.DoesNotExist(str(household_id))
        after = {**before, "seq": before["seq"] + most}
        self.write(form_of(Household), key, after)
        return after["seq"], Sums(after["digest_a"], after["digest_b"]), after["taken_bytes"]


def _values(columns: Columns, names: list[str]) -> Pk:
    return tuple([part_of_key(columns[name]) for name in names])
