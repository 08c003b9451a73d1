"""How often a calendar may be read, and how often a link may be made."""

from rest_framework.request import Request
from rest_framework.throttling import SimpleRateThrottle
from rest_framework.views import APIView

from api.accounts.throttles import Counted, network


class CalendarPerAddress(SimpleRateThrottle):
    """Looks by link from one network address. Counted in memory: to read writes nothing, and no token is guessed."""

    scope = "calendar"

    def get_cache_key(self, request: Request, view: APIView) -> str | None:
        """Name the counter of this address."""
        return self.cache_format % {"scope": self.scope, "ident": network(self.get_ident(request))}


class LinksPerPerson(Counted):
    """Links made and turned off by one person; looking whether there is one is not counted."""

    scope = "calendar_links"

    def name_of(self, request: Request) -> str:
        """Name the counter by the person."""
        counts = request.method != "GET" and request.user.is_authenticated
        return str(request.user.pk) if counts else ""
