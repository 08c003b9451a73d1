"""Who is let in: one place where passwords are tried, sessions are opened and both are written down."""

from collections.abc import Callable
from contextlib import nullcontext

from django.contrib.auth import authenticate, login
from django.contrib.auth.hashers import make_password
from django.db import IntegrityError, transaction
from django.utils import timezone
from rest_framework import status
from rest_framework.request import Request
from rest_framework.throttling import BaseThrottle

from api.accounts import known
from api.errors import Refusal
from lawn.models import Person
from lawn.web import hashing, sessions, sign_in_audit

Make = Callable[[Person], object]

# One sentence for every account that cannot be made, whatever the reason.
_REFUSED = "That did not work. Sign in if you have an account here, or choose another e-mail address."


def try_password(request: Request, email: str, password: str) -> Person | None:
    """Sign a person in by their password; None where that fails, after equal work whoever was asked for.

    Django's backend hashes the password even when it knows no such email, so that the time tells nothing either.
    """
    with hashing.going_first() if known.mark_of(request._request, email) else nullcontext():
        found = authenticate(request._request, username=email, password=password)
    if isinstance(found, Person):
        open_for(request, found)
        return found
    note(request, email, ok=False, session="")
    return None


def open_for(request: Request, person: Person) -> None:
    """Open a session for a person and write it down."""
    login(request._request, person, backend="django.contrib.auth.backends.ModelBackend")
    note(request, person.email, ok=True, session=sessions.of_request(request._request))


def new_or_known(request: Request, form: dict[str, str], make: Make) -> tuple[Person, bool]:
    """Make an account and whatever belongs to it, and open a session; return the person and whether they are new.

    An address that has an account already is asked for that account's password: with the right one the person is
    signed in (so a form whose answer was lost can be sent again), with any other the answer is the same plain refusal.
    `make` is called with a new person inside the transaction that makes them.
    """
    if not _known(form["email"]):
        person = _made(form, make)
        if person is not None:
            open_for(request, person)
            return person, True
    known = try_password(request, form["email"], form["password"])
    if known is None:
        raise Refusal(status.HTTP_400_BAD_REQUEST, "refused_sign_up", _REFUSED)
    return known, False


def _known(email: str) -> bool:
    return Person.objects.filter(email=email.strip().lower()).exists()


def _made(form: dict[str, str], make: Make) -> Person | None:
    """Return a new person, or None where another request made them at this very moment.

    The password is hashed before the transaction begins: it takes its time, and the one writer is everyone's.
    """
    hashed = make_password(form["password"])
    try:
        with transaction.atomic():
            person = Person.objects.create_hashed(email=form["email"], hashed=hashed, name=form["name"])
            make(person)
            return person
    except IntegrityError:
        if _known(form["email"]):
            return None
        raise


def note(request: Request, email: str, ok: bool, session: str) -> None:
    """Write down a try to sign in and the session (its hash) it opened; nothing of what was typed is kept."""
    sign_in_audit.record(
        email=email,
        ok=ok,
        address=BaseThrottle().get_ident(request) or "",
        agent=request.headers.get("User-Agent", ""),
        session=session,
        now=timezone.now(),
    )
