"""The server half of a simulated household: the real request handling on a shelf or on a database.

Nothing of the book is done again here. A request is given to the view that Django's own addresses name, signed in as
the person who sent it; time and chance are the seed's.
"""

import json
import random
import re
import uuid
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from types import SimpleNamespace
from typing import Any, Protocol

from django.apps import apps
from django.db import models, transaction
from django.db.models import Model
from django.http import HttpResponseBase, QueryDict
from django.urls import Resolver404, resolve
from django.utils import timezone
from rest_framework.response import Response
from rest_framework.serializers import Serializer
from rest_framework.utils.encoders import JSONEncoder
from rest_framework.utils.serializer_helpers import BindingDict

from api.errors import handler
from api.sync import parsers
from lawn.book.people import access, membership
from lawn.book.sync import edit, pending_review
from lawn.models import Change, Household, Member, Op, ParkedOp, Person, ids
from tests.simulation.memory.in_place import in_place, swapped
from tests.simulation.memory.shelf import Shelf

Columns = dict[str, Any]
EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
# A text at which the simulated server throws, after it has written (F15).
THROWS = "makes the server throw"
_ENCODER = JSONEncoder(separators=(",", ":"))
_NO_QUERY = QueryDict()


class Killed(BaseException):
    """The server's process ended here; what was not committed is gone."""


class Store(Protocol):
    """Where the server's rows are: a shelf, or a database."""

    def image(self) -> Any: ...
    def restore(self, image: Any) -> None: ...
    def plain(self, model: type[Model]) -> list[Columns]: ...
    def one(self, model: type[Model], household: uuid.UUID, row: uuid.UUID) -> Columns: ...


class Database:
    """The tables of the real database, as a `Store`."""

    def _models(self) -> list[type[Model]]:
        return list(apps.get_app_config("lawn").get_models())

    def image(self) -> dict[type[Model], list[Columns]]:
        """Return every row of every table."""
        return {model: self.plain(model) for model in self._models()}

    def restore(self, image: dict[type[Model], list[Columns]]) -> None:
        """Put all tables back."""
        for model in reversed(self._models()):
            model._default_manager.all().delete()
        for model, rows in image.items():
            model._default_manager.bulk_create([model(**row) for row in rows])

    def plain(self, model: type[Model]) -> list[Columns]:
        """Return a model's rows as plain columns."""
        names = [f.attname for f in model._meta.concrete_fields if not isinstance(f, models.CompositePrimaryKey)]
        return list(model._default_manager.values(*names))

    def one(self, model: type[Model], household: uuid.UUID, row: uuid.UUID) -> Columns:
        """Return one row of a household."""
        [found] = [columns for columns in self.plain(model) if columns["id"] == row]
        return found


@dataclass
class Moment:
    """The time and the chance of a run; `ms` is Unix milliseconds."""

    ms: int = 0
    chance: random.Random = field(default_factory=lambda: random.Random(0))

    def now(self) -> datetime:
        """Return the time as the server sees it."""
        return EPOCH + timedelta(milliseconds=self.ms)

    def id(self) -> str:
        """Return a UUIDv7 of this moment."""
        value = (self.ms & 0xFFFF_FFFF_FFFF) << 80 | self.chance.getrandbits(76)
        value = value & ~(0xF << 76) | 0x7 << 76
        return str(uuid.UUID(int=value & ~(0x3 << 62) | 0x2 << 62))


@dataclass(frozen=True)
class Answer:
    """What goes back over the network; `text` None: nothing at all."""

    status: int
    text: str | None
    headers: dict[str, str] = field(default_factory=lambda: {"Content-Type": "application/json"})


