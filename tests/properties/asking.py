"""Asks the engine in a property test: the value, or a plain failure that shows the error."""

from typing import Any

from lawn.engine.door import call


def value(name: str, **args: Any) -> dict[str, Any]:
    """The value of a call that must be answered."""
    answer = call(name, args)
    assert "value" in answer, answer
    found: dict[str, Any] = answer["value"]
    return found


def error(name: str, **args: Any) -> dict[str, Any]:
    """The error of a call that must be refused."""
    answer = call(name, args)
    assert "error" in answer, answer
    found: dict[str, Any] = answer["error"]
    return found
