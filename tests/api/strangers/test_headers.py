"""What every answer carries, and who is answered at all, by walking all addresses: errors, admin and files too."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings as live_settings
from django.core.signals import request_finished
from django.db import close_old_connections
from django.http import StreamingHttpResponse

from api.parsers import LIMIT_BYTES
from tests.api.conftest import Cast
from tests.api.routes import Route, all_routes
from tests.api.things import things

# Of the directives of CSP level 3 (https://www.w3.org/TR/CSP3/) those that let foreign or written-in code run.
UNSAFE = ("'unsafe-inline'", "'unsafe-eval'", "'unsafe-hashes'", "*", "http:", "https:")
ADMIN = "/" + live_settings.ADMIN_PATH


@pytest.fixture
def dist(tmp_path: Path, settings: Any) -> Path:
    """A small build in place of the real one."""
    (tmp_path / "index.html").write_bytes(b"<!doctype html>")
    settings.FRONTEND_DIST = tmp_path
    return tmp_path


def held_to_the_rules(answer: Any) -> None:
    headers = answer.headers
    parts = (part.strip().partition(" ") for part in headers["Content-Security-Policy"].split(";"))
    policy = {name: sources for name, _, sources in parts}
    for name, sources in policy.items():
        assert not set(sources.split()) & set(UNSAFE), name
    if "sandbox" in policy:  # a picture: nothing in it may run or load
        assert policy["default-src"] == "'none'"
    else:
        assert policy["default-src"] == "'self'"
        assert policy["object-src"] == policy["base-uri"] == policy["frame-ancestors"] == "'none'"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["X-Frame-Options"] == "DENY"
    assert headers["Referrer-Policy"] == "same-origin"
    assert headers["Cross-Origin-Opener-Policy"] == "same-origin"
    assert headers["Cross-Origin-Resource-Policy"] == "same-origin"
    allowed = [entry.split("=")[0] for entry in headers["Permissions-Policy"].split(", ") if entry.endswith("=(self)")]
    assert sorted(allowed) == ["camera", "geolocation", "screen-wake-lock"]
    assert "microphone=()" in headers["Permissions-Policy"]


def close(answer: Any) -> None:
    """End a stream; the connection stays open, since the test's own transaction is under way on it."""
    if isinstance(answer, StreamingHttpResponse):
        request_finished.disconnect(close_old_connections)
        try:
            answer.close()
        finally:
            request_finished.connect(close_old_connections)


@pytest.mark.parametrize("part", ["keeper", "anonymous"])
@pytest.mark.parametrize("route", all_routes(), ids=str)
def test_every_answer_of_the_api_carries_the_headers(cast: Cast, route: Route, part: str) -> None:
    caller = cast.caller(part)
    holes = {"household": cast.ours.id, **things(route.names, cast.ours, None)} if "household" in route.names else {}
    answer = caller.send(route.method.upper(), route.path(**holes), {} if route.method != "get" else None)
    held_to_the_rules(answer)
    assert "no-store" in answer["Cache-Control"] or "private" in answer["Cache-Control"]
    close(answer)


@pytest.mark.parametrize(
    ("path", "status"),
    [
        ("/", 200),
        ("/ground", 200),
        ("/missing.js", 404),
        ("/assets/none", 404),
        ("/api/v1/none", 404),
        ("/manifest.json", 200),
        ("/static/admin/css/base.css", 200),
        (ADMIN, 302),
        (ADMIN + "login/", 200),
        (ADMIN + "none/", 302),
        ("/admin/", 404),
    ],
)
def test_every_other_answer_carries_them_too(cast: Cast, dist: Path, path: str, status: int) -> None:
    answer = cast.anonymous.client.get(path)
    assert answer.status_code == status
    held_to_the_rules(answer)


