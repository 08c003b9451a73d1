"""A spreader's dial as whole clicks: settings, openings, and where nothing came."""

from collections import namedtuple

from lawn.engine.core.errors import EngineError
from lawn.engine.core.numeric import group, number, whole_down

MOST_CLICKS = 500

Dial = namedtuple("Dial", ("lowest", "highest", "step", "clicks"))


def read_dial(value: object) -> Dial:
    """Read a dial: lowest is closed, highest fully open.

    Args:
        value: group with lowest, highest, step [group of values]
    Returns:
        dial: the dial with its number of clicks above closed [Dial]
    Raises:
        impossible: highest is not above lowest, or there is no whole click between them
        out_of_range: a number is outside its range
    Source: definition
    """
    fields = group("dial", value, ("lowest", "highest", "step"))
    lowest = number("dial.lowest", fields.get("lowest"))
    highest = number("dial.highest", fields.get("highest"))
    step = number("dial.step", fields.get("step"))
    clicks = whole_down((highest - lowest) / step)
    if clicks < 1 or clicks > MOST_CLICKS:
        raise EngineError(
            code="impossible",
            name="dial.highest",
            value=fields.get("highest"),
            low=lowest + step,
            high=lowest + step * MOST_CLICKS,
            message="The dial needs at least one click between its lowest and its highest number.",
        )
    return Dial(lowest, highest, step, clicks)


def opening_of(dial: Dial, setting: float) -> float:
    """Share of full travel at a dial setting: 0 closed, 1 fully open."""
    share: float = (setting - dial.lowest) / (dial.highest - dial.lowest)
    return share


def setting_of(dial: Dial, click: int) -> float:
    """Number on the dial at a click counted from closed."""
    setting: float = dial.lowest + click * dial.step
    return setting


def least_click(dial: Dial, nothing_at: list[float]) -> int:
    """Lowest click worth setting: one beyond the highest at which nothing came; 0 where something always came."""
    least = 0
    for opening in nothing_at:
        least = max(least, whole_down(opening * (dial.highest - dial.lowest) / dial.step) + 1)
    return int(least)


def openings_of(dial: Dial) -> list[float]:
    """Share of full travel of every click, closed first."""
    return [opening_of(dial, setting_of(dial, click)) for click in range(dial.clicks + 1)]


def click_near(dial: Dial, setting: float) -> int:
    """Whole click nearest to a setting on the dial."""
    click: int = min(max(whole_down((setting - dial.lowest) / dial.step + 0.5), 0), dial.clicks)
    return click
