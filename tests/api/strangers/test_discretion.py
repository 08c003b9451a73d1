"""B23: an invitation's token stands in no address that is ours, and in no record of the log."""

import io
import logging
from collections.abc import Iterator
from typing import Any
from typing import cast as narrowed

import pytest
from rest_framework.throttling import SimpleRateThrottle

from lawn.settings import LOGGING
from lawn.web import discretion
from tests.api.conftest import Caller, Cast
from tests.api.routes import all_routes

API = "/api/v1"


@pytest.fixture
def log() -> Iterator[io.StringIO]:
    """What the server's own handler writes."""
    [handler] = [
        one for one in logging.getLogger().handlers if any(type(f) is discretion.Discreet for f in one.filters)
    ]
    stream = narrowed("logging.StreamHandler[Any]", handler)
    before, out = stream.stream, io.StringIO()
    stream.setStream(out)
    yield out
    stream.setStream(before)


@pytest.fixture
def link(cast: Cast) -> str:
    return str(cast.keeper.post(f"{API}/households/{cast.ours.id}/invitations").json()["link"])


def token_of(link: str) -> str:
    return link.split("#")[1]


def test_a_link_carries_its_token_where_no_server_is_sent_it(cast: Cast, link: str) -> None:
    before, _, token = link.partition("#")
    assert before == "http://testserver/join/"
    assert len(token) == 43
    # a calendar can send nothing but an address; its link is all of what it may read, and is hidden from the log
    assert [str(route) for route in all_routes() if "token" in route.names] == ["GET /api/v1/calendar/<str:token>.ics"]


@pytest.mark.parametrize("around", ["{}.", " {}\n", "#{}", "<http://testserver/join/#{}>.", "“{}”", "http://t/join/{}"])
def test_what_pasting_put_around_a_token_or_its_link_is_no_part_of_it(cast: Cast, link: str, around: str) -> None:
    answer = Caller().post(f"{API}/accounts/invitation", {"token": around.format(token_of(link))})
    assert (answer.status_code, answer.json().get("household_name")) == (200, "Alder Bend")


@pytest.mark.parametrize("how", ["429", "405", "a full stop", "an old address", "a traceback", "in values"])
def test_no_record_of_the_log_holds_a_token(
    cast: Cast, link: str, log: io.StringIO, monkeypatch: pytest.MonkeyPatch, how: str
) -> None:
    token = token_of(link)
    if how == "429":
        rates = {**dict.fromkeys(SimpleRateThrottle.THROTTLE_RATES), "invitation": "1/hour"}
        monkeypatch.setattr(SimpleRateThrottle, "THROTTLE_RATES", rates)
        answers = [Caller().post(f"{API}/accounts/invitation?token={token}", {"token": token}) for _ in range(2)]
        assert answers[1].status_code == 429
    elif how == "405":
        assert Caller().client.delete(f"/join/{token}").status_code == 405
        assert Caller().get(f"{API}/accounts/invitation?{token}").status_code == 405
    elif how == "a full stop":
        assert Caller().get(f"/join/{token}.").status_code == 404
    elif how == "an old address":
        assert Caller().get(f"{API}/invitations/{token}").status_code == 404
    elif how == "in values":
        logging.getLogger("lawn").warning("%s of %s", [token], {"token": token})
    else:
        try:
            raise ValueError(f"token={token}")
        except ValueError:
            logging.getLogger("lawn").exception("Failed on %s", token)
    logging.getLogger("django.request").warning("Seen: %s", f"/join/{token}")
    assert discretion.HIDDEN in log.getvalue()
    assert token not in log.getvalue()
    assert token[:20] not in log.getvalue()


def test_ids_hashes_and_names_in_code_are_left_as_they_are() -> None:
    name = test_no_record_of_the_log_holds_a_token.__name__
    kept = f"/households/0190aaaa-0000-7000-8000-000000000001/photos/{'0a' * 32} {name}"
    assert discretion.hide(kept) == kept


def test_every_handler_of_the_log_is_discreet() -> None:
    handlers: Any = LOGGING["handlers"]
    assert all("discreet" in handler["filters"] for handler in handlers.values())
