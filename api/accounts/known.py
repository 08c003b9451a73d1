"""Phones on which a person has signed in before: a stranger's wrong tries do not count against them.

Tries are counted by email from wherever they come, so a stranger could keep the owner out by trying on. A phone that
has opened this account's door before carries a cookie that says so; its own tries are counted apart. The cookie opens
nothing: whoever steals it may only guess, as often as anybody may, on a counter of its own.
"""

import secrets
from typing import Any

from django.conf import settings
from django.core import signing
from django.http import HttpRequest
from django.utils.crypto import constant_time_compare, salted_hmac
from rest_framework.response import Response

COOKIE = "evenfall_known"
_SALT = "api.accounts.known"
_LASTS_S = 400 * 24 * 3600  # the longest a browser keeps one (RFC 6265bis, section 5.5)
_MOST_PEOPLE = 5  # of one phone, the last to sign in


def _code_of(email: str) -> str:
    """Return what the cookie holds of an email: by the server's key, so that it tells a reader nothing."""
    said = email.strip().lower().encode(errors="surrogatepass")
    return salted_hmac(_SALT, said, algorithm="sha256").hexdigest()[:32]


def _marks(request: HttpRequest) -> dict[str, str]:
    """Return {code of an email: this phone's own mark for it}; nothing of a cookie that is not ours or too old."""
    try:
        said: Any = signing.loads(request.COOKIES.get(COOKIE, ""), salt=_SALT, max_age=_LASTS_S)
        return {str(code): str(mark) for code, mark in said.items()}
    except (signing.BadSignature, AttributeError, TypeError, ValueError):
        return {}


def mark_of(request: HttpRequest, email: str) -> str:
    """Return this phone's mark for an account by its email; "" where nobody has signed in to it here."""
    code = _code_of(email)
    return next((mark for known, mark in _marks(request).items() if constant_time_compare(known, code)), "")


def remember(request: HttpRequest, response: Response, email: str) -> Response:
    """Let an answer's cookie say that this person has signed in here; one that says so already is left."""
    if mark_of(request, email):
        return response
    marks = {**_marks(request), _code_of(email): secrets.token_urlsafe(12)}
    response.set_cookie(
        COOKIE,
        signing.dumps(dict(list(marks.items())[-_MOST_PEOPLE:]), salt=_SALT),
        max_age=_LASTS_S,
        path="/api/v1/accounts/",
        secure=settings.SESSION_COOKIE_SECURE,
        httponly=True,
        samesite="Lax",
    )
    return response
