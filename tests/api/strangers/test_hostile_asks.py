"""Addresses, parameters and headers no phone of ours sends: a verdict in the one shape each, never a crash (A7)."""

import base64
import json
from typing import Any

import pytest
from django.utils import timezone

from lawn.book.calendar import links
from tests.api.conftest import Cast
from tests.api.routes import Route, all_routes
from tests.api.things import things

ID = "0190aaaa-0000-7000-8000-0000000000a7"


def token(parts: Any) -> str:
    text = parts if isinstance(parts, str) else json.dumps(parts)
    return base64.urlsafe_b64encode(text.encode()).decode().rstrip("=")


PLACES: dict[str, str] = {
    "nested": token("[" * 9_000 + "]" * 9_000),
    "nested a little": token("[" * 700 + "]" * 700),
    "year 1": token(["entry", ID, "0001-01-01T00:00:00+14:00"]),
    "year 1, UTC": token(["entry", ID, "0001-01-01T00:00:00+00:00"]),
    "year 9999": token(["entry", ID, "9999-12-31T23:59:59-14:00"]),
    "no offset": token(["entry", ID, "2026-05-01T00:00:00"]),
    "offset in seconds": token(["entry", ID, "2026-05-01T00:00:00+00:00:01"]),
    "a week": token(["entry", ID, "2026-W18-5T10+02:00"]),
    "no moment": token(["entry", ID]),
    "a moment too many": token(["zone", ID, "2026-05-01T00:00:00+00:00"]),
    "four parts": token(["entry", ID, "2026-05-01T00:00:00+00:00", 1]),
    "id in braces": token(["zone", "{" + ID + "}"]),
    "id as a number": token(["zone", 7]),
    "id as a list": token(["zone", [ID]]),
    "kind as a list": token([["zone"], ID]),
    "kind unknown": token(["moon", ID]),
    "an object": token({"t": "zone", "id": ID}),
    "a number": token("1e400"),
    "not finite": token("NaN"),
    "a long number": token("9" * 5_000),
    "half a pair": token(["zone", "\ud800"]),
    "NUL": token("\x00"),
    "not base64": "%",
    "not ours": "€",
    "blank": " ",
}


@pytest.mark.parametrize("place", PLACES.values(), ids=list(PLACES))
def test_a07_a_place_in_the_book_that_is_none_of_ours_is_refused_and_named(cast: Cast, place: str) -> None:
    cast.keeper.client.raise_request_exception = False
    answer = cast.keeper.client.get(f"/api/v1/households/{cast.ours.id}/bootstrap", {"after": place})
    assert answer.status_code == 400, answer.content
    assert list(answer.json()["fields"]) == ["after"]


def place_of(cast: Cast, route: Route) -> str:
    """The route's address in our household, its holes filled with what is there."""
    if "token" in route.names:  # of no household's routes: the link of its keeper
        member = cast.keeper.member
        assert member is not None
        return route.path(token=links.make(member, timezone.now())[1])
    return route.path(household=cast.ours.id, **things(route.names, cast.ours, cast.keeper.member))


GETS = [route for route in all_routes() if route.method == "get" and not route.pattern.endswith("events")]
VALUES = ["", "-1", "0", "1e400", "NaN", "9" * 5_000, "٣", "\x00", "\ud83c", "1\n", "[]", "{}", "ffffffff", "g", "a\n"]
NAMES = ["after", "limit", "prefix", "format", "page", "cursor"]


@pytest.mark.parametrize("route", GETS, ids=str)
def test_a07_any_parameter_of_any_route_gets_a_verdict(cast: Cast, route: Route) -> None:
    cast.keeper.client.raise_request_exception = False
    path = place_of(cast, route)
    for name in NAMES:
        for value in VALUES:
            answer = cast.keeper.client.get(path, {name: value.encode("utf-8", "surrogatepass")})
            assert answer.status_code < 500, (name, value)


HEADERS: list[dict[str, str]] = [
    {"content-encoding": "gzip"},
    {"content-encoding": "gzip, gzip"},
    {"content-encoding": "deflate"},
    {"content-encoding": "\xff"},
    {"content-type": "application/json; charset=nonsense"},
    {"content-type": "text/plain"},
    {"content-type": ""},
    {"content-type": "multipart/form-data; boundary=x"},
    {"content-type": "application/x-www-form-urlencoded"},
    {"accept": "nonsense"},
    {"accept": "application/x-ndjson;q=x"},
    {"accept": "text/html"},
    {"accept-encoding": "gzip;q=banana, *"},
    {"range": "bytes=-1"},
    {"range": "bytes=9-1,2-3"},
    {"content-range": "bytes 0-0/99999999999999999999"},
    {"content-range": "bytes */*"},
    {"content-range": "lines 1-2/3"},
    {"content-length": "-1"},
    {"content-length": "x"},
    {"if-modified-since": "yesterday"},
    {"if-none-match": "\x00"},
    {"origin": "null"},
    {"referer": "::"},
    {"cookie": "sessionid=" + "x" * 5_000},
    {"x-forwarded-for": "nobody, ,"},
    {"accept-language": "x" * 3_000},
]


@pytest.mark.parametrize("route", [route for route in all_routes() if not route.pattern.endswith("events")], ids=str)
def test_a07_any_header_on_any_route_gets_a_verdict(cast: Cast, route: Route) -> None:
    cast.keeper.client.raise_request_exception = False
    path = place_of(cast, route)
    for headers in HEADERS:
        answer = cast.keeper.client.generic(route.method.upper(), path, b"{}", "application/json", headers=headers)
        assert answer.status_code < 500, headers
