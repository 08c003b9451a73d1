"""How often one person may ask after weather; what asks the service itself is bounded beside it (lawn.weather)."""

from rest_framework.request import Request
from rest_framework.throttling import SimpleRateThrottle
from rest_framework.views import APIView

from api.accounts.throttles import Counted


class WeatherPerPerson(SimpleRateThrottle):
    """Looks at what is known, counted by person."""

    scope = "weather"

    def get_cache_key(self, request: Request, view: APIView) -> str | None:
        """Name the counter of this person; who is signed out is turned away without one."""
        if not request.user.is_authenticated:
            return None
        return self.cache_format % {"scope": self.scope, "ident": request.user.pk}


class KeeperPerPerson(Counted):
    """Turning the forecast on or off, and asking for a climate."""

    scope = "weather_keeper"

    def name_of(self, request: Request) -> str:
        """Name the counter by the person."""
        return str(request.user.pk) if request.user.is_authenticated else ""
