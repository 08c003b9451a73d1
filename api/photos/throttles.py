"""How many requests for pictures one person may make."""

from rest_framework.request import Request
from rest_framework.throttling import SimpleRateThrottle
from rest_framework.views import APIView


class PhotosPerPerson(SimpleRateThrottle):
    """Chunks, pictures and questions after them, counted by person."""

    scope = "photos"

    def get_cache_key(self, request: Request, view: APIView) -> str | None:
        """Name the counter of this person; who is signed out is turned away without one."""
        if not request.user.is_authenticated:
            return None
        return self.cache_format % {"scope": self.scope, "ident": request.user.pk}
