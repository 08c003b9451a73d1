"""Small steps every part of the demo takes: ask the engine, read a typed amount."""

from typing import Any

from lawn.engine.door import call
from lawn.units import registry

Item = dict[str, Any]


def ask(name: str, **args: Any) -> dict[str, Any]:
    """Call the engine; arguments of None are left out. Raises ValueError with the engine's sentence."""
    answer = call(name, {key: value for key, value in args.items() if value is not None})
    if "error" in answer:
        raise ValueError(f"{name}: {answer['error']['message']} ({answer['error']['name']})")
    value: dict[str, Any] = answer["value"]
    return value


def typed(pair: list[str]) -> dict[str, str]:
    """["48", "lb"] as it is kept beside the SI value."""
    return {"amount": pair[0], "unit": pair[1]}


def si(pair: list[str]) -> float:
    """["48", "lb"] in SI."""
    return registry.convert(pair[0], pair[1])
