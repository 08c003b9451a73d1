"""What one job taught: how its passes stand to what earlier ones led to expect."""

import math
from collections import namedtuple

from lawn.engine.core.errors import out_of_range
from lawn.engine.core.numeric import whole
from lawn.engine.core.working import DEFINITION, step
from lawn.engine.dial.guardrails import Question, question_of, rates
from lawn.engine.dial.history import Read
from lawn.engine.dial.likelihood import PASS_VAR, Pass
from lawn.engine.dial.posterior import Posterior, fit
from lawn.engine.dial.predictive import predictive_of
from lawn.engine.dial.scale import Dial, opening_of, setting_of
from lawn.engine.dial.steps import SOURCE, learned_steps

KEPT = ("", "too_old")  # passes that may be learned from
LEAST_CHANGE = 0.05  # smaller changes are called none (source: computed, as the next one)
SURE_OF_CHANGE = 1.2815515655446004  # four changes in five that chance alone makes are less than so many errors
REASONS = {
    "first": "First time with this product. Next time the dial starts from this.",
    "freer": "More came out than expected, beyond the usual pass-to-pass difference.",
    "tighter": "Less came out than expected, beyond the usual pass-to-pass difference.",
    "as_before": "Matches your past passes.",
}

# What the job put down over what was expected, less 1; its logarithm, and the likely error of that.
Change = namedtuple("Change", ("share", "log", "sd", "passes"))


