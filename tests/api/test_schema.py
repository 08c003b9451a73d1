"""The OpenAPI schema says what the routes do, and the phone's types say what the schema says."""

import re
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command
from django.test import Client
from drf_spectacular.generators import SchemaGenerator

from lawn.management.commands.types import API, SOURCES
from tests.api.conftest import Caller
from tests.api.routes import all_routes


@pytest.fixture(scope="module")
def schema() -> dict[str, Any]:
    return dict(SchemaGenerator().get_schema(request=None, public=True))


def operations(schema: dict[str, Any]) -> dict[str, dict[str, Any]]:
    """Every operation as "METHOD /path"."""
    return {
        f"{method.upper()} {path}": operation
        for path, methods in schema["paths"].items()
        for method, operation in methods.items()
    }


def test_the_schema_names_every_route_and_no_other(schema: dict[str, Any]) -> None:
    routes = {re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", str(route)) for route in all_routes()}
    assert set(operations(schema)) == routes - {"GET /api/v1/schema"}


def test_every_operation_has_a_name_of_its_own_and_says_what_it_answers(schema: dict[str, Any]) -> None:
    names = [operation["operationId"] for operation in operations(schema).values()]
    assert len(set(names)) == len(names)
    for name, operation in operations(schema).items():
        good = [answer for code, answer in operation["responses"].items() if code.startswith("2")]
        assert len(good) == 1, name
        assert good[0].get("content") or "204" in operation["responses"], name


def test_every_error_is_described_in_the_one_shape(schema: dict[str, Any]) -> None:
    for name, operation in operations(schema).items():
        for code, answer in operation["responses"].items():
            if code.startswith("4"):
                content = answer["content"]["application/json"]["schema"]
                assert content == {"$ref": "#/components/schemas/ErrorOut"}, f"{name} {code}"


def test_the_error_shape_is_code_message_and_perhaps_fields(schema: dict[str, Any]) -> None:
    shape = schema["components"]["schemas"]["ErrorOut"]
    assert set(shape["properties"]) == {"code", "message", "fields"}
    assert set(shape["required"]) == {"code", "message"}


def test_the_schema_is_served_to_anyone(db: None) -> None:
    response = Caller().get("/api/v1/schema")
    assert response.status_code == 200
    assert response.json()["openapi"].startswith("3.")


def test_the_phones_types_are_those_of_the_schema(node_modules: Path, tmp_path: Path) -> None:
    call_command("types", out=tmp_path)
    assert (SOURCES / API).read_text() == (tmp_path / API).read_text(), "Write them anew: uv run manage.py types"


def test_the_schema_is_made_once_however_often_and_in_whichever_version_strangers_ask(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = client.get("/api/v1/schema")
    assert asked.json()["paths"]

    def again(*given: object, **named: object) -> None:
        raise AssertionError("made once more")

    monkeypatch.setattr("drf_spectacular.generators.SchemaGenerator.parse", again)
    for query in ("", "?version=2", "?lang=de"):
        assert client.get(f"/api/v1/schema{query}").content == asked.content
