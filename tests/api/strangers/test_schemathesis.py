"""Whatever the API's own description allows is answered as described, and never by a server error.

schemathesis makes the requests from the OpenAPI schema, the same ones each run, for a keeper and for nobody. Ids in
addresses are the keeper's own household's as often as not, so that more is reached than the answer 404.
"""

import warnings
from collections.abc import Iterator
from typing import Any

import pytest
import schemathesis
from django.core.signals import request_finished, request_started
from django.core.wsgi import get_wsgi_application
from django.db import close_old_connections
from drf_spectacular.generators import SchemaGenerator
from hypothesis import HealthCheck, Phase, given
from hypothesis import settings as how
from hypothesis import strategies as st
from schemathesis.checks import load_all_checks
from schemathesis.core.result import Ok
from schemathesis.specs.openapi import checks

from tests.api.conftest import Cast

load_all_checks()
EXAMPLES = 12  # of each route and each caller: some seconds for all of them


def operations() -> list[Any]:
    """Every operation of the schema that answers and ends: a stream of events does not."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        described = dict(SchemaGenerator().get_schema(request=None, public=True))
    schema = schemathesis.openapi.from_dict(described)
    django = get_wsgi_application()
    schema.app = lambda environ, answer: django({**environ, "REMOTE_ADDR": "127.0.0.1"}, answer)
    found = [result.ok() for result in schema.get_all_operations() if isinstance(result, Ok)]
    return [one for one in found if not one.path.endswith("/events")]


@pytest.fixture
def one_connection() -> Iterator[None]:
    """Let the requests use the test's own database connection, as Django's test client does."""
    signals = (request_started, request_finished)
    for signal in signals:
        signal.disconnect(close_old_connections)
    yield
    for signal in signals:
        signal.connect(close_old_connections)


@pytest.mark.parametrize("who", ["keeper", "anonymous"])
@pytest.mark.parametrize("operation", operations(), ids=lambda one: f"{one.method.upper()} {one.path}")
def test_p10_f16_any_request_the_schema_describes_is_answered_as_described(
    cast: Cast, one_connection: None, operation: Any, who: str
) -> None:
    caller = cast.caller(who)
    cookies = {name: one.value for name, one in caller.client.cookies.items()}
    answered: set[int] = set()

    @how(
        max_examples=EXAMPLES, deadline=None, derandomize=True, database=None, phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(case=operation.as_strategy(), ours=st.booleans())
    def ask(case: Any, ours: bool) -> None:
        if ours and "household" in (case.path_parameters or {}):
            case.path_parameters["household"] = str(cast.ours.id)
        case.cookies = cookies
        response = case.call(headers={"Accept-Encoding": "identity"})
        answered.add(response.status_code)
        case.validate_response(
            response,
            checks=[
                schemathesis.checks.not_a_server_error,
                checks.response_schema_conformance,
                checks.content_type_conformance,
            ],
        )

    ask()
    # a caller who was not let in would prove nothing
    assert who == "anonymous" or answered != {401}