def test_an_answer_that_nobody_foresaw_carries_them_too(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    def breaks(*_: object) -> None:
        raise RuntimeError("inside")

    monkeypatch.setattr("api.accounts.views.me_of", breaks)
    cast.keeper.client.raise_request_exception = False
    answer = cast.keeper.get("/api/v1/accounts/me")
    assert answer.status_code == 500
    held_to_the_rules(answer)


def test_the_admins_pages_write_no_script_or_style_into_themselves(cast: Cast) -> None:
    page = cast.anonymous.client.get(ADMIN + "login/").content.decode()
    assert "<style" not in page
    assert "style=" not in page
    assert "<script>" not in page


# --- whose request it is ---------------------------------------------------------------------------

FOREIGN = [
    {"Origin": "https://elsewhere.example"},
    {"Origin": "null"},
    {"Sec-Fetch-Site": "cross-site"},
    {"Sec-Fetch-Site": "same-site"},
    {"Origin": "http://testserver", "Sec-Fetch-Site": "cross-site"},
]


@pytest.mark.parametrize("headers", FOREIGN, ids=str)
@pytest.mark.parametrize("route", all_routes(), ids=str)
def test_s21_reading_and_writing_for_another_sites_page_are_refused(
    cast: Cast, route: Route, headers: dict[str, str]
) -> None:
    answer = cast.keeper.send(route.method.upper(), route.path(household=cast.ours.id), None, **headers)
    assert (answer.status_code, answer.json()["code"]) == (403, "other_origin")
    assert "Access-Control-Allow-Origin" not in answer.headers


@pytest.mark.parametrize("host", ["elsewhere.example", "testserver.elsewhere.example", "testserver:x", "[::1", "a b"])
def test_a_host_we_are_not_is_refused_in_the_one_shape(cast: Cast, dist: Path, host: str) -> None:
    for path in ("/api/v1/accounts/me", "/api/v1/schema", "/", ADMIN):
        answer = cast.keeper.client.get(path, headers={"Host": host})
        assert answer.status_code == 400, path
        held_to_the_rules(answer)
        if path.startswith("/api/"):
            assert {"code", "message"} == set(answer.json())
        assert host.encode() not in answer.content


def test_no_answer_to_reading_changes_a_row(cast: Cast, django_capture_queries: Any) -> None:
    """GET is safe (RFC 9110, section 9.2.1); only the day's renewal of the session may write."""
    gets = [route for route in all_routes() if route.method == "get"]
    for route in gets:
        holes = things(route.names, cast.ours, None) if "household" in route.names else {}
        path = route.path(household=cast.ours.id, **holes)
        cast.keeper.get("/api/v1/accounts/me")  # renewed once
        with django_capture_queries() as seen:
            close(cast.keeper.get(path))
        written = [sql for sql in seen if sql.split()[0] in ("INSERT", "UPDATE", "DELETE")]
        assert written == [], str(route)


@pytest.fixture
def django_capture_queries() -> Any:
    from contextlib import contextmanager

    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    @contextmanager
    def capture() -> Iterator[list[str]]:
        said: list[str] = []
        with CaptureQueriesContext(connection) as queries:
            yield said
        said += [query["sql"] for query in queries]

    return capture


# --- how much is taken in --------------------------------------------------------------------------

FORMS = [route for route in all_routes() if route.method == "post" and not route.pattern.endswith("/sync")]
BODILESS = ("sign-out", "sign-out-everywhere", "remove", "withdraw", "accept", "decline", "climate", "calendar/off")
READ = [route for route in FORMS if not route.pattern.endswith(BODILESS)]


@pytest.mark.parametrize("route", READ, ids=str)
def test_a_form_larger_than_any_of_ours_is_refused_unread(cast: Cast, route: Route) -> None:
    holes = {"household": cast.ours.id, **things(route.names, cast.ours, None)} if "household" in route.names else {}
    body = b'{"name": "' + b"x" * LIMIT_BYTES + b'"}'
    answer = cast.keeper.send("POST", route.path(**holes), body)
    assert (answer.status_code, answer.json()["code"]) == (413, "too_large")


def test_a_packed_form_is_refused_so_that_none_can_swell(cast: Cast) -> None:
    import gzip

    body = gzip.compress(b'{"email": "a@example.org", "password": "' + b"x" * 10_000_000 + b'"}')
    answer = cast.anonymous.send("POST", "/api/v1/accounts/sign-in", body, **{"Content-Encoding": "gzip"})
    assert (answer.status_code, answer.json()["code"]) == (415, "unknown_packing")
