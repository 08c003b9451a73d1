"""The page of the schema, apart from what is loaded with the app: a view asks for settings that are not there yet."""

from typing import Any

from drf_spectacular.generators import SchemaGenerator
from drf_spectacular.views import SpectacularJSONAPIView
from rest_framework.request import Request

from api.schema import whole


class _Made(SchemaGenerator):
    """Hands out what was made."""

    def get_schema(self, request: Request | None = None, public: bool = False) -> dict[str, Any]:
        return whole()


class SchemaView(SpectacularJSONAPIView):
    """The schema as JSON, whatever version or language is asked for: there is one."""

    generator_class = _Made

    def _get_version_parameter(self, request: Request) -> None:
        return None
