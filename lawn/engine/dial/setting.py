"""The dial: where to start, and where to go on from what is left in the hopper."""

from collections import namedtuple

from lawn.engine.core.numeric import at_least, number, optional_number, whole
from lawn.engine.dial.amounts import (
    LEAST_PASS_KG_M2,
    ground_left,
    held_back,
    most_of_pass,
    out_of,
    out_steps,
    passes_metered,
)
from lawn.engine.dial.decision import MOST_CHANCE_EMPTY, last_pass_click, share_click, start_click
from lawn.engine.dial.guardrails import (
    REASONS,
    Decision,
    Question,
    chance_empty,
    guard,
    left_after,
    likely_clicks,
    likely_settings,
    question_of,
    rates,
)
from lawn.engine.dial.predictive import Predictive, last_click_within, predictive_of
from lawn.engine.dial.scale import setting_of
from lawn.engine.dial.steps import (
    aim_step,
    chance_step,
    dial_step,
    further_step,
    learned_steps,
    left_steps,
    likely_steps,
    neighbour_steps,
    passes_step,
    rate_steps,
    share_step,
    suspect_steps,
)

FIRST_MEETING_PASSES = 3  # source: computed (the design's simulation), as the next one
KNOWN_PASSES = 2
BAD_FROM = 0.5  # a pass more likely bad than not is named as bad
FURTHER_FROM = 0.15  # of the aim missing after the last pass calls for one more
SHARE_RULE = "click expected nearest to the target, but none whose chance of emptying everything is above 5 %"
MOVED = {
    "empty": "none: nothing is left",
    "enough": "none: the ground has had all it should get",
    "by_hand": "none: below 0.5 lb per 1,000 ft2 a pass, or a tenth of the target, no setting puts down evenly",
    "blocked": "none: nothing came fully open",
    "stop": "none: even the first click that flows is expected to put down more than there should be",
    "beyond_nothing": "one click beyond the highest at which nothing came, whatever its chance of emptying",
    "first": "lowest click at which something is likelier to flow than not, whatever its chance of emptying",
    "within": "highest click that is not expected to put down more than there should be",
}
LOWEST_RULE = "lowest click of the dial: there is none with a smaller chance of emptying"
LAST_RULE = "click of the least expected loss; of two alike the lower"
OTHER_RULE = (
    "highest click that puts down more than its share with a chance of 25 % at most: other material, not yet met"
)
OTHER_CHANCE = 0.25  # source: computed; of putting down more than its share with a material not yet met
AHEAD_RULE = "of the clicks round the nearest one, that after which the last pass is expected to end best"

# What is to go down per area; the whole aim; what there is, its likely error; the ground; passes it has to last for.
# Last: what that ground lacks, whatever there is, and what is down on it, where that was told.
Load = namedtuple(
    "Load", ("kg_m2", "label_kg_m2", "there_kg", "sd_kg", "ground_m2", "passes", "missing_kg_m2", "down_kg_m2")
)