def taught(
    *,
    dial: dict[str, object],
    product: dict[str, object],
    history: list[object],
    walked: int,
    since: int | None = None,
    swath_m: float | None = None,
    speed_m_s: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """What the passes of one job changed about what is known of a setting.

    Args:
        dial: the spreader's dial, as for spreading.start [group of values as spreading.start]
        product: what was spread, as for spreading.start [group of values as spreading.start]
        history: past passes with this spreader, oldest first, those of the job last, as for spreading.start [list as
            spreading.start]
        walked: how many of the last passes belong to the job [passes; 1 to 400]
        since?: place in the history of the first pass to compare with; all earlier ones when not said [place; 0 to 400]
        swath_m?: distance between tracks of the job [m; 0.2 to 20]
        speed_m_s?: walking speed of the job [m/s; 0.3 to 3]
    Returns:
        dial: the setting most passes of the job used, of two the later [dial]
        before: low, mid and high of what it put down by the passes compared with; null at a first job [kg/m2 or null;
            low, mid and high]
        after: low, mid and high by all passes, the job's own among them [kg/m2; low, mid and high]
        change_share: what the job put down over what was expected before, less 1; null at a first job [share or null]
        band_before: high over low less 1 before; null at a first job [share or null]
        band_after: high over low less 1 after [share]
        says: first, freer, tighter or as_before [one of first, freer, tighter, as_before]
        reason: the same in a sentence [text]
    Raises:
        out_of_range: an argument is outside its range
        impossible: the dial has no click
    Source: computed
    Checked: a job that puts down 1.5 times as much as six like ones before shows half as much again (computed)
    """
    asked = question_of(dial=dial, product=product, history=history, swath_m=swath_m, speed_m_s=speed_m_s)
    rows = asked.memory.read
    count = whole("walked", walked)
    if count > len(rows):
        raise out_of_range(name="walked", value=walked, low=1, high=len(rows))
    first = len(rows) - count
    begin = 0 if since is None else whole("since", since)
    before = _before(asked, begin, first)
    job = rows[first:]
    setting = _setting(job, asked.dial)
    after_rate = _at(asked.posterior, asked.dial, setting)
    change = None if before is None else _change(before, asked, first)
    before_rate = None if before is None or change is None else _at(before, asked.dial, setting)
    says = _says(change)
    value: dict[str, object] = {
        "dial": setting,
        "before": before_rate,
        "after": after_rate,
        "change_share": None if change is None else change.share,
        "band_before": None if before_rate is None else _width(before_rate),
        "band_after": _width(after_rate),
        "says": says,
        "reason": REASONS[says],
    }
    return value, learned_steps(asked) + _taught_steps(setting, before_rate, after_rate, change)


def _setting(job: list[Read], dial: Dial) -> float:
    """The usual setting of the passes learned from, else of those that have one, else the middle of the dial."""
    kept = [row.setting for row in job if row.why in KEPT]
    told = [row.setting for row in job if row.setting is not None]
    return _usual(kept or told or [setting_of(dial, (dial.clicks + 1) // 2)])


def _usual(settings: list[float]) -> float:
    """The setting most passes used; of two the later."""
    best, most = settings[-1], 0
    for setting in settings:
        count = 0
        for other in settings:
            count += 1 if other == setting else 0
        if count >= most:
            best, most = setting, count
    return best


def _walked(asked: Question, first: int) -> list[Pass]:
    """The job's own passes of the product that flowed and were not left out."""
    return [
        row.one
        for row in asked.memory.read[first:]
        if row.why in KEPT and not row.one.nothing and row.one.product == asked.product.id
    ]


def _before(asked: Question, begin: int, first: int) -> Posterior | None:
    """What was believed before the job; nothing where the product had not flowed yet.

    Where it had not flowed since the place asked about, all earlier passes are compared with.
    """
    for start in (begin, 0):
        passes = [row.one for row in asked.memory.read[start:first] if row.why in KEPT]
        if any(one.product == asked.product.id and not one.nothing for one in passes):
            return fit(passes=passes, product=asked.product, unlike=asked.memory.unlike)
    return None


def _change(before: Posterior, asked: Question, first: int) -> Change | None:
    """How far the job's passes lie from what was expected of them, the surer ones counting more."""
    own = _walked(asked, first)
    predictive = predictive_of(posterior=before, openings=[0.0] + [one.opening for one in own])
    weights = misses = doubts = 0.0
    for place, one in enumerate(own):
        mean, var = predictive.moments(place + 1)
        weight = 1.0 / (PASS_VAR + one.sd * one.sd)
        weights += weight
        misses += weight * (one.log_rate - mean)
        doubts += weight * (var - PASS_VAR)
    if not own:
        return None
    log = misses / weights
    return Change(math.exp(log) - 1.0, log, math.sqrt(1.0 / weights + doubts / weights), len(own))


def _says(change: Change | None) -> str:
    """In a word what the job taught."""
    if change is None:
        return "first"
    if abs(change.share) < LEAST_CHANGE or abs(change.log) < SURE_OF_CHANGE * change.sd:
        return "as_before"
    return "freer" if change.log > 0.0 else "tighter"


def _at(posterior: Posterior, dial: Dial, setting: float) -> dict[str, float]:
    """What a pass at a setting may put down [kg/m2]."""
    return rates(predictive_of(posterior=posterior, openings=[0.0, opening_of(dial, setting)]), 1)


def _width(rate: dict[str, float]) -> float | None:
    """High over low less 1; nothing where it may not flow at all."""
    return rate["high"] / rate["low"] - 1.0 if rate["low"] > 0.0 else None


def _taught_steps(
    setting: float, before: dict[str, float] | None, after: dict[str, float], change: Change | None
) -> list[dict[str, object]]:
    found: list[dict[str, object]] = [
        step(
            what="Usual setting of this job",
            formula="the setting most of its passes used; of two the later",
            numbers={"usual": setting},
            result=setting,
            unit="dial",
            source=DEFINITION,
        )
    ]
    for words, rate in (("before this job", before), ("after it", after)):
        if rate is not None:
            found.extend(_rate_steps(setting, words, rate))
    if change is not None:
        found.append(
            step(
                what="Change this job showed",
                formula="what its passes put down over what was expected of them, less 1; mean of the logarithms",
                numbers={"passes": change.passes, "log_mean": change.log, "log_sd": change.sd},
                result=change.share,
                unit="share",
                source=SOURCE,
            )
        )
    return found


def _rate_steps(setting: float, words: str, rate: dict[str, float]) -> list[dict[str, object]]:
    found = [
        step(
            what="Product at the setting " + words + ("" if name == "mid" else ", " + name),
            formula="level x (opening beyond the dead zone) to the power learned, over all curves",
            numbers={"dial": setting},
            result=rate[name],
            unit="kg/m2",
            source=SOURCE,
        )
        for name in ("mid", "low", "high")
    ]
    width = _width(rate)
    if width is not None:
        found.append(
            step(
                what="Width of the range " + words,
                formula="high over low, less 1",
                numbers={"low_kg_m2": rate["low"], "high_kg_m2": rate["high"]},
                result=width,
                unit="share",
                source=DEFINITION,
            )
        )
    return found
