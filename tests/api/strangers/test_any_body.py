"""Whatever is sent to whichever route, the answer is a verdict in the one shape and never a crash."""

from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from tests.api.conftest import Cast
from tests.api.routes import Route, all_routes

WRITES = [route for route in all_routes() if route.method != "get"]
NAMES = [
    "name",
    "email",
    "password",
    "household_name",
    "units",
    "token",
    "device",
    "incarnation",
    "cursor",
    "confirmed_dseq",
    "ops",
    "limit",
    "proto",
    "schema",
    "build",
    "op",
    "dseq",
    "hlc",
    "m",
    "t",
    "id",
    "body",
    "set",
    "base",
    "hash",
]
LEAVES = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20)
VALUES = st.recursive(
    LEAVES,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(NAMES) | st.text(), inner, max_size=4),
    max_leaves=12,
)
BODIES = st.dictionaries(st.sampled_from(NAMES), VALUES, max_size=8) | VALUES


def told(cast: Cast, route: Route, body: Any) -> None:
    cast.keeper.client.raise_request_exception = False
    response = cast.keeper.send(route.method.upper(), route.path(household=cast.ours.id), body)
    assert response.status_code < 500, response.content
    if response.status_code >= 400:
        assert {"code", "message"} <= set(response.json()) <= {"code", "message", "fields"}


@pytest.mark.parametrize("route", WRITES, ids=str)
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(body=BODIES)
@example(body={"email": "a\x00b@example.org", "password": "\x00", "token": "\x00"})
@example(body={"email": "\ud800", "password": "\ud800", "name": "\ud800"})
@example(body={"token": "x", "units": []})
@example(body=float("nan"))
@example(body={"ops": [[]], "cursor": 10**30, "proto": -1})
def test_any_body_gets_a_verdict(cast: Cast, route: Route, body: Any) -> None:
    told(cast, route, body)


@pytest.mark.parametrize("token", ["\x00", "\ud83c", "..", "a" * 5000, "🌱", ".", "#", "", None, 7, []])
def test_any_token_gets_a_verdict(cast: Cast, token: Any) -> None:
    response = cast.anonymous.post("/api/v1/accounts/invitation", {"token": token})
    assert response.status_code in (400, 404)
    assert {"code", "message"} <= set(response.json())
