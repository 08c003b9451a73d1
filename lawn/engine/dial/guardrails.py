"""From a question about a job to an advised click: what is asked, what is known, and where to stop."""

import math
from collections import namedtuple

from lawn.engine.core.numeric import at_least
from lawn.engine.dial.decision import expected_loss
from lawn.engine.dial.history import read_history, read_product
from lawn.engine.dial.posterior import fit
from lawn.engine.dial.predictive import (
    Predictive,
    chance_over,
    first_flowing_click,
    last_click_within,
    predictive_of,
    quantile,
)
from lawn.engine.dial.scale import Dial, least_click, openings_of, read_dial, setting_of

Z_90 = 1.6448536269514722  # 5 % lie beyond it on either side (standard normal distribution)
LIKELY = (0.05, 0.5, 0.95)

# What a call is about: dial, product, what is remembered, what is believed, and what each click may put down.
Question = namedtuple("Question", ("dial", "product", "memory", "posterior", "predictive"))
# A click with its advice (walk, stop, blocked or by_hand), and in a word why.
Decision = namedtuple("Decision", ("click", "advice", "why"))

REASONS = {
    "empty": "Nothing is left to spread.",
    "enough": "This area has had its full target. Put what is left back in the bag.",
    "by_hand": "No setting spreads so little evenly. Spread it by hand, or put it back in the bag.",
    "first": "The lowest setting that surely flows.",
    "other_material": "Seed and lime flow differently from fertilizer. This is the first of its kind here, so "
    "start low. You can add more. You can't take it back.",
    "blocked": "Nothing came out with the dial fully open. Empty the hopper and clear the outlet.",
    "stop": "Even the lowest setting that flows would put down too much.",
    "nothing_known": "First time with this spreader, so start low. You can add more. You can't take it back.",
    "other_product": "New product in this spreader. It may flow differently, so this setting is cautious.",
    "same_product": "Best match from your past passes with this product.",
    "beyond_nothing": "Nothing came out at a lower setting. Go one click higher than that.",
    "limit": "One click higher could run out before the end.",
    "ahead": "Not exactly half. This makes the last pass easier to set.",
    "last": "Best match for what is left. Lower leaves product over. Higher may run out early.",
    "within": "One click higher would put down too much.",
}


def question_of(
    *, dial: object, product: object, history: object, swath_m: object = None, speed_m_s: object = None
) -> Question:
    """Read what every call of the dial is told, and learn from it.

    Args:
        dial: the spreader's dial [group of values]
        product: what is spread [group of values]
        history: past passes, oldest first [list]
        swath_m: swath of the job asked about, or nothing [m; 0.2 to 20]
        speed_m_s: speed of that walk, or nothing [m/s; 0.3 to 3]
    Returns:
        question: dial, product, memory, posterior and predictive [Question]
    Raises:
        out_of_range: a number is outside its range
    Source: computed
    """
    scale = read_dial(dial)
    stuff = read_product(product)
    sort = product.get("sort") if isinstance(product, dict) else None
    memory = read_history(history, scale, stuff, swath_m, speed_m_s, sort)
    posterior = fit(passes=memory.passes, product=stuff, unlike=memory.unlike)
    return Question(scale, stuff, memory, posterior, predictive_of(posterior=posterior, openings=openings_of(scale)))


