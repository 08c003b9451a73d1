"""What all drawing of arguments shares: a number of the glossary's range, and arguments given now and then."""

import math
from random import Random
from typing import Any

from lawn.engine.core.glossary import GLOSSARY

Json = dict[str, Any]


def within(stream: Random, name: str, low: float | None = None, high: float | None = None) -> float:
    """A number in the glossary's range, spread evenly over its orders of magnitude."""
    row = GLOSSARY[name]
    lowest, highest = (row[2] if low is None else low), (row[3] if high is None else high)
    if lowest > 0:
        return math.exp(stream.uniform(math.log(lowest), math.log(highest)))
    return stream.uniform(lowest, highest)


def some(stream: Random, args: Json, **optional: Any) -> Json:
    return args | {key: value for key, value in optional.items() if stream.random() < 0.5}
