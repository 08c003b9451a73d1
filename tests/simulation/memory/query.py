"""Questions to the shelf: as much of Django's QuerySet as the server's code uses."""

from collections.abc import Callable, Iterator, Sequence
from functools import cache
from itertools import product
from typing import Any
from uuid import UUID

from django.db.models import Model, Q

from tests.simulation.memory.shelf import Columns, Form, Pk, Shelf

Test = Callable[[Any, Any], bool]
# (column, how it is looked at, what is asked for)
Asked = tuple[str, Test, Any]


def _exact(value: Any, wanted: Any) -> bool:
    return bool(value == wanted)


def same_id(value: Any, wanted: int) -> bool:
    """Whether a column holds the UUID of this number."""
    return value is not None and value.int == wanted


def _in(value: Any, wanted: Any) -> bool:
    return value in wanted


def _id_in(value: Any, wanted: Any) -> bool:
    return value is not None and value.int in wanted


_LOOKUPS: dict[str, Test] = {
    "exact": _exact,
    "in": _in,
    "gt": lambda value, wanted: value is not None and bool(value > wanted),
    "gte": lambda value, wanted: value is not None and bool(value >= wanted),
    "lt": lambda value, wanted: value is not None and bool(value < wanted),
    "lte": lambda value, wanted: value is not None and bool(value <= wanted),
    "isnull": lambda value, wanted: (value is None) == wanted,
}


@cache
def _parted(form: Form, name: str) -> tuple[str, str]:
    """Return (column, lookup) of "seq__gt", "household" or "household_id"."""
    column, _, lookup = name.partition("__")
    return form.column_of(column), lookup


def _asked(form: Form, name: str, value: Any) -> Asked:
    column, lookup = _parted(form, name)
    if value is None:
        return column, _LOOKUPS["isnull"], True
    if lookup == "in":
        wanted = list(value)
        if wanted and type(wanted[0]) is UUID:
            return column, _id_in, dict.fromkeys([one.int for one in wanted])
        return column, _in, dict.fromkeys(wanted)
    if lookup:
        return column, _LOOKUPS[lookup], value
    if isinstance(value, Model):
        value = value.pk
    return (column, same_id, value.int) if type(value) is UUID else (column, _exact, value)


def _meets(row: Columns, said: Q) -> bool:
    """Whether a row meets a condition put together with & and |."""

    def one(part: Any) -> bool:
        if isinstance(part, Q):
            return _meets(row, part)
        column, _, lookup = part[0].partition("__")
        return _LOOKUPS[lookup or "exact"](row[column], part[1])

    found = (all if said.connector == Q.AND else any)(one(part) for part in said.children)
    return found != said.negated


class Query:
    """As much of a QuerySet as is used; anything else fails loudly by being missing."""

    __slots__ = ("_either", "_form", "_order", "_shape", "_shelf", "_tests")

    def __init__(self, shelf: Shelf, form: Form, tests: tuple[Asked, ...] = ()) -> None:
        self._shelf, self._form, self._tests = shelf, form, tests
        self._either: tuple[Q, ...] = ()
        self._order: tuple[str, ...] = ()
        self._shape: Callable[[Columns], Any] = form.row

    def _copy(self) -> "Query":
        made = Query(self._shelf, self._form, self._tests)
        made._either, made._order, made._shape = self._either, self._order, self._shape
        return made

    def filter(self, *either: Q, **wanted: Any) -> "Query":
        """Narrow by column lookups."""
        made, form = self._copy(), self._form
        if either:
            made._either += either
        made._tests += tuple([_asked(form, name, value) for name, value in wanted.items()])
        return made

    def exclude(self, **unwanted: Any) -> "Query":
        """Leave out what meets one column lookup."""
        made = self._copy()
        [(column, test, value)] = [_asked(self._form, name, one) for name, one in unwanted.items()]
        made._tests += ((column, lambda found, asked: not test(found, asked), value),)
        return made

    def order_by(self, *names: str) -> "Query":
        """Sort by columns."""
        made = self._copy()
        made._order = names
        return made

    def values_list(self, *names: str, flat: bool = False) -> "Query":
        """Give tuples of columns instead of rows."""
        made, loaded = self._copy(), self._form.loaded
        if set(names) & set(self._form.json):
            made._shape = lambda row: tuple(map(loaded(row).__getitem__, names))
        else:
            made._shape = lambda row: tuple(map(row.__getitem__, names))
        if flat:
            shape = made._shape
            made._shape = lambda row: shape(row)[0]
        return made

    def only(self, *_names: str, **_how: bool) -> "Query":
        """Rows are read whole here."""
        return self

    select_related = select_for_update = all = iterator = only

    def _by_key(self) -> tuple[list[Pk] | None, Sequence[Asked]]:
        """Return the keys asked for and what else is asked; None and all where the question names no whole keys."""
        said: dict[str, Any] = {}
        rest: list[Asked] = []
        for asked in self._tests:
            column, test, value = asked
            if column in self._form.key and column not in said and test in _OF_A_KEY:
                said[column] = list(value) if test is _in or test is _id_in else [value]
            else:
                rest.append(asked)
        if len(said) < len(self._form.key):
            return None, self._tests
        return list(product(*[said[column] for column in self._form.key])), rest

    def _pairs(self) -> list[tuple[Pk, Columns]]:
        rows = self._shelf.rows_of(self._form.model)
        keys, tests = self._by_key()
        found = list(rows.items()) if keys is None else [(key, rows[key]) for key in keys if key in rows]
        # the household, asked for first and true of all rows here, is looked at last
        for column, test, value in reversed(tests):
            found = [pair for pair in found if test(pair[1][column], value)]
        for either in self._either:
            found = [pair for pair in found if _meets(pair[1], either)]
        for name in reversed(self._order):
            column = self._form.column_of(name.lstrip("-"))
            found.sort(key=lambda pair: pair[1][column], reverse=name.startswith("-"))
        return found

    def _found(self) -> list[Any]:
        shape = self._shape
        return [shape(row) for _, row in self._pairs()]

    def __iter__(self) -> Iterator[Any]:
        return iter(self._found())

    def __getitem__(self, part: slice) -> list[Any]:
        shape = self._shape
        return [shape(row) for _, row in self._pairs()[part]]

    def __len__(self) -> int:
        return len(self._pairs())

    count = __len__

    def exists(self) -> bool:
        """Whether there is any."""
        return bool(self._pairs())

    def first(self) -> Any:
        """Return the first, or None."""
        found = self._pairs()
        return self._shape(found[0][1]) if found else None

    def last(self) -> Any:
        """Return the last, or None."""
        found = self._pairs()
        return self._shape(found[-1][1]) if found else None

    def get(self, **wanted: Any) -> Any:
        """Return the only one; raise the model's DoesNotExist."""
        found = self.filter(**wanted)._pairs()
        if len(found) != 1:
            raise self._form.model.DoesNotExist(f"{len(found)} of {self._form.model.__name__}")  # type: ignore[attr-defined]
        return self._shape(found[0][1])

    def update(self, **values: Any) -> int:
        """Write columns of all of them."""
        form = self._form
        stored = form.stored({form.column_of(name): value for name, value in values.items()})
        found = self._pairs()
        for key, row in found:
            self._shelf.write(form, key, {**row, **stored})
        return len(found)

    def delete(self) -> tuple[int, dict[str, int]]:
        """Take all of them out."""
        found = self._pairs()
        for key, _ in found:
            self._shelf.write(self._form, key, None)
        return len(found), {}


_OF_A_KEY = (_exact, same_id, _in, _id_in)