def guard(
    *,
    asked: Question,
    predictive: Predictive,
    wanted: int,
    load_kg_m2: float,
    most_kg_m2: float,
    why: str,
    held: str,
) -> Decision:
    """Keep a wanted click off where nothing came, at what flows, and within what there should be.

    A last pass is held by its expected loss instead, which counts running out and what stays over alike: held below
    its median too, it would on a coarse dial leave a fifth of every load in the hopper. Yet no pass, the last among
    them, is expected to bring the ground further beyond the aim than most_kg_m2 says.

    More load never gives a lower click: each of the three only ever moves it one way.

    Args:
        asked: what the call is about [Question]
        predictive: what the clicks may put down, for this pass or the rest of it [Predictive]
        wanted: the click chosen [clicks]
        load_kg_m2: the most that may go down, over the ground [kg/m2]
        most_kg_m2: the most that this pass may be expected to put down [kg/m2]
        why: why that click was chosen, in a word [text]
        held: why no setting is given at all, in a word; empty where one may be [text]
    Returns:
        decision: click, advice and why; click 0 unless it is to be walked [Decision]
    Source: definition
    """
    least = least_click(asked.dial, asked.memory.nothing_at)
    if least > asked.dial.clicks:
        return Decision(0, "blocked", "blocked")
    if held:
        return Decision(0, "by_hand" if held == "by_hand" else "stop", held)
    first = max(least, first_flowing_click(predictive=predictive))
    click = max(wanted, first)
    if click > asked.dial.clicks:
        return Decision(0, "stop", "stop")
    reason = why
    if click > wanted:
        reason = "beyond_nothing" if click == least else "first"
    last = why == "last"  # the click of least loss has weighed running out already
    while click > first and not _within(predictive, click, most_kg_m2):
        click -= 1
        reason = "within"
    walk = _within(predictive, click, most_kg_m2) and (not last or _worth(predictive, click, load_kg_m2))
    return Decision(click, "walk", reason) if walk else Decision(0, "stop", "stop")


def _within(predictive: Predictive, click: int, load_kg_m2: float) -> bool:
    return at_least(load_kg_m2, quantile(predictive=predictive, click=click, chance=0.5))


def _worth(predictive: Predictive, click: int, left_kg_m2: float) -> bool:
    """Whether a last pass is expected to end better than leaving what is left in the hopper."""
    return expected_loss(predictive=predictive, click=click, left_kg_m2=left_kg_m2) < left_kg_m2


def rates(predictive: Predictive, click: int) -> dict[str, float]:
    """Low, mid and high of what a click may put down in a pass; 90 % lie between low and high [kg/m2]."""
    low, mid, high = [0.0 if click == 0 else quantile(predictive=predictive, click=click, chance=at) for at in LIKELY]
    return {"low": low, "mid": mid, "high": high}


def left_after(load_kg: float, load_sd_kg: float, rate: dict[str, float], area_m2: float) -> dict[str, float]:
    """What is left after a pass: 5 %, 50 % and 95 %, the errors of load and pass added as squares [kg]."""
    mid = load_kg - rate["mid"] * area_m2
    down = math.sqrt(((rate["high"] - rate["mid"]) * area_m2) ** 2 + (Z_90 * load_sd_kg) ** 2)
    up = math.sqrt(((rate["mid"] - rate["low"]) * area_m2) ** 2 + (Z_90 * load_sd_kg) ** 2)
    return {"low": max(0.0, mid - down), "mid": max(0.0, mid), "high": max(0.0, mid + up)}


def chance_empty(predictive: Predictive, click: int, load_kg_m2: float) -> float:
    """Chance that a click's pass takes more than there is; the predictive holds the error of what there is."""
    return 0.0 if click == 0 else chance_over(predictive=predictive, click=click, rate_kg_m2=load_kg_m2)


def likely_clicks(predictive: Predictive, click: int, aim_kg_m2: float) -> tuple[int, int]:
    """Lowest and highest click at which the aim may truly lie, a pass's own noise left out; 90 % lie between."""
    if click == 0:
        return 0, 0
    low = last_click_within(predictive=predictive, rate_kg_m2=aim_kg_m2, chance=LIKELY[0], noise=False)
    high = last_click_within(predictive=predictive, rate_kg_m2=aim_kg_m2, chance=LIKELY[2], noise=False) + 1
    return max(1, min(low, click)), max(min(high, predictive.clicks), click)


def likely_settings(dial: Dial, clicks: tuple[int, int]) -> dict[str, float]:
    """The two ends of the likely settings as numbers on the dial."""
    return {"low": setting_of(dial, clicks[0]), "high": setting_of(dial, clicks[1])}
