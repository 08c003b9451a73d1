"""How often a phone may ask. Generous: a phone at rest asks a few times an hour, one that catches up a few dozen times.

Whoever asks more often is answered 429 with Retry-After, which means "later" and never touches the outbox (S9, F20).
"""

from rest_framework.request import Request
from rest_framework.throttling import SimpleRateThrottle
from rest_framework.views import APIView


class PerPhone(SimpleRateThrottle):
    """Counts by session, which is one browser's, by household and by route."""

    scope = "sync_phone"

    def get_cache_key(self, request: Request, view: APIView) -> str | None:
        """Name the counter."""
        who = request.session.session_key or request.user.pk
        ident = f"{type(view).__name__}:{view.kwargs.get('household')}:{who}"
        return self.cache_format % {"scope": self.scope, "ident": ident}


class PerMember(SimpleRateThrottle):
    """Counts by person and household, over all their phones and routes: a stranger cannot use up a household's."""

    scope = "sync_member"

    def get_cache_key(self, request: Request, view: APIView) -> str | None:
        """Name the counter."""
        ident = f"{view.kwargs.get('household')}:{request.user.pk}"
        return self.cache_format % {"scope": self.scope, "ident": ident}
