"""P10: nothing of a household reaches anyone but its members, on any route there is or will be."""

import uuid
from typing import Any

import pytest

from lawn.models import Member
from tests.api.conftest import Caller, Cast
from tests.api.routes import Route, all_routes, household_routes
from tests.api.things import MAKERS, PICTURE, things

# What each route is sent: enough to succeed for who may. A new route must be added, or the table's test fails.
BODIES: dict[str, Any] = {
    "POST /api/v1/accounts/sign-up": {
        "name": "Newcomer",
        "email": "newcomer@example.org",
        "password": "nine tall hedges",
        "household_name": "Their own",
        "units": "us",
    },
    "POST /api/v1/accounts/sign-in": {"email": "keeper@example.org", "password": "four wet spaniels"},
    "POST /api/v1/households/<uuid:household>/devices": {"name": "Phone"},
    "POST /api/v1/households/<uuid:household>/members/<uuid:member>/role": {"role": "keeper"},
    "POST /api/v1/accounts/password": {"password": "four wet spaniels", "new_password": "nine tall hedges"},
    "POST /api/v1/households/<uuid:household>/photos/missing": {"sha256": []},
    "POST /api/v1/households/<uuid:household>/weather/forecast": {"on": True},
}
# Keeper, member, stranger and anonymous in turn.
ANSWERS: dict[str, tuple[int, int, int, int]] = {
    "POST /api/v1/accounts/sign-up": (201, 201, 201, 201),
    "POST /api/v1/accounts/sign-in": (200, 200, 200, 200),
    "POST /api/v1/accounts/sign-out": (204, 204, 204, 204),
    "POST /api/v1/accounts/sign-out-everywhere": (204, 204, 204, 401),
    "POST /api/v1/accounts/password": (200, 200, 200, 401),
    "GET /api/v1/accounts/sign-ins": (200, 200, 200, 401),
    "GET /api/v1/accounts/me": (200, 200, 200, 401),
    "POST /api/v1/accounts/join": (400, 400, 400, 400),
    "POST /api/v1/accounts/invitation": (400, 400, 400, 400),
    "GET /api/v1/schema": (200, 200, 200, 200),
    "POST /api/v1/households/<uuid:household>/invitations": (201, 403, 404, 401),
    "GET /api/v1/households/<uuid:household>/invitations": (200, 403, 404, 401),
    "POST /api/v1/households/<uuid:household>/invitations/<uuid:invitation>/withdraw": (200, 403, 404, 401),
    "POST /api/v1/households/<uuid:household>/members/<uuid:member>/role": (200, 403, 404, 401),
    "POST /api/v1/households/<uuid:household>/members/<uuid:member>/remove": (200, 403, 404, 401),
    "GET /api/v1/households/<uuid:household>/pending-review": (200, 403, 404, 401),
    "POST /api/v1/households/<uuid:household>/pending-review/<uuid:pending>/accept": (200, 403, 404, 401),
    "POST /api/v1/households/<uuid:household>/pending-review/<uuid:pending>/decline": (200, 403, 404, 401),
    "GET /api/v1/households/<uuid:household>/devices": (200, 200, 404, 401),
    "POST /api/v1/households/<uuid:household>/devices": (201, 201, 404, 401),
    "POST /api/v1/households/<uuid:household>/devices/<uuid:device>/sign-out": (200, 200, 404, 401),
    "POST /api/v1/households/<uuid:household>/sync": (200, 200, 404, 401),
    "GET /api/v1/households/<uuid:household>/bootstrap": (200, 200, 404, 401),
    "GET /api/v1/households/<uuid:household>/digest": (200, 200, 404, 401),
    "GET /api/v1/households/<uuid:household>/events": (200, 200, 404, 401),
    "POST /api/v1/households/<uuid:household>/photos/missing": (200, 200, 404, 401),
    "GET /api/v1/households/<uuid:household>/weather": (200, 200, 404, 401),
    "POST /api/v1/households/<uuid:household>/weather/forecast": (200, 403, 404, 401),
    "POST /api/v1/households/<uuid:household>/weather/climate": (200, 403, 404, 401),
    "GET /api/v1/households/<uuid:household>/calendar": (200, 200, 404, 401),
    "POST /api/v1/households/<uuid:household>/calendar": (201, 201, 404, 401),
    "POST /api/v1/households/<uuid:household>/calendar/off": (200, 200, 404, 401),
    "GET /api/v1/calendar/<str:token>.ics": (404, 404, 404, 404),  # by its token alone: test_calendar
    "GET /api/v1/households/<uuid:household>/photos/<str:sha256>": (200, 200, 404, 401),
    "PUT /api/v1/households/<uuid:household>/photos/<str:sha256>": (200, 200, 404, 401),
    "GET /api/v1/households/<uuid:household>/photos/<str:sha256>/upload": (200, 200, 404, 401),
}
WRITES = [route for route in all_routes() if route.method != "get"]
PARTS = ("keeper", "member", "stranger", "anonymous")


