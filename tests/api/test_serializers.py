"""What each form takes: tables of valid and invalid values, and the form of what goes out."""

from typing import Any

import pytest
from rest_framework.serializers import Serializer

from api.accounts.serializers import JoinIn, NewcomerIn, SignInIn, SignUpIn
from api.households.serializers import DeviceIn, DeviceOut

SIGN_UP = {
    "name": "Robin",
    "email": "robin@example.org",
    "password": "nine tall hedges",
    "household_name": "Brook Corner",
    "units": "us",
}
NEWCOMER = {key: SIGN_UP[key] for key in ("name", "email", "password")}
LONG = "x" * 61

VALID: list[tuple[type[Serializer[Any]], dict[str, Any]]] = [
    (SignUpIn, SIGN_UP),
    (SignUpIn, {**SIGN_UP, "units": "metric", "name": "é" * 60}),
    (SignUpIn, {**SIGN_UP, "password": "  blanks count too  "}),
    (SignInIn, {"email": "not even an address", "password": "x"}),
    (JoinIn, {"token": "abc"}),
    (JoinIn, {"token": "abc", **NEWCOMER, "units": "metric"}),
    (NewcomerIn, NEWCOMER),
    (DeviceIn, {"name": "Pocket"}),
]
INVALID: list[tuple[type[Serializer[Any]], dict[str, Any], set[str]]] = [
    (SignUpIn, {}, set(SIGN_UP)),
    (SignUpIn, {**SIGN_UP, "name": LONG}, {"name"}),
    (SignUpIn, {**SIGN_UP, "name": "  "}, {"name"}),
    (SignUpIn, {**SIGN_UP, "household_name": LONG}, {"household_name"}),
    (SignUpIn, {**SIGN_UP, "email": "robin"}, {"email"}),
    (SignUpIn, {**SIGN_UP, "units": "furlongs"}, {"units"}),
    (SignUpIn, {**SIGN_UP, "password": "ninechars"}, {"password"}),
    (SignUpIn, {**SIGN_UP, "name": "nul\x00"}, {"name"}),
    (SignInIn, {"email": "", "password": ""}, {"email", "password"}),
    (SignInIn, {"email": ["a"], "password": {"b": 1}}, {"email", "password"}),
    (JoinIn, {}, {"token"}),
    (JoinIn, {"token": "x" * 201}, {"token"}),
    (NewcomerIn, {"name": "Robin"}, {"email", "password"}),
    (DeviceIn, {"name": "x" * 81}, {"name"}),
]


@pytest.mark.parametrize(("form", "data"), VALID)
def test_a_valid_form_is_taken_as_written(form: type[Serializer[Any]], data: dict[str, Any]) -> None:
    filled = form(data=data)
    assert filled.is_valid(), filled.errors
    assert filled.validated_data == data


@pytest.mark.parametrize(("form", "data", "wrong"), INVALID)
def test_an_invalid_form_names_each_wrong_field(
    form: type[Serializer[Any]], data: dict[str, Any], wrong: set[str]
) -> None:
    filled = form(data=data)
    assert not filled.is_valid()
    assert set(filled.errors) == wrong


def test_an_id_goes_out_as_text() -> None:
    assert DeviceOut({"device": "0190a1b2-0000-7000-8000-000000000000"}).data == {
        "device": "0190a1b2-0000-7000-8000-000000000000"
    }
