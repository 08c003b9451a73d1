"""A session that slides: each day of use gives it its whole age again.

Django can save the session on every request, but then every pull would take SQLite's write lock
(sync.md, S12). Renewing once a day keeps the promise of 180 days since the last use, less a day.
"""

from collections.abc import Callable
from datetime import datetime, timedelta

from django.http import HttpRequest, HttpResponse
from django.utils import timezone

_RENEWED = "renewed"
_EVERY = timedelta(days=1)


class Sliding:
    """Middleware: renew a signed-in session whose last renewal is more than a day ago."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer, and renew the session on the way out."""
        response = self.get_response(request)
        # `accessed` first: a request that never looked at its session must not fetch it now.
        if request.session.accessed and "_auth_user_id" in request.session and _is_old(request):
            request.session[_RENEWED] = timezone.now().isoformat()
        return response


def _is_old(request: HttpRequest) -> bool:
    renewed = request.session.get(_RENEWED)
    return renewed is None or timezone.now() - datetime.fromisoformat(renewed) > _EVERY