def call(cast: Cast, caller: Caller, route: Route, household: object) -> Any:
    """Send to a household, naming things that `ours` has."""
    inner = things(route.names, cast.ours, caller.member) if "household" in route.names else {}
    return send(cast, caller, route, {"household": str(household), **inner})


def send(cast: Cast, caller: Caller, route: Route, holes: dict[str, str]) -> Any:
    path, method = route.path(**holes), route.method.upper()
    if "sha256" in route.names:
        whole = {"Content-Range": f"bytes 0-{len(PICTURE) - 1}/{len(PICTURE)}"}
        data, kind = (PICTURE, "application/octet-stream") if method == "PUT" else (b"", "application/json")
        return caller.client.generic(method, path, data, content_type=kind, headers=whole)
    body = sync_body(cast, caller) if route.pattern.endswith("/sync") else BODIES.get(str(route))
    return caller.send(method, path, {} if body is None else body)


def sync_body(cast: Cast, caller: Caller) -> dict[str, Any]:
    """An empty round trip from a device of the caller's own."""
    member = caller.member
    if member is None:
        return {}
    path = f"/api/v1/households/{member.household_id}/devices"
    device = caller.post(path, {"name": "Phone"}).json()["device"]
    return {
        "proto": 1,
        "schema": 1,
        "build": "test",
        "device": device,
        "incarnation": str(uuid.uuid4()),
        "cursor": 0,
        "confirmed_dseq": 0,
        "ops": [],
        "limit": 10,
    }


def test_the_table_of_answers_names_every_route_and_no_other() -> None:
    assert {str(route) for route in all_routes()} == set(ANSWERS)


@pytest.mark.parametrize("part", PARTS)
@pytest.mark.parametrize("route", all_routes(), ids=str)
def test_each_caller_gets_their_own_answer(cast: Cast, route: Route, part: str) -> None:
    response = call(cast, cast.caller(part), route, cast.ours.id)
    assert response.status_code == ANSWERS[str(route)][PARTS.index(part)], response.content
    if response.status_code >= 400:
        assert {"code", "message"} <= set(response.json()) <= {"code", "message", "fields"}


INNER = [route for route in household_routes() if set(route.names) - {"household"}]
# A picture is named by its own content, so a household may send one that another has as well: it hears nothing of that.
BY_CONTENT = {
    "PUT /api/v1/households/<uuid:household>/photos/<str:sha256>",
    "GET /api/v1/households/<uuid:household>/photos/<str:sha256>/upload",
}


def test_f50_every_hole_in_an_address_has_its_thing() -> None:
    assert {name for route in household_routes() for name in route.names} == {"household", *MAKERS}


