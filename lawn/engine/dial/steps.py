"""The working beside what the dial's calls answer: enough steps to follow from past passes to the setting."""

import math

from lawn.engine.core.working import DEFINITION, step
from lawn.engine.dial.decision import expected_loss
from lawn.engine.dial.guardrails import Question
from lawn.engine.dial.likelihood import PASS_SD
from lawn.engine.dial.predictive import Predictive, chance_over, quantile
from lawn.engine.dial.scale import setting_of

SOURCE = "computed"
HALF_OPEN = 0.5
NAMED = {
    "unmeasured": "it used no more than the readings before and after it may be off",
    "unreadable": "a figure of it is missing or outside what is allowed",
}
MEAN = "mean over all curves that fit the past passes, each by its weight"


def learned_steps(asked: Question) -> list[dict[str, object]]:
    """What past passes taught: steepness, dead zone and level, each a mean over all curves by their weight."""
    exponent = closed = level = 0.0
    for curve in asked.posterior.curves:
        exponent += curve.weight * curve.exponent
        closed += curve.weight * curve.dead_zone
        level += curve.weight * (curve.base + curve.exponent * math.log(HALF_OPEN - curve.dead_zone))
    passes, curves = len(asked.memory.passes), len(asked.posterior.curves)
    return [
        step(
            what="Steepness of the dial, learned",
            formula="exponent of the opening beyond the dead zone: " + MEAN,
            numbers={"passes": passes, "curves": curves},
            result=exponent,
            unit="exponent",
            source=SOURCE,
        ),
        step(
            what="Dead zone of the dial, learned",
            formula="opening below which nothing flows, wider with coarse granules: " + MEAN,
            numbers={"passes": passes, "curves": curves, "granule_mm": asked.product.granule_mm},
            result=closed,
            unit="share of full travel",
            source=SOURCE,
        ),
        step(
            what="Level of this product half open, learned",
            formula="the spreader's level times the product's own factor: geometric " + MEAN,
            numbers={"passes": passes, "curves": curves, "bulk_density_kg_m3": asked.product.density_kg_m3},
            result=math.exp(level),
            unit="kg/m2",
            source=SOURCE,
        ),
    ] + [_left_out_step(row) for row in asked.memory.left_out if row["why"] in NAMED]


def _left_out_step(row: dict[str, object]) -> dict[str, object]:
    """A pass that cannot be learned from as it stands, and why; others are left out by the person or by age."""
    error = row.get("error")
    numbers: dict[str, object] = {"place_in_history": row["index"]}
    if isinstance(error, dict):
        numbers["field"] = error["name"]
    why = str(row["why"])
    return step(
        what="Pass left out of learning",
        formula=NAMED[why],
        numbers=numbers,
        result=why,
        unit="reason",
        source=DEFINITION,
    )


def rate_steps(asked: Question, click: int, rate: dict[str, float]) -> list[dict[str, object]]:
    """The rate a setting is expected to put down, and its range."""
    numbers: dict[str, object] = {
        "dial": setting_of(asked.dial, click),
        "opening": asked.predictive.openings[click],
        "pass_sd_share": PASS_SD,
    }
    formula = (
        "level x (opening beyond the dead zone) to the power learned, over all curves and one pass against the next"
    )
    parts = (("mid", "half of all passes put down less"), ("low", "5 % put down less"), ("high", "5 % put down more"))
    return [
        step(
            what="Product expected at the setting" if name == "mid" else "Product at the setting, " + name,
            formula=formula + "; " + words,
            numbers=numbers,
            result=rate[name],
            unit="kg/m2",
            source=SOURCE,
        )
        for name, words in parts
    ]


def share_step(passes: int) -> dict[str, object]:
    """The share of what there is that one of so many passes should put down."""
    return step(
        what="Share of this pass",
        formula="1 over the passes to go",
        numbers={"passes": passes},
        result=1.0 / passes,
        unit="share",
        source=DEFINITION,
    )


def passes_step(met: bool, advised: int) -> dict[str, object]:
    """How many passes are advised."""
    return step(
        what="Passes advised",
        formula="2 for a product this spreader has put down before, 3 the first time",
        numbers={"met": met},
        result=advised,
        unit="passes",
        source=SOURCE,
    )


def aim_step(load_kg_m2: float, passes: int, aim_kg_m2: float) -> dict[str, object]:
    """What one pass should put down per area."""
    return step(
        what="Target of this pass",
        formula="what should still go down per area, over the passes to go",
        numbers={"to_go_kg_m2": load_kg_m2, "passes": passes},
        result=aim_kg_m2,
        unit="kg/m2",
        source=DEFINITION,
    )


