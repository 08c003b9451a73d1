"""Headers that neither Django nor django-csp sets: what the page may ask a browser for, who may hold our answers."""

from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse


class Headers:
    """Middleware, outermost but one, so that refusals and errors carry them as well."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response
        self._permissions = ", ".join(f"{name}={who}" for name, who in settings.PERMISSIONS_POLICY.items())

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer with the headers; what the API says is for one person, so no cache keeps it unless a view says so."""
        response = self.get_response(request)
        response.headers.setdefault("Permissions-Policy", self._permissions)
        response.headers.setdefault("Cross-Origin-Resource-Policy", settings.CROSS_ORIGIN_RESOURCE_POLICY)
        # Django's own middleware for it stands inside, where refusals and plain files do not pass.
        response.headers.setdefault("X-Frame-Options", settings.X_FRAME_OPTIONS)
        if request.path.startswith("/api/"):
            response.headers.setdefault("Cache-Control", "private, no-store")
        return response