def start(
    *,
    dial: dict[str, object],
    product: dict[str, object],
    target_kg_m2: float,
    area_m2: float,
    history: list[object],
    passes: int | None = None,
    swath_m: float | None = None,
    speed_m_s: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """First setting of an application, and in how many passes to walk it.

    Args:
        dial: the spreader's dial [group of values]
        dial.lowest: number when closed [dial; -1000 to 1000]
        dial.highest: number when fully open [dial; -1000 to 1000]
        dial.step: one click [dial; 0.01 to 100]
        product: what is spread [group of values]
        product.id: the product [text]
        product.sort?: fertilizer, pre_emergent, post_emergent, lime, seed or other. Seed and lime are other materials:
            what fertilizer taught says little of them, and until one is met its start is lower [text]
        product.bulk_density_kg_m3?: mass of the loose product per volume [kg/m3; 100 to 2500]
        product.granules?: fine, medium or coarse [text]
        target_kg_m2: product per area, all passes together [kg/m2; 0.000001 to 50]
        area_m2: ground to cover [m2; 0.5 to 100000]
        history: past passes with this spreader, oldest first, up to 400; the last 30 are learned from, but so that each
            product keeps its latest [list]
        history.product: the product of that pass [text]
        history.sort?: its sort, as product.sort [text]
        history.dial: its setting [dial; -1000 to 1000]
        history.area_m2: ground it covered [m2; 0.5 to 100000]
        history.used_kg: product it put down [kg; 0 to 5000]
        history.measured: scale, level or handfuls [one of scale, level, handfuls]
        history.left_kg?: what was left after it; says how far off a level or handfuls may be [kg; 0 to 20000]
        history.before_left_kg?: what the reading at its start said there was, where that was a reading: after the pass
            before, or at a check; its error is this pass's too [kg; 0 to 20000]
        history.before_measured?: how that was read: scale, level or handfuls [one of scale, level, handfuls]
        history.ran_out?: the hopper ran empty; area_m2 is then the ground really covered [true or false]
        history.nothing_came?: nothing came out at this setting; nothing else says so [true or false]
        history.bad?: not to be learned from [true or false]
        history.damp?: the product was damp; not learned from either [true or false]
        history.bulk_density_kg_m3?: of that product then [kg/m3; 100 to 2500]
        history.granules?: of that product then [text]
        history.swath_m?: distance between tracks then [m; 0.2 to 20]
        history.speed_m_s?: walking speed then [m/s; 0.3 to 3]
        passes?: passes to walk; as advised when not said [passes; 1 to 20]
        swath_m?: distance between tracks of this job [m; 0.2 to 20]
        speed_m_s?: walking speed of this job [m/s; 0.3 to 3]
    Returns:
        dial: setting to start at, a whole click [dial]
        passes_advised: 3 where this spreader has not met this product, else 2; fewer where each would be too little to
            meter, below 0.5 lb per 1,000 ft2 [passes]
        passes: passes it is worked out for: as asked, but no more than can be metered [passes]
        share: share of the aim this pass should put down [share]
        aim_kg_m2: what this pass should put down per area [kg/m2]
        rate_kg_m2: low, mid and high of what the setting may put down; 90 % lie between low and high [kg/m2; low, mid
            and high]
        dial_likely: low and high of the settings at which the aim may truly lie, with a chance of 90 % [dial; low and
            high]
        left_kg: low, mid and high of what will be left of the whole load; 90 % lie between low and high [kg; low, mid
            and high]
        chance_of_running_out: that the whole load ends before the ground does [share]
        basis: same_product, other_product or nothing_known [one of same_product, other_product, nothing_known]
        left_out: past passes not learned from; unmeasured: it used no more than its readings may be off [list]
        left_out.index: its place in the history, from 0 [place]
        left_out.why: why it was left out [one of bad, damp, off_dial, too_old, unmeasured, unreadable]
        left_out.error?: what could not be read of it, where that is why [refusal]
        advice: walk; stop where even the first click that flows would put down too much; blocked where nothing came
            fully open. Without walk the dial stays closed [one of walk, stop, blocked, by_hand]
        reason: why this setting, in a sentence [text]
    Raises:
        out_of_range: an argument is outside its range
        impossible: the dial has no click
    Source: computed
    Checked: with nothing known 3 kg per 100 m2 in three passes start within a click of one-third of 24 (onethird)
    """
    asked = question_of(dial=dial, product=product, history=history, swath_m=swath_m, speed_m_s=speed_m_s)
    load_kg_m2 = number("target_kg_m2", target_kg_m2)
    ground_m2 = number("area_m2", area_m2)
    usual = KNOWN_PASSES if asked.memory.met else FIRST_MEETING_PASSES
    advised = passes_metered(load_kg_m2, usual)
    count = advised if passes is None else passes_metered(load_kg_m2, whole("passes", passes))
    wanted = start_click(predictive=asked.predictive, load_kg_m2=load_kg_m2, passes=count)
    plain = wanted if count != 2 else share_click(predictive=asked.predictive, load_kg_m2=load_kg_m2, passes_to_go=2)
    rule = LAST_RULE if count == 1 else (SHARE_RULE if wanted == plain else AHEAD_RULE)
    why = "last" if count == 1 else (asked.memory.basis if wanted == plain else "ahead")
    low = _low_start(asked, load_kg_m2 / count)
    if low is not None and low < wanted:
        wanted, why, rule = low, "other_material", OTHER_RULE
    load = Load(load_kg_m2, load_kg_m2, load_kg_m2 * ground_m2, 0.0, ground_m2, count, load_kg_m2, None)
    answer, working = _answer(asked, asked.predictive, load, wanted, why, rule)
    answer["passes_advised"] = advised
    answer["passes"] = count
    return answer, [passes_step(asked.memory.met, advised)] + working


def next_pass(
    *,
    dial: dict[str, object],
    product: dict[str, object],
    target_kg_m2: float,
    area_m2: float,
    history: list[object],
    left_kg: float,
    passes_to_go: int,
    left_sd_kg: float | None = None,
    missing_kg_m2: float | None = None,
    used_kg: float | None = None,
    out: list[object] | None = None,
    passes: int | None = None,
    swath_m: float | None = None,
    speed_m_s: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Setting of the next pass, from what is left; the pass just walked belongs to the history.

    Args:
        dial: the spreader's dial, as for spreading.start [group of values as spreading.start]
        product: what is spread, as for spreading.start [group of values as spreading.start]
        target_kg_m2: product per area, all passes together; no pass is set to put down more [kg/m2; 0.000001 to 50]
        area_m2: ground each pass covers [m2; 0.5 to 100000]
        history: past passes with this spreader, oldest first, as for spreading.start [list as spreading.start]
        left_kg: product left for the passes still to walk [kg; 0 to 20000]
        passes_to_go: passes still to walk, this one included [passes; 1 to 20]
        left_sd_kg?: likely error of what is left [kg; 0 to 20000]
        missing_kg_m2?: what the ground still lacks per area; all that is left when not said [kg/m2; 0 to 50]
        used_kg?: put down so far by this application; what is in hand beyond what the ground lacks stays there [kg; 0
            to 5000]
        out?: stretches that get no more, such as scorched strips, up to 800; they are taken out of area_m2 [list]
        out.area_m2: ground of the stretch [m2; 0 to 100000]
        out.used_kg: what of used_kg lies on it [kg; 0 to 5000]
        passes?: passes of the whole application; not used in the sum [passes; 1 to 20]
        swath_m?: distance between tracks of this job [m; 0.2 to 20]
        speed_m_s?: walking speed of this job [m/s; 0.3 to 3]
    Returns:
        dial: setting of the next pass, a whole click [dial]
        share: share of what is left that this pass should put down [share]
        aim_kg_m2: what this pass should put down per area [kg/m2]
        rate_kg_m2: low, mid and high of what the setting may put down; 90 % lie between low and high [kg/m2; low, mid
            and high]
        dial_likely: low and high of the settings at which the aim may truly lie, with a chance of 90 % [dial; low and
            high]
        left_kg: low, mid and high of what will be left after it; 90 % lie between low and high [kg; low, mid and high]
        chance_of_running_out: that what is left ends before the ground does [share]
        bad_passes: places in the history of the passes marked bad, or more likely bad than not [list of numbers]
        bad_chances: every pass that was learned from and flowed [list]
        bad_chances.index: its place in the history, from 0 [place]
        bad_chances.chance: chance of having been bad [share]
        basis: same_product, other_product or nothing_known [one of same_product, other_product, nothing_known]
        left_out: past passes not learned from; unmeasured: it used no more than its readings may be off [list]
        left_out.index: its place in the history, from 0 [place]
        left_out.why: why it was left out [one of bad, damp, off_dial, too_old, unmeasured, unreadable]
        left_out.error?: what could not be read of it, where that is why [refusal]
        advice: walk; stop where even the first click that flows would put down too much; blocked where nothing came
            fully open. Without walk the dial stays closed [one of walk, stop, blocked, by_hand]
        reason: why this setting, in a sentence [text]
        further_pass: this is the last pass, and more than 15 % of the aim, and enough to meter, is likely to be missing
            after it, so that one more is advised [true or false]
    Raises:
        out_of_range: an argument is outside its range
        impossible: the dial has no click
    Source: computed
    Checked: the click of least loss in the worked examples of the reference's dial model (computed)
    """
    asked = question_of(dial=dial, product=product, history=history, swath_m=swath_m, speed_m_s=speed_m_s)
    most_kg_m2 = number("target_kg_m2", target_kg_m2)
    if passes is not None:
        whole("passes", passes)
    ground_m2 = number("area_m2", area_m2)
    there_kg = number("left_kg", left_kg)
    sd_kg = optional_number("left_sd_kg", left_sd_kg) or 0.0
    to_go = whole("passes_to_go", passes_to_go)
    down_kg, left_out = optional_number("used_kg", used_kg), out_of(out)
    ground = ground_left(
        area_m2=ground_m2,
        aim_kg_m2=most_kg_m2,
        missing_kg_m2=optional_number("missing_kg_m2", missing_kg_m2),
        used_kg=down_kg,
        out=left_out,
    )
    apart = out_steps(area_m2=ground_m2, used_kg=down_kg, out=left_out)
    ground_m2 = ground.m2 or ground_m2
    load_kg_m2 = min(there_kg / ground_m2, ground.missing_kg_m2)
    to_go = passes_metered(load_kg_m2, to_go)
    down_kg_m2 = ground.down_kg_m2
    load = Load(load_kg_m2, most_kg_m2, there_kg, sd_kg, ground_m2, to_go, ground.missing_kg_m2, down_kg_m2)
    predictive = _doubted(asked, load)
    last = to_go == 1
    wanted = 0
    if load_kg_m2 > 0.0 and last:
        wanted = last_pass_click(predictive=predictive, left_kg_m2=load_kg_m2)
    elif load_kg_m2 > 0.0:
        wanted = share_click(predictive=predictive, load_kg_m2=load_kg_m2, passes_to_go=to_go)
    why, rule = ("last", LAST_RULE) if last else (asked.memory.basis, SHARE_RULE)
    answer, working = _answer(asked, predictive, load, wanted, why, rule)
    answer["bad_passes"] = _bad(asked)
    answer["bad_chances"] = [{"index": index, "chance": chance} for index, chance in asked.posterior.bad_chances]
    over = _over(answer, load) if last else 0.0
    metered = over * most_kg_m2 > LEAST_PASS_KG_M2
    answer["further_pass"] = answer["advice"] == "walk" and over > FURTHER_FROM and metered
    return answer, apart + working + suspect_steps(asked) + [further_step(over, FURTHER_FROM)]


def _low_start(asked: Question, share_kg_m2: float) -> int | None:
    """The click to start seed or lime at while this spreader has met none of it; nothing for anything else."""
    if asked.memory.met or not asked.memory.other_material:
        return None
    return max(1, last_click_within(predictive=asked.predictive, rate_kg_m2=share_kg_m2, chance=OTHER_CHANCE))


def _doubted(asked: Question, load: Load) -> Predictive:
    """The predictive with the error of what there is in it."""
    predictive: Predictive = asked.predictive
    if load.sd_kg <= 0.0 or load.there_kg <= 0.0:
        return predictive
    return predictive_of(
        posterior=asked.posterior, openings=asked.predictive.openings, load_relative_sd=load.sd_kg / load.there_kg
    )


def _over(answer: dict[str, object], load: Load) -> float:
    """What the ground is likely to lack after this pass though there is enough, over the whole aim [share]."""
    rate = answer["rate_kg_m2"]
    mid: float = rate["mid"] if isinstance(rate, dict) else 0.0
    share: float = max(0.0, load.kg_m2 - mid) / load.label_kg_m2
    return share


def _bad(asked: Question) -> list[int]:
    """Places of the passes marked as bad or more likely bad than not, in order."""
    suspected = [index for index, chance in asked.posterior.bad_chances if chance > BAD_FROM]
    return sorted(asked.memory.bad + suspected)


def _rule(wanted: str, decision: Decision, chance: float) -> str:
    """The rule that decided: the one the click was looked for by, or what moved it from there."""
    if decision.why in MOVED:
        return MOVED[decision.why]
    return LOWEST_RULE if "5 %" in wanted and chance > MOST_CHANCE_EMPTY else wanted


def _answer(
    asked: Question, predictive: Predictive, load: Load, wanted: int, why: str, rule: str
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """What start and next have in common: the click decision on, and what is likely to come of it."""
    there_kg_m2 = load.there_kg / load.ground_m2
    decision = guard(
        asked=asked,
        predictive=asked.predictive,
        wanted=wanted,
        load_kg_m2=load.kg_m2,
        most_kg_m2=most_of_pass(
            load_kg_m2=load.kg_m2,
            aim_kg_m2=load.label_kg_m2,
            down_kg_m2=load.down_kg_m2,
            surplus=load.down_kg_m2 is not None and not at_least(load.missing_kg_m2, there_kg_m2),
            last=load.passes == 1,
        ),
        why=why,
        held=held_back(load_kg_m2=load.kg_m2, aim_kg_m2=load.label_kg_m2, there_kg=load.there_kg, passes=load.passes),
    )
    click = decision.click
    aim_kg_m2 = load.kg_m2 / load.passes
    rate = rates(asked.predictive, click)
    chance = chance_empty(predictive, click, there_kg_m2)
    left = left_after(load.there_kg, load.sd_kg, rate, load.ground_m2)
    likely = likely_clicks(asked.predictive, click, aim_kg_m2)
    value: dict[str, object] = {
        "dial": setting_of(asked.dial, click),
        "share": 1.0 / load.passes,
        "aim_kg_m2": aim_kg_m2,
        "rate_kg_m2": rate,
        "dial_likely": likely_settings(asked.dial, likely),
        "left_kg": left,
        "chance_of_running_out": chance,
        "basis": asked.memory.basis,
        "left_out": asked.memory.left_out,
        "advice": decision.advice,
        "reason": REASONS[decision.why],
    }
    working = [share_step(load.passes), aim_step(load.kg_m2, load.passes, aim_kg_m2)]
    working.extend(learned_steps(asked))
    working.append(dial_step(asked, click, aim_kg_m2, rate["mid"], _rule(rule, decision, chance)))
    working.extend(rate_steps(asked, click, rate))
    working.extend(likely_steps(asked, likely, aim_kg_m2))
    working.extend(neighbour_steps(asked, predictive, click, load.kg_m2, load.passes == 1))
    working.extend(left_steps("Left after this pass", load.there_kg, load.sd_kg, rate, load.ground_m2, left))
    working.append(chance_step(there_kg_m2, rate["mid"], chance))
    return value, working