def dial_step(asked: Question, click: int, aim_kg_m2: float, mid_kg_m2: float, formula: str) -> dict[str, object]:
    """The setting itself, and by which rule."""
    return step(
        what="Setting",
        formula=formula,
        numbers={"aim_kg_m2": aim_kg_m2, "expected_kg_m2": mid_kg_m2, "click": click},
        result=setting_of(asked.dial, click),
        unit="dial",
        source=SOURCE,
    )


def likely_steps(asked: Question, clicks: tuple[int, int], aim_kg_m2: float) -> list[dict[str, object]]:
    """The settings between which the aim truly lies with a chance of 90 %."""
    words = ("Lowest setting likely to be right", "Highest setting likely to be right")
    formulas = ("5 % of the curves reach the target below it", "95 % of the curves reach the target at it or below")
    return [
        step(
            what=words[place],
            formula=formulas[place] + ", a pass's own ups and downs left out",
            numbers={"aim_kg_m2": aim_kg_m2},
            result=setting_of(asked.dial, clicks[place]),
            unit="dial",
            source=SOURCE,
        )
        for place in (0, 1)
    ]


def left_steps(
    what: str, load_kg: float, sd_kg: float, rate: dict[str, float], area_m2: float, left: dict[str, float]
) -> list[dict[str, object]]:
    """What is likely left over, with its range."""
    ends = {"mid": ("", "mid"), "low": (", low", "high"), "high": (", high", "low")}
    return [
        step(
            what=what + ends[name][0],
            formula="what there is less rate x area, never below 0"
            + ("" if name == "mid" else "; the errors of rate and of what there is added as squares"),
            numbers={"load_kg": load_kg, "load_sd_kg": sd_kg, "rate_kg_m2": rate[ends[name][1]], "area_m2": area_m2},
            result=left[name],
            unit="kg",
            source=SOURCE,
        )
        for name in ("mid", "low", "high")
    ]


def chance_step(load_kg_m2: float, mid_kg_m2: float, chance: float) -> dict[str, object]:
    """The chance that the hopper is empty before the ground is covered."""
    return step(
        what="Chance of running out",
        formula="share of all curves and passes that put down more per area than there is",
        numbers={"there_is_kg_m2": load_kg_m2, "expected_kg_m2": mid_kg_m2},
        result=chance,
        unit="share",
        source=SOURCE,
    )


def neighbour_steps(
    asked: Question, predictive: Predictive, click: int, load_kg_m2: float, last: bool
) -> list[dict[str, object]]:
    """What speaks for this click and not for the one below or above."""
    found: list[dict[str, object]] = []
    for other in (click - 1, click, click + 1):
        if click == 0 or other < 1 or other > predictive.clicks:
            continue
        found.append(
            _loss_step(asked, predictive, other, load_kg_m2)
            if last
            else _empty_step(asked, predictive, other, load_kg_m2)
        )
    return found


def _loss_step(asked: Question, predictive: Predictive, click: int, load_kg_m2: float) -> dict[str, object]:
    return step(
        what="Expected loss at a setting",
        formula="mean of what would be missing, or of 2 x there is x (1 - there is / rate) where it runs out",
        numbers={"dial": setting_of(asked.dial, click), "there_is_kg_m2": load_kg_m2},
        result=expected_loss(predictive=predictive, click=click, left_kg_m2=load_kg_m2),
        unit="kg/m2",
        source=SOURCE,
    )


def _empty_step(asked: Question, predictive: Predictive, click: int, load_kg_m2: float) -> dict[str, object]:
    expected = quantile(predictive=predictive, click=click, chance=0.5)
    return step(
        what="Chance of emptying everything at a setting",
        formula="share of all curves and passes that put down more than there is",
        numbers={"dial": setting_of(asked.dial, click), "there_is_kg_m2": load_kg_m2, "expected_kg_m2": expected},
        result=chance_over(predictive=predictive, click=click, rate_kg_m2=load_kg_m2),
        unit="share",
        source=SOURCE,
    )


def suspect_steps(asked: Question) -> list[dict[str, object]]:
    """The most suspect of the past passes, if any was weighed against the others."""
    worst = -1.0
    index = -1
    for place, chance in asked.posterior.bad_chances:
        if chance > worst:
            index, worst = place, chance
    if worst <= 0.0:
        return []
    return [
        step(
            what="Chance that the most suspect pass was clogged or damp",
            formula="weight of all curves with this pass taken as bad, over the weight of all",
            numbers={"place_in_history": index},
            result=worst,
            unit="share",
            source=SOURCE,
        )
    ]


def further_step(over_share: float, most_share: float) -> dict[str, object]:
    """What is likely missing after the last pass, which may call for a further one."""
    return step(
        what="Missing after the last pass",
        formula="what should still go down less what is expected to, over the whole target; 0 while passes follow",
        numbers={"further_pass_from_share": most_share},
        result=over_share,
        unit="share",
        source=SOURCE,
    )
