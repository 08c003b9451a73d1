"""The phone app's files: the page every address opens, the worker, and the built assets.

Three kinds of file, three ways to keep them fresh. Hashed assets never change: cached for good.
Those of the two builds before stay available, for pages that are still open (S18). The page names the hashed
assets: asked for anew each time (`no-cache`), answered 304 when nothing changed. The worker is never kept at all,
so that a mended one, or the kill-switch in its place, is found at once. Everything else (icons, fonts) is kept for
an hour.
"""

import hashlib
from collections.abc import Callable
from pathlib import Path
from typing import Any

from django.conf import settings
from django.http import HttpRequest, HttpResponse, HttpResponseBase, JsonResponse
from django.views.decorators.cache import cache_control
from django.views.decorators.http import condition, require_safe
from pwa import views as pwa
from whitenoise.middleware import WhiteNoiseMiddleware
from whitenoise.responders import StaticFile

# Served by views (below, and by django-pwa), so never as plain files from the build.
_BY_VIEWS = ("/index.html", "/serviceworker.js", "/manifest.json")
# From the sources, not the build: it must work when the build is what is wrong.
_KILL_SWITCH = settings.FRONTEND_DIR / "src" / "platform" / "sw" / "off.js"
_HOUR = 3600
_UNBUILT = """The front end is not built, so there is no app to show yet.

Run this in the project's folder, and open this address again:

    uv run manage.py up
"""


class BuiltFiles(WhiteNoiseMiddleware):
    """WhiteNoise over the front end's build, precompressed files (.br, .gz) included."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        super().__init__(get_response)
        self.max_age = _HOUR
        self.allow_all_origins = False
        self.media_types.types_map[".wasm"] = "application/wasm"
        for folder in (settings.FORMER_BUILDS / "2", settings.FORMER_BUILDS / "1", settings.FRONTEND_DIST):
            if folder.is_dir():
                self.add_files(str(folder))

    def add_file_to_dictionary(self, url: str, path: str, stat_cache: object = None) -> None:
        """Leave out what views serve."""
        if url not in _BY_VIEWS:
            super().add_file_to_dictionary(url, path, stat_cache=stat_cache)

    @staticmethod
    def serve(static_file: StaticFile, request: HttpRequest) -> HttpResponse:
        """Answer with the whole file: these are small, and ASGI would otherwise warn of a plain iterator."""
        found = static_file.get_response(request.method, request.META)
        response = HttpResponse(_content(found.file), status=int(found.status))
        del response["Content-Type"]
        for name, value in found.headers:
            response[name] = value
        return response

    def immutable_file_test(self, path: str, url: str) -> bool:
        """Vite puts what carries a hash of its content in its name under /assets/."""
        return url.startswith("/assets/")


def _content(file: Any) -> bytes:
    """Read a file, or the slice of one that a Range asked for, to its end."""
    if file is None:
        return b""
    try:
        return b"".join(iter(lambda: file.read(65536), b""))
    finally:
        file.close()


def _etag(path: Path) -> str | None:
    return f'"{hashlib.sha256(path.read_bytes()).hexdigest()[:32]}"' if path.exists() else None


def _unbuilt() -> HttpResponse:
    return HttpResponse(_UNBUILT, content_type="text/plain; charset=utf-8", status=503)


@require_safe
@cache_control(no_cache=True)
@condition(etag_func=lambda request: _etag(settings.FRONTEND_DIST / "index.html"))
def page(request: HttpRequest) -> HttpResponse:
    """Answer any address of the app with the one built page; its router does the rest."""
    path = settings.FRONTEND_DIST / "index.html"
    return HttpResponse(path.read_bytes()) if path.exists() else _unbuilt()


@require_safe
@cache_control(no_cache=True, no_store=True)
def worker(request: HttpRequest) -> HttpResponse:
    """Answer /serviceworker.js with the built worker, through django-pwa; with the kill-switch when it is off."""
    if not settings.WORKER:
        return HttpResponse(_KILL_SWITCH.read_bytes(), content_type="application/javascript")
    built = Path(settings.PWA_SERVICE_WORKER_PATH).exists()
    return pwa.service_worker(request) if built else _unbuilt()


@require_safe
@cache_control(no_cache=True)
def manifest(request: HttpRequest) -> HttpResponse:
    """Answer /manifest.json from the PWA_APP_* settings, through django-pwa."""
    answer: HttpResponse = pwa.manifest(request)
    return answer


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Answer an unknown address: in the API's one error shape under /api/, else in plain words."""
    if request.path.startswith("/api/"):
        return JsonResponse({"code": "not_found", "message": "There is nothing at this address."}, status=404)
    return HttpResponse("There is nothing at this address.", content_type="text/plain", status=404)


def failed(request: HttpRequest) -> HttpResponse:
    """Answer what nobody foresaw without its details, which stand in the log; a phone tries again later."""
    message = "Something went wrong on the server. What you entered is safe on your phone; it will be sent again."
    if request.path.startswith("/api/"):
        return JsonResponse({"code": "trouble", "message": message}, status=500)
    return HttpResponse(message, content_type="text/plain; charset=utf-8", status=500)
