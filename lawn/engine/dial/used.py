"""What a pass used, from what there was and what is left of it."""

from lawn.engine.core.errors import missing, out_of_range
from lawn.engine.core.measuring import (
    MEASURED,
    MEASURED_SOURCE,
    MOST_ERRORS,
    SHOWN_SHARE,
    WORDS,
    reading_error_kg,
)
from lawn.engine.core.numeric import at_least, choice, number, optional_number
from lawn.engine.core.working import DEFINITION, step


def used(
    *,
    start_kg: float,
    measured: str,
    start_sd_kg: float | None = None,
    left_kg: float | None = None,
    handfuls: float | None = None,
    handful_kg: float | None = None,
    hopper_kg: float | None = None,
    hopper_sd_kg: float | None = None,
    in_bag_kg: float | None = None,
    added_kg: float | None = None,
    aim_kg: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """What a pass put down, from what there was, what was poured in on the way and what is left.

    Args:
        start_kg: product there was when the pass began [kg; 0 to 5000]
        measured: how the rest was measured: scale, level or handfuls [one of scale, level, handfuls]
        start_sd_kg?: likely error of what there was, where that was itself a reading; more may then be left than there
            was by it, up to three such errors [kg; 0 to 20000]
        left_kg?: what is left, where it was weighed or is known as a mass [kg; 0 to 20000]
        handfuls?: handfuls left in the hopper [handfuls; 0 to 100000]
        handful_kg?: what one of them weighs [kg; 0.001 to 5]
        hopper_kg?: what is left in the hopper by its level [kg; 0 to 5000]
        hopper_sd_kg?: likely error of that; 8 % of it when not said [kg; 0 to 5000]
        in_bag_kg?: what is left besides, in the bag [kg; 0 to 5000]
        added_kg?: what was poured in on the way and was not there at the start [kg; 0 to 5000]
        aim_kg?: what the pass should have put down [kg; 0 to 5000]
    Returns:
        used_kg: what the pass put down; 0 where more is left than there was by the reading before [kg]
        left_kg: what is left of everything, as read [kg]
        left_sd_kg: its likely error [kg]
        share_of_aim: what was put down over what should have been; null without an aim [share or null]
    Raises:
        out_of_range: an argument is outside its range, or more is left than there was and than its error allows
        missing_argument: what is left was not said, or what a handful weighs
    Source: definition
    """
    there_kg = number("start_kg", start_kg) + (optional_number("added_kg", added_kg) or 0.0)
    how = choice("measured", measured, MEASURED)
    bag_kg = optional_number("in_bag_kg", in_bag_kg) or 0.0
    hopper, formula = _hopper_kg(how, left_kg, handfuls, handful_kg, hopper_kg)
    seen_kg = hopper + bag_kg
    start_error_kg = optional_number("start_sd_kg", start_sd_kg) or 0.0
    most_kg = max(there_kg * (1.0 + SHOWN_SHARE), there_kg + MOST_ERRORS * start_error_kg)
    if not at_least(most_kg, seen_kg):
        raise out_of_range(name="left_kg", value=seen_kg, low=0.0, high=there_kg)
    rest_kg = seen_kg if start_error_kg > 0.0 else min(seen_kg, there_kg)
    sd_kg = _sd_kg(how, hopper, optional_number("hopper_sd_kg", hopper_sd_kg), rest_kg)
    used_kg = max(0.0, there_kg - rest_kg)
    aim = optional_number("aim_kg", aim_kg)
    share = used_kg / aim if aim is not None and aim > 0.0 else None
    formula += "" if start_error_kg > 0.0 else "; no more than there was"
    working = [
        _step("Left", formula, {"hopper_kg": hopper, "in_bag_kg": bag_kg, "most_kg": there_kg}, rest_kg, DEFINITION),
        _step(
            "Put down",
            "what there was less what is left, never below 0",
            {"there_kg": there_kg, "left_kg": rest_kg},
            used_kg,
            DEFINITION,
        ),
        _step(
            "Likely error of what is left",
            WORDS[how],
            {"hopper_kg": hopper, "left_kg": rest_kg},
            sd_kg,
            MEASURED_SOURCE,
        ),
    ]
    if share is not None:
        working.append(
            step(
                what="Share of the target",
                formula="what was put down over what should have been",
                numbers={"used_kg": used_kg, "aim_kg": aim},
                result=share,
                unit="share",
                source=DEFINITION,
            )
        )
    return {"used_kg": used_kg, "left_kg": rest_kg, "left_sd_kg": sd_kg, "share_of_aim": share}, working


def _hopper_kg(how: str, left_kg: object, handfuls: object, handful_kg: object, hopper_kg: object) -> tuple[float, str]:
    """What is left apart from the bag, and how it is added up; handfuls or level first where they were used."""
    left = optional_number("left_kg", left_kg)
    count = optional_number("handfuls", handfuls)
    one_kg = optional_number("handful_kg", handful_kg)
    level = optional_number("hopper_kg", hopper_kg)
    if count is not None and (how == "handfuls" or left is None):
        if one_kg is None:
            raise missing(name="handful_kg", low=0.001, high=5.0)
        return count * one_kg, "handfuls x weight of one, and what is in the bag"
    if level is not None and (how == "level" or left is None):
        return level, "what is in the hopper and in the bag"
    if left is None:
        raise missing(name="left_kg", low=0.0, high=20000.0)
    return left, "what is left and what is in the bag"


def _sd_kg(how: str, hopper_kg: float, hopper_sd_kg: float | None, left_kg: float) -> float:
    """Likely error of what is left [kg]."""
    if how == "level" and hopper_sd_kg is not None:
        return hopper_sd_kg
    return reading_error_kg(measured=how, seen_kg=left_kg if how == "scale" else hopper_kg)


def _step(what: str, formula: str, numbers: dict[str, object], result: float, source: str) -> dict[str, object]:
    return step(what=what, formula=formula, numbers=numbers, result=result, unit="kg", source=source)