@pytest.mark.parametrize("part", ["keeper", "member"])
@pytest.mark.parametrize("route", INNER, ids=str)
def test_f50_another_households_thing_is_not_found_inside_ones_own(cast: Cast, route: Route, part: str) -> None:
    caller, here = cast.caller(part), {"household": str(cast.ours.id)}
    foreign = send(cast, caller, route, {**here, **things(route.names, cast.theirs, None)})
    made_up = {name: "0" * 64 if name == "sha256" else str(uuid.uuid4()) for name in route.names}
    nothing = send(cast, caller, route, {**made_up, **here})
    if str(route) in BY_CONTENT:
        assert foreign.json()["have_bytes"] == (len(PICTURE) if route.method == "put" else 0)
        return
    # Who may use the route is told that there is nothing; who may not, perhaps only that they may not.
    assert foreign.status_code in ((404,) if part == "keeper" else (403, 404))
    assert (foreign.status_code, foreign.json()) == (nothing.status_code, nothing.json())


@pytest.mark.parametrize("part", ["keeper", "member"])
@pytest.mark.parametrize("route", household_routes(), ids=str)
def test_f50_p10_another_households_id_is_not_found_on_every_route(cast: Cast, route: Route, part: str) -> None:
    elsewhere = call(cast, cast.caller(part), route, cast.theirs.id)
    nowhere = call(cast, cast.caller(part), route, uuid.uuid4())
    assert (elsewhere.status_code, nowhere.status_code) == (404, 404)
    # Word for word alike: the answer does not tell an existing household from none.
    assert elsewhere.json() == nowhere.json()


@pytest.mark.parametrize("route", household_routes(), ids=str)
def test_a_member_who_left_is_out_at_the_next_request(cast: Cast, route: Route) -> None:
    assert call(cast, cast.member, route, cast.ours.id).status_code != 404
    Member.objects.filter(person__email="member@example.org").update(active=False)
    assert cast.member.send(route.method.upper(), route.path(household=cast.ours.id), {}).status_code == 404


@pytest.mark.parametrize("route", WRITES, ids=str)
@pytest.mark.parametrize(
    "headers",
    [{"Origin": "https://elsewhere.example"}, {"Sec-Fetch-Site": "cross-site"}, {"Origin": "null"}],
    ids=["origin", "fetch-site", "null origin"],
)
def test_a_write_from_another_site_is_refused_on_every_route(cast: Cast, route: Route, headers: dict[str, str]) -> None:
    response = cast.keeper.send(route.method.upper(), route.path(household=cast.ours.id), {}, **headers)
    assert response.status_code == 403
    assert response.json()["code"] == "other_origin"


BODILESS = ("sign-out", "sign-out-everywhere", "remove", "withdraw", "accept", "decline", "climate", "calendar/off")


@pytest.mark.parametrize("route", [route for route in WRITES if not route.pattern.endswith(BODILESS)], ids=str)
def test_a_write_as_a_form_would_send_it_is_refused_wherever_a_body_is_read(cast: Cast, route: Route) -> None:
    path = route.path(household=cast.ours.id, sha256="0" * 64)
    form = "application/x-www-form-urlencoded"
    response = cast.keeper.client.generic(route.method.upper(), path, b"name=form", content_type=form)
    assert response.status_code == 415


@pytest.mark.parametrize(
    ("headers", "allowed"),
    [
        ({"Origin": "http://testserver", "Sec-Fetch-Site": "same-origin"}, True),
        ({}, True),  # no browser: it has no one else's cookie either
        ({"Origin": "http://testserver:81"}, False),
        ({"Origin": "https://testserver"}, False),
        ({"Origin": "http://testserver.elsewhere.example"}, False),
        ({"Sec-Fetch-Site": "same-site"}, False),
        ({"Origin": "http://testserver", "Sec-Fetch-Site": "cross-site"}, False),
    ],
)
def test_only_our_very_own_origin_may_write(cast: Cast, headers: dict[str, str], allowed: bool) -> None:
    response = cast.keeper.post("/api/v1/accounts/sign-out", **headers)
    assert response.status_code == (204 if allowed else 403)


def test_behind_a_proxy_the_address_given_in_the_settings_is_our_own(cast: Cast, settings: Any) -> None:
    settings.CSRF_TRUSTED_ORIGINS = ["https://book.example.org"]
    response = cast.keeper.post("/api/v1/accounts/sign-out", Origin="https://book.example.org")
    assert response.status_code == 204
