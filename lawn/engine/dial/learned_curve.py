"""The learned curve: what every setting is expected to put down, with its band and the past passes as points."""

import math

from lawn.engine.core.working import DEFINITION, step
from lawn.engine.dial.guardrails import Question, question_of, rates
from lawn.engine.dial.history import Read
from lawn.engine.dial.posterior import densities
from lawn.engine.dial.scale import Dial, setting_of
from lawn.engine.dial.steps import SOURCE, learned_steps, rate_steps

MOST_POINTS = 60


def curve(
    *,
    dial: dict[str, object],
    product: dict[str, object],
    history: list[object],
    swath_m: float | None = None,
    speed_m_s: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """What every setting of the dial is expected to put down, with the past passes as points.

    Args:
        dial: the spreader's dial, as for spreading.start [group of values as spreading.start]
        product: what is spread, as for spreading.start [group of values as spreading.start]
        history: past passes with this spreader, oldest first, as for spreading.start [list as spreading.start]
        swath_m?: distance between tracks to show it for [m; 0.2 to 20]
        speed_m_s?: walking speed to show it for [m/s; 0.3 to 3]
    Returns:
        points: for every click, or about 60 of them, what it puts down [list]
        points.dial: the click [dial]
        points.rate_kg_m2: low, mid and high of its rate; 90 % of passes lie between low and high [kg/m2; low, mid and
            high]
        past: every pass of the history [list]
        past.index: its place in the history, from 0 [place]
        past.dial: its setting; null where the pass cannot be read [dial or null]
        past.rate_kg_m2: what it put down, brought to this swath, speed and bulk density; null where no rate can be
            taken from it [kg/m2 or null]
        past.measured_kg_m2: the same as measured then; null where the pass cannot be read [kg/m2 or null]
        past.same_product: whether it was of this product [true or false]
        past.bad_chance: chance of having been bad; null where not weighed [share or null]
        past.left_out: why it was not learned from; null where it was [one of bad, damp, off_dial, too_old, unmeasured,
            unreadable or null]
        passes_used: passes learned from [passes]
        band_share: high over low less 1, its median over the clicks that surely flow; smaller is surer [share]
        within_share: how far up the band reaches from its middle, which is as far down as a factor [share]
    Raises:
        out_of_range: an argument is outside its range
        impossible: the dial has no click
    Source: computed
    Checked: medians of the worked examples of the reference's dial model (computed)
    """
    asked = question_of(dial=dial, product=product, history=history, swath_m=swath_m, speed_m_s=speed_m_s)
    points = _rising([(click, rates(asked.predictive, click)) for click in _shown(asked.dial)])
    band_share, flowing = _band([rate for _, rate in points])
    within_share = math.sqrt(1.0 + band_share) - 1.0
    used = len(asked.memory.passes)
    value: dict[str, object] = {
        "points": [{"dial": setting_of(asked.dial, click), "rate_kg_m2": rate} for click, rate in points],
        "past": _past(asked),
        "passes_used": used,
        "band_share": band_share,
        "within_share": within_share,
    }
    middle = points[len(points) // 2]
    return value, learned_steps(asked) + rate_steps(asked, middle[0], middle[1]) + [
        step(
            what="Passes used",
            formula="the last 30 passes, so that each product keeps its latest, less those left out",
            numbers={"passes": len(asked.memory.read), "left_out": len(asked.memory.left_out)},
            result=used,
            unit="passes",
            source=SOURCE,
        ),
        step(
            what="Width of the band",
            formula="high over low less 1, median over the settings at which something surely flows",
            numbers={"settings": flowing},
            result=band_share,
            unit="share",
            source=DEFINITION,
        ),
        step(
            what="How far a pass may lie from the line",
            formula="square root of 1 and the width, less 1: the middle lies as many times over low as under high",
            numbers={"band_share": band_share},
            result=within_share,
            unit="share",
            source=DEFINITION,
        ),
    ]


def _shown(dial: Dial) -> list[int]:
    """Every click that opens, or 60 of them evenly chosen, the last among them."""
    if dial.clicks <= MOST_POINTS:
        return list(range(1, dial.clicks + 1))
    return [1 + (dial.clicks - 1) * place // (MOST_POINTS - 1) for place in range(MOST_POINTS)]


def _rising(points: list[tuple[int, dict[str, float]]]) -> list[tuple[int, dict[str, float]]]:
    """The points with no rate below one of a narrower opening: joining curves for speed may bend them by 0.3 %."""
    found: list[tuple[int, dict[str, float]]] = []
    most = {"low": 0.0, "mid": 0.0, "high": 0.0}
    for click, rate in points:
        most = {name: max(most[name], rate[name]) for name in ("low", "mid", "high")}
        found.append((click, most))
    return found


def _band(found: list[dict[str, float]]) -> tuple[float, int]:
    """Median of high over low, less 1, over the settings that surely flow; and how many those are.

    Where a gate just opens, low comes close to 0 and the ratio grows without bound: a mean would tell of that one
    setting, which nobody uses, and would jump with it.
    """
    logs = sorted([math.log(rate["high"] / rate["low"]) for rate in found if rate["low"] > 0.0])
    flowing = len(logs)
    if not flowing:
        return 0.0, 0
    middle = 0.5 * (logs[(flowing - 1) // 2] + logs[flowing // 2])
    return math.exp(middle) - 1.0, flowing


def _past(asked: Question) -> list[dict[str, object]]:
    """Every past pass as a point: its rate at today's swath, speed and bulk density."""
    chances = dict(asked.posterior.bad_chances)
    density = densities(asked.memory.passes, asked.product)
    own = density.get(asked.product.id)
    points: list[dict[str, object]] = []
    for row in asked.memory.read:
        one = row.one
        other = one.density_kg_m3 or density.get(one.product)
        scale = own / other if own and other and one.product != asked.product.id else 1.0
        points.append(
            {
                "index": one.index,
                "dial": row.setting,
                "rate_kg_m2": _shown_kg_m2(row, scale),
                "measured_kg_m2": row.measured_kg_m2,
                "same_product": one.product == asked.product.id,
                "bad_chance": chances.get(one.index),
                "left_out": row.why or None,
            }
        )
    return points


def _shown_kg_m2(row: Read, scale: float) -> float | None:
    """Rate of a past pass at today's swath, speed and bulk density; nothing where it has none [kg/m2]."""
    if row.why in ("unreadable", "unmeasured"):
        return None
    return 0.0 if row.one.nothing else math.exp(row.one.log_rate) * scale
