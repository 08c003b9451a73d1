"""Sessions: kept under a hash, owned by a person, and sliding.

The store is Django's own over the database but for two things. A row's key is the SHA-256 of the cookie, so that
neither the table nor a backup of it opens a door. And a row names its person, so that a phone can be signed out from
another one. Sliding: Django can save the session on every request, but then every pull would take SQLite's write lock
(sync.md, S12). Renewing once a day keeps the promise of 180 days since the last use, less a day.
"""

import hashlib
import uuid
from collections.abc import Callable, Collection
from contextlib import suppress
from datetime import datetime, timedelta
from typing import Any

from django.contrib.auth import SESSION_KEY
from django.contrib.sessions.backends import db
from django.contrib.sessions.backends.base import UpdateError
from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from lawn.models import Session

_RENEWED = "renewed"
_EVERY = timedelta(days=1)


def key_hash(session_key: str | None) -> str:
    """Return what is stored of a session's cookie: "" for none. 160 bits of chance cannot be guessed back."""
    return hashlib.sha256(session_key.encode()).hexdigest() if session_key else ""


def of_request(request: HttpRequest) -> str:
    """Return the hash of the session a request rides on; "" where it has none."""
    return key_hash(request.session.session_key)


def living(sessions: Collection[str]) -> set[str]:
    """Return those of some sessions, given by their hashes, that can still be used."""
    found = Session.objects.filter(session_key__in=sessions, expire_date__gt=timezone.now())
    return set(found.values_list("session_key", flat=True))


def end(session: str) -> None:
    """End a session by its hash; "" ends none."""
    Session.objects.filter(session_key=session).delete()


def end_all(person_id: uuid.UUID, but: str = "") -> None:
    """End a person's sessions on every phone and browser, all but one where its hash is given.

    Their phones stay known, and send what waits on them after the next sign-in.
    """
    Session.objects.filter(person_id=person_id).exclude(session_key=but).delete()


class SessionStore(db.SessionStore):
    """Django's database sessions, found by the hash of their cookie."""

    @classmethod
    def get_model_class(cls) -> type[Any]:
        """Return the model of a row."""
        return Session

    @property
    def _stored(self) -> Any:
        """The living row of this cookie."""
        return Session.objects.filter(session_key=key_hash(self.session_key), expire_date__gt=timezone.now())

    def _get_session_from_db(self) -> Session | None:
        found: Session | None = self._stored.first() if self.session_key else None
        if found is None:
            self._session_key = None  # a cookie of no session, so that a new session gets a new one
        return found

    async def _aget_session_from_db(self) -> Session | None:
        found: Session | None = await self._stored.afirst() if self.session_key else None
        if found is None:
            self._session_key = None
        return found

    def exists(self, session_key: str) -> bool:
        """Whether a session has this key."""
        return bool(super().exists(key_hash(session_key)))

    async def aexists(self, session_key: str) -> bool:
        """Whether a session has this key."""
        return bool(await super().aexists(key_hash(session_key)))

    def create_model_instance(self, data: dict[str, Any]) -> Any:
        """Return the row to save, under the hash of its key and its person's name."""
        return self._owned(super().create_model_instance(data), data)

    async def acreate_model_instance(self, data: dict[str, Any]) -> Any:
        """Return the row to save, under the hash of its key and its person's name."""
        return self._owned(await super().acreate_model_instance(data), data)

    def save(self, must_create: bool = False) -> None:
        """Store the session; one ended from elsewhere meanwhile stays ended, and this answer still goes out."""
        with suppress(UpdateError):
            super().save(must_create)

    @staticmethod
    def _owned(row: Any, data: dict[str, Any]) -> Any:
        row.session_key = key_hash(row.session_key)
        row.person_id = data.get(SESSION_KEY)
        return row

    def delete(self, session_key: str | None = None) -> None:
        """End a session: this one unless another is named."""
        Session.objects.filter(session_key=key_hash(session_key or self.session_key)).delete()

    async def adelete(self, session_key: str | None = None) -> None:
        """End a session: this one unless another is named."""
        await Session.objects.filter(session_key=key_hash(session_key or self.session_key)).adelete()


class Sliding:
    """Middleware: renew a signed-in session whose last renewal is more than a day ago."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer, and renew the session on the way out."""
        response = self.get_response(request)
        # `accessed` first: a request that never looked at its session must not fetch it now.
        if request.session.accessed and SESSION_KEY in request.session and _is_old(request):
            request.session[_RENEWED] = timezone.now().isoformat()
        return response


def _is_old(request: HttpRequest) -> bool:
    renewed = request.session.get(_RENEWED)
    return renewed is None or timezone.now() - datetime.fromisoformat(renewed) > _EVERY
