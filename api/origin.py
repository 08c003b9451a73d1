"""Who may ask: the app's own pages, by their session cookie.

A CSRF token goes stale inside a queue that waits for days, so the phone has none (sync.md, S21).
Instead every request under /api/ must come from our own origin, as the browser itself reports it in
`Sec-Fetch-Site` and `Origin`; a write must be JSON (a form cannot send that); and both ride on a cookie that is
SameSite=Lax. Reading is held to the same: a page of a neighbouring site gets that cookie sent along, and could
otherwise learn from an answer's time or size. A client that is no browser sends neither header and has no one else's
cookie. Source of the headers: https://www.w3.org/TR/fetch-metadata/; RFC 6454, section 7.
"""

from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.http.response import HttpResponseBase
from django.middleware.csrf import CsrfViewMiddleware
from rest_framework.authentication import SessionAuthentication
from rest_framework.request import Request


class SameOrigin:
    """Middleware: refuse whatever another site's page asks for under /api/."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer, unless another site asks."""
        if request.path.startswith("/api/") and not is_own(request):
            message = "This request came from another site. Open Evenfall itself and try again."
            return JsonResponse({"code": "other_origin", "message": message}, status=403)
        return self.get_response(request)


def is_own(request: HttpRequest) -> bool:
    """Say whether the browser's own headers place this request on our origin."""
    if request.headers.get("Sec-Fetch-Site", "same-origin") not in ("same-origin", "none"):
        return False
    origin = request.headers.get("Origin")
    here = f"{request.scheme}://{request.get_host()}"
    return origin is None or origin == here or origin in settings.CSRF_TRUSTED_ORIGINS


class OperatorsCsrf(CsrfViewMiddleware):
    """Django's token against forged forms, for the operator's pages alone: no other page has a form of that kind."""

    def process_response(self, request: HttpRequest, response: HttpResponseBase) -> HttpResponseBase:
        """Set its cookie on the operator's pages only; signing in to the app would set it too."""
        if not (settings.ADMIN_PATH and request.path.startswith(f"/{settings.ADMIN_PATH}")):
            return response
        return super().process_response(request, response)


class CookieSession(SessionAuthentication):
    """The session cookie without a CSRF token (`SameOrigin` does that work); signed out gives 401."""

    def enforce_csrf(self, request: Request) -> None:
        """Leave it to the middleware, which also covers signing in."""

    def authenticate_header(self, request: Request) -> str:
        """Name the scheme, so that REST framework answers 401 and not 403."""
        return "Session"
