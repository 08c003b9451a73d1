"""The schema of these routes: what drf-spectacular cannot see by itself (loaded when the app starts), and its page.

It is made once: worked out of the code alone, and any stranger may ask for it.
"""

from functools import cache
from typing import Any

from django.conf import settings
from drf_spectacular.extensions import OpenApiAuthenticationExtension
from drf_spectacular.generators import SchemaGenerator
from drf_spectacular.openapi import AutoSchema


class CookieSessionScheme(OpenApiAuthenticationExtension):
    """Describes `api.origin.CookieSession` in the OpenAPI schema."""

    target_class = "api.origin.CookieSession"
    name = "session"

    def get_security_definition(self, auto_schema: AutoSchema) -> dict[str, Any]:
        """Name the cookie."""
        return {"type": "apiKey", "in": "cookie", "name": settings.SESSION_COOKIE_NAME}


@cache
def whole() -> dict[str, Any]:
    """The schema of all routes; making it takes far longer than any other answer."""
    return dict(SchemaGenerator().get_schema(request=None, public=True))
