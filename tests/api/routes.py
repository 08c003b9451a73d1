"""Finds every route under /api/ by walking the URL patterns, so that a new route is tested unasked."""

import re
import uuid
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.urls import URLPattern, URLResolver, get_resolver
from rest_framework.views import APIView

METHODS = ("get", "post", "put", "patch", "delete")
_HOLE = re.compile(r"<(?:(?P<kind>\w+):)?(?P<name>\w+)>")


@dataclass(frozen=True)
class Route:
    """One method of one address."""

    method: str
    pattern: str
    view: type[APIView]

    @property
    def names(self) -> list[str]:
        """The names of the holes in its address."""
        return [hole["name"] for hole in _HOLE.finditer(self.pattern)]

    def path(self, **values: object) -> str:
        """Its address with the holes filled, an unnamed one by an id that exists nowhere."""
        return "/" + _HOLE.sub(lambda hole: str(values.get(hole["name"], uuid.UUID(int=0))), self.pattern)

    def __str__(self) -> str:
        return f"{self.method.upper()} /{self.pattern}"


def _walk(patterns: list[Any], prefix: str) -> Iterator[tuple[str, Any]]:
    for entry in patterns:
        if isinstance(entry, URLResolver):
            yield from _walk(entry.url_patterns, prefix + str(entry.pattern))
        elif isinstance(entry, URLPattern):
            yield prefix + str(entry.pattern), entry.callback


def all_routes() -> list[Route]:
    """Every method of every address under /api/."""
    found = []
    for pattern, callback in _walk(get_resolver().url_patterns, ""):
        if pattern.startswith("api/"):
            view = callback.view_class
            found += [Route(method, pattern, view) for method in METHODS if hasattr(view, method)]
    return found


def household_routes() -> list[Route]:
    """The routes inside one household."""
    return [route for route in all_routes() if "household" in route.names]
