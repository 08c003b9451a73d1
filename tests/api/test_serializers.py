"""What each form takes: tables of valid and invalid values, and the form of what goes out."""

from typing import Any

import pytest
from rest_framework.serializers import Serializer

from api.accounts.serializers import JoinIn, NewcomerIn, SignInIn, SignUpIn
from api.households.serializers import DeviceIn, NewDeviceOut

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
    assert NewDeviceOut({"device": "0190a1b2-0000-7000-8000-000000000000"}).data == {
        "device": "0190a1b2-0000-7000-8000-000000000000"
    }


SAYS: list[tuple[type[Serializer[Any]], dict[str, Any], str, str]] = [
    (SignUpIn, {"email": "robin"}, "email", "This is no e-mail address: write one address such as name@example.org."),
    (SignUpIn, {"email": " "}, "email", "Your e-mail address is missing: write one address such as name@example.org."),
    (SignUpIn, {"email": None}, "email", "Your e-mail address is missing: write one address such as name@example.org."),
    (SignUpIn, {"name": " "}, "name", "Your name is missing: write 1 to 60 characters."),
    (SignUpIn, {"name": LONG}, "name", "Your name is too long: write at most 60 characters."),
    (SignUpIn, {"name": ["a"]}, "name", "Your name cannot be read: write 1 to 60 characters."),
    (
        SignUpIn,
        {"name": "nul\x00"},
        "name",
        "Your name holds a character that is no letter, digit or sign: write it without.",
    ),
    (
        SignUpIn,
        {"name": "half\ud83d"},
        "name",
        "Your name holds a character that is no letter, digit or sign: write it without.",
    ),
    (SignUpIn, {"household_name": ""}, "household_name", "The household's name is missing: write 1 to 60 characters."),
    (SignUpIn, {"units": "furlongs"}, "units", "Units can only be one of a few: choose us or metric."),
    (
        SignUpIn,
        {"password": ""},
        "password",
        "The password is missing: write at least 10 characters, such as a few words of your own.",
    ),
    (SignUpIn, {"password": "x" * 257}, "password", "The password is too long: write at most 256 characters."),
    (SignUpIn, {"password": "tall oak"}, "password", "This password is too short: write at least 10 characters."),
    (
        SignUpIn,
        {"password": "password12"},
        "password",
        "This password is among the most common: write a few words of your own.",
    ),
    (
        SignUpIn,
        {"password": "830174652918"},
        "password",
        "This password is digits only: write words or letters among them.",
    ),
    (
        NewcomerIn,
        {"password": "robin@example.org"},
        "password",
        "This password is too much like your email: write a few other words.",
    ),
    (SignInIn, {"email": ""}, "email", "Your e-mail address is missing: write the one you signed up with."),
    (SignInIn, {"password": ""}, "password", "The password is missing: write the one you signed up with."),
    (JoinIn, {"token": ""}, "token", "The invitation is missing: open its link or ask for a new one."),
    (DeviceIn, {"name": "x" * 81}, "name", "The phone's name is too long: write at most 80 characters."),
]
GOOD: dict[type[Serializer[Any]], dict[str, Any]] = {SignUpIn: SIGN_UP, NewcomerIn: NEWCOMER}


@pytest.mark.parametrize(("form", "data", "field", "message"), SAYS)
def test_a_refusal_names_the_field_what_is_wrong_and_what_is_allowed(
    form: type[Serializer[Any]], data: dict[str, Any], field: str, message: str
) -> None:
    filled = form(data={**GOOD.get(form, {}), **data})
    assert not filled.is_valid()
    assert [str(said) for said in filled.errors[field]] == [message]


def test_every_reason_against_a_password_is_said() -> None:
    filled = SignUpIn(data={**SIGN_UP, "password": "12345"})
    assert not filled.is_valid()
    assert len(filled.errors["password"]) == 3
