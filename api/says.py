"""Form fields whose refusals name the field, say what is wrong with it and what is allowed."""

from collections.abc import Iterable
from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import ProhibitNullCharactersValidator
from rest_framework import serializers
from rest_framework.validators import ProhibitSurrogateCharactersValidator

_PASSWORD_SAYS = {
    "password_too_short": "This password is too short: write at least {min_length} characters.",
    "password_too_common": "This password is among the most common: write a few words of your own.",
    "password_entirely_numeric": "This password is digits only: write words or letters among them.",
    "password_too_similar": "This password is too much like your {verbose_name}: write a few other words.",
}


def _messages(what: str, allowed: str) -> dict[str, Any]:
    missing = f"{what} is missing: {allowed}."
    return {
        "required": missing,
        "null": missing,
        "blank": missing,
        "invalid": f"{what} cannot be read: {allowed}.",
        "max_length": f"{what} is too long: write at most {{max_length}} characters.",
    }


class Text(serializers.CharField):
    """A text whose refusals speak of `what` ("Your name") and end in what is `allowed` ("write one")."""

    def __init__(self, what: str, allowed: str, **options: Any) -> None:
        super().__init__(error_messages=_messages(what, allowed), **options)
        for validator in self.validators:
            if isinstance(validator, ProhibitNullCharactersValidator | ProhibitSurrogateCharactersValidator):
                validator.message = f"{what} holds a character that is no letter, digit or sign: write it without."


class Email(serializers.EmailField):
    """An e-mail address that a message could reach."""

    def __init__(self, **options: Any) -> None:
        allowed = "write one address such as name@example.org"
        said = _messages("Your e-mail address", allowed)
        super().__init__(error_messages={**said, "invalid": f"This is no e-mail address: {allowed}."}, **options)


class Choice(serializers.ChoiceField):
    """One of a few words; a refusal lists them."""

    def __init__(self, what: str, choices: Iterable[str], **options: Any) -> None:
        words = tuple(choices)
        allowed = f"choose {' or '.join(words)}"
        wrong = f"{what} can only be one of a few: {allowed}."
        said = _messages(what, allowed)
        super().__init__(words, error_messages={**said, "invalid_choice": wrong}, **options)


def of_password(error: ValidationError) -> list[str]:
    """Return a sentence for every validator that refused a password."""
    said = []
    for one in error.error_list:
        text = _PASSWORD_SAYS.get(one.code or "")
        said.append(text.format(**(one.params or {})) if text else str(one.messages[0]))
    return said