class Desk:
    """One household's server. Use it inside `serving`."""

    def __init__(self, store: Store, moment: Moment) -> None:
        self.store, self.moment = store, moment
        self.household = uuid.UUID(int=0)
        self.people: list[Person] = []
        self.members: list[uuid.UUID] = []

    def begin(self, people: int) -> None:
        """Found a household of some people, the first its keeper."""
        self.people, self.members = [], []
        for number in range(people):
            person = Person(id=uuid.UUID(self.moment.id()), email=f"p{number}@alder.example", name=f"Person {number}")
            person.joined_at = self.moment.now()
            person.save(force_insert=True)
            self.people.append(person)
        keeper = membership.create_household(self.people[0], "Alder Bend", "us", self.moment.now())
        self.household = keeper.household_id
        self.new_epoch()
        self.members.append(keeper.id)
        for person in self.people[1:]:
            self.members.append(membership.add_member(self.household, person, self.moment.now()).id)

    def new_epoch(self) -> None:
        """Do what restoring a backup does last."""
        access.rows(Household, self.household).update(epoch=uuid.UUID(self.moment.id()))

    def handle(
        self, person: int, session: str, method: str, path: str, text: str | None, killed: bool = False
    ) -> Answer:
        """Answer a request of a person's phone, which rides on a session.

        `killed`: the process ends just before it would commit, and nobody answers.
        """
        try:
            with transaction.atomic() if killed else _plainly():
                answer = self._answered(person, session, method, path, text)
                if killed:
                    raise Killed
        except Killed:
            return Answer(0, None)
        return answer

    def _answered(self, person: int, session: str, method: str, path: str, text: str | None) -> Answer:
        address, _, query = path.partition("?")
        try:
            view, given = _view_of(address)
        except Resolver404:
            return Answer(404, json.dumps({"code": "not_found", "message": "There is nothing here."}))
        below = SimpleNamespace(session=SimpleNamespace(session_key=session), META={}, headers={})
        said = SimpleNamespace(
            user=self.people[person], method=method, headers={}, META={}, session=below.session, _request=below,
            query_params=QueryDict(query) if query else _NO_QUERY,
        )  # fmt: skip
        try:
            said.data = parsers.read_json(text.encode()) if text else {}
            response = getattr(view(), method.lower())(said, **given)
        except Exception as error:
            failed = handler(error, {})
            if failed is None:
                raise
            response = failed
        return _sent(response)

    # What the operator and the keeper do ------------------------------------------------------------------------

    def set_active(self, number: int, active: bool) -> None:
        """Remove a member, or take them in again."""
        if active:
            membership.add_member(self.household, self.people[number], self.moment.now())
            return
        keeper = access.rows(Member, self.household).get(id=self.members[0])
        membership.remove(keeper, self.members[number], self.moment.now())

    def decide_pending(self, chance: random.Random) -> None:
        """Let the keeper look through what former members handed in: some is accepted, some declined."""
        keeper = access.rows(Member, self.household).get(id=self.members[0])
        for one in pending_review.waiting(keeper).pending_review:
            [settle] = chance.choices([pending_review.accept, pending_review.decline], [3, 1])
            settle(keeper, one.parked.id, self.moment.now())

    # What the checker looks at ----------------------------------------------------------------------------------

    def has_op(self, op: str) -> bool:
        """Whether the server has answered this op for good."""
        return bool(access.rows(Op, self.household).filter(id=uuid.UUID(op)).exists())

    def parked(self, op: str) -> bool:
        """Whether the server set this op aside."""
        return bool(access.rows(ParkedOp, self.household).filter(op=uuid.UUID(op)).exists())

    def changes(self) -> dict[str, int]:
        """Return {"t:id": seq} of the whole book."""
        return {f"{row['t']}:{row['id']}": row["seq"] for row in self.store.plain(Change)}

    def head(self) -> Columns:
        """Return the household's row."""
        [row] = self.store.plain(Household)
        return row


_views: dict[str, Any] = {}


def _view_of(address: str) -> tuple[Any, dict[str, Any]]:
    if re.fullmatch(r"/api/v1/households/[0-9a-f-]{36}/[a-z]+", address) is None:
        raise ValueError(f"the simulation does not know {address}")
    end = address.rsplit("/", 1)[1]
    if end not in _views:
        _views[end] = resolve(address).func.view_class  # type: ignore[attr-defined]
    return _views[end], {"household": uuid.UUID(address.split("/")[4])}


def _sent(response: Any) -> Answer:
    headers = {"Content-Type": "application/json"}
    if isinstance(response, HttpResponseBase) and not hasattr(response, "data"):
        headers["Content-Type"] = response.headers["Content-Type"]
        if getattr(response, "streaming", False):
            parts: Any = response
            text = b"".join(parts.streaming_content).decode()
        else:
            text = response.content.decode()  # type: ignore[attr-defined]
    else:
        text = _ENCODER.encode(response.data)
    if "Retry-After" in response.headers:
        headers["Retry-After"] = response.headers["Retry-After"]
    return Answer(response.status_code, text, headers)


@contextmanager
def _plainly() -> Iterator[None]:
    yield


def _throwing(apply_items: Any) -> Any:
    def applied(feed: Any, author: Any, items: object) -> Any:
        done = apply_items(feed, author, items)
        if THROWS in json.dumps(items):
            raise ZeroDivisionError(THROWS)
        return done

    return applied


_fields: dict[type[Any], BindingDict] = {}


def _fields_of(serializer: Any) -> BindingDict:
    """A serializer's fields, copied once a class instead of at every request: half of a request's time."""
    kind = type(serializer)
    found = _fields.get(kind)
    if found is None:
        found = _fields[kind] = BindingDict(serializer)
        for name, one in serializer.get_fields().items():
            found[name] = one
    return found


def _answers(response: Any, data: Any = None, status: int = 200, headers: Any = None, **_said: Any) -> None:
    """Keep of a view's answer what is sent; cookies and the rendering are the web server's, which is not here."""
    response.data, response.status_code, response.headers = data, status, dict(headers or {})


@contextmanager
def serving(store: Store, moment: Moment) -> Iterator[Desk]:
    """Open a desk: while it is open, the server's clock and chance are the seed's, and its rows are in `store`."""
    place: AbstractContextManager[Any] = in_place(store) if isinstance(store, Shelf) else _plainly()
    swaps = [
        (timezone, "now", moment.now),
        (ids, "time", SimpleNamespace(time_ns=lambda: moment.ms * 1_000_000)),
        (ids, "os", SimpleNamespace(urandom=lambda count: moment.chance.randbytes(count))),
        (edit, "apply_items", _throwing(edit.apply_items)),
        (Serializer, "fields", property(_fields_of)),
        (Response, "__init__", _answers),
    ]
    with place, swapped(swaps):
        yield Desk(store, moment)
