"""What drf-spectacular cannot see by itself: the session cookie. Loaded when the app starts."""

from typing import Any

from django.conf import settings
from drf_spectacular.extensions import OpenApiAuthenticationExtension
from drf_spectacular.openapi import AutoSchema


class CookieSessionScheme(OpenApiAuthenticationExtension):
    """Describes `api.origin.CookieSession` in the OpenAPI schema."""

    target_class = "api.origin.CookieSession"
    name = "session"

    def get_security_definition(self, auto_schema: AutoSchema) -> dict[str, Any]:
        """Name the cookie."""
        return {"type": "apiKey", "in": "cookie", "name": settings.SESSION_COOKIE_NAME}
