"""The one error the engine raises: four facts and a plain sentence.

The sentence carries no numbers: the phone writes the limits in the person's own units from the
facts beside it, and no number is formatted inside the engine.
"""

from lawn.engine.core.glossary import words_of


class EngineError(Exception):
    """What was wrong with the input: its name and value, and the lowest and highest value allowed."""

    def __init__(
        self, *, code: str, name: str, value: object, message: str, low: object = None, high: object = None
    ) -> None:
        """Keep the facts; low and high are None where the input is not a number with a range."""
        super().__init__(message)
        self.code = code
        self.name = name
        self.value = sayable(value)
        self.low = low
        self.high = high
        self.message = message

    def facts(self) -> dict[str, object]:
        """Return the error as the door's JSON-able envelope."""
        return {
            "code": self.code,
            "name": self.name,
            "value": self.value,
            "low": self.low,
            "high": self.high,
            "message": self.message,
        }


def sayable(value: object) -> object:
    """Return the value if JSON can hold it, else a text naming what it was (JSON has no NaN)."""
    if value is None or isinstance(value, (bool, str)):
        return value
    if isinstance(value, float):
        if value != value:
            return "NaN"
        return value if -1e308 <= value <= 1e308 else "infinite"
    if isinstance(value, int):
        return value if -(2**53) <= value <= 2**53 else "a very large number"
    if isinstance(value, (list, tuple)):
        return "a list"
    return "a group of values" if isinstance(value, dict) else "something else"


def out_of_range(*, name: str, value: object, low: object, high: object) -> EngineError:
    """Build the error for a number outside low to high (both allowed)."""
    side = "above the highest" if _is_above(value, high) else "below the lowest"
    message = "The " + words_of(name) + " is " + side + " value allowed."
    return EngineError(code="out_of_range", name=name, value=value, low=low, high=high, message=message)


def wrong_type(*, name: str, value: object, wanted: str, low: object = None, high: object = None) -> EngineError:
    """Build the error for a value of the wrong kind; wanted completes 'must be ...'."""
    message = "The " + words_of(name) + " must be " + wanted + "."
    return EngineError(code="wrong_type", name=name, value=value, low=low, high=high, message=message)


def missing(*, name: str, low: object = None, high: object = None) -> EngineError:
    """Build the error for an argument that was not given: nothing is filled in for the person."""
    message = "The " + words_of(name) + " is missing."
    return EngineError(code="missing_argument", name=name, value=None, low=low, high=high, message=message)


def impossible(*, name: str, value: object, message: str, low: object = None, high: object = None) -> EngineError:
    """Build the error for values that are each allowed but cannot be true together."""
    return EngineError(code="impossible", name=name, value=value, low=low, high=high, message=message)


def _is_above(value: object, high: object) -> bool:
    return isinstance(value, (int, float)) and isinstance(high, (int, float)) and value > high


def repeated(path: str, value: object, message: str) -> EngineError:
    """The error for an id that stands twice in a list."""
    return EngineError(code="repeated", name=path + ".id", value=value, message=message)
