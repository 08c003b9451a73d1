"""The dial: where to start, and where to go on from what is left in the hopper."""

from collections import namedtuple

from lawn.engine.choosing import last_pass_click, share_click, start_click
from lawn.engine.dial import setting_of
from lawn.engine.dial_steps import (
    aim_step,
    chance_step,
    dial_step,
    further_step,
    learnt_steps,
    left_steps,
    likely_steps,
    neighbour_steps,
    passes_step,
    rate_steps,
    share_step,
    suspect_steps,
)
from lawn.engine.numeric import number, optional_number, whole
from lawn.engine.outlook import Outlook, outlook_of
from lawn.engine.settling import (
    REASONS,
    Question,
    chance_empty,
    left_after,
    likely_clicks,
    likely_settings,
    question_of,
    rates,
    settle,
)

FIRST_MEETING_PASSES = 3  # source: computed (the design's simulation), as the next one
KNOWN_PASSES = 2
BAD_FROM = 0.5  # a pass more likely bad than not is named as bad
FURTHER_FROM = 0.15  # of the aim missing after the last pass calls for one more
SHARE_RULE = "click expected nearest to the aim, but none whose chance of emptying everything is above 5 %"
LAST_RULE = "click of the least expected loss; of two alike the lower"
AHEAD_RULE = "of the clicks round the nearest one, that after which the last pass is expected to end best"

# What is to go down per area; the whole aim; what there is, its likely error; the ground; passes it has to last for.
Load = namedtuple("Load", ("kg_m2", "label_kg_m2", "there_kg", "sd_kg", "ground_m2", "passes"))


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
        product.bulk_density_kg_m3?: mass of the loose product per volume [kg/m3; 100 to 2500]
        product.granules?: fine, medium or coarse [text]
        target_kg_m2: product per area, all passes together [kg/m2; 0.000001 to 50]
        area_m2: ground to cover [m2; 0.5 to 100000]
        history: past passes with this spreader, oldest first, up to 400; the last 30 are learnt from, but so that
            each product keeps its latest [list]
        history.product: the product of that pass [text]
        history.dial: its setting [dial; -1000 to 1000]
        history.area_m2: ground it covered [m2; 0.5 to 100000]
        history.used_kg: product it put down [kg; 0 to 5000]
        history.measured: scale, level or handfuls [text]
        history.left_kg?: what was left after it; says how far off a level or handfuls may be [kg; 0 to 20000]
        history.before_left_kg?: what the reading at its start said there was, where that was a reading: after the pass
            before, or at a check; its error is this pass's too [kg; 0 to 20000]
        history.before_measured?: how that was read: scale, level or handfuls [text]
        history.ran_out?: the hopper ran empty; area_m2 is then the ground really covered [true or false]
        history.nothing_came?: nothing came out at this setting; nothing else says so [true or false]
        history.bad?: not to be learnt from [true or false]
        history.damp?: the product was damp; not learnt from either [true or false]
        history.bulk_density_kg_m3?: of that product then [kg/m3; 100 to 2500]
        history.granules?: of that product then [text]
        history.swath_m?: distance between tracks then [m; 0.2 to 20]
        history.speed_m_s?: walking speed then [m/s; 0.3 to 3]
        passes?: passes to walk; as advised when not said [passes; 1 to 20]
        swath_m?: distance between tracks of this walk [m; 0.2 to 20]
        speed_m_s?: walking speed of this walk [m/s; 0.3 to 3]
    Returns:
        dial: setting to start at, a whole click [dial]
        passes_advised: 3 where this spreader has not met this product, else 2 [passes]
        share: share of the aim this pass should put down [share]
        aim_kg_m2: what this pass should put down per area [kg/m2]
        rate_kg_m2: low, mid and high of what the setting may put down; 90 % lie between low and high [kg/m2]
        dial_likely: low and high of the settings at which the aim may truly lie, with a chance of 90 % [dial]
        left_kg: low, mid and high of what will be left of the whole load; 90 % lie between low and high [kg]
        chance_of_running_out: that the whole load ends before the ground does [share]
        basis: same_product, other_product or nothing_known [text]
        left_out: past passes not learnt from, with why: bad, damp, off_dial, too_old, unmeasured (it used no more than
            its readings may be off) or unreadable (with its error) [list]
        advice: walk; stop where even the first click that flows would put down too much; blocked where nothing
            came fully open. Without walk the dial stays closed [text]
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
    advised = KNOWN_PASSES if asked.memory.met else FIRST_MEETING_PASSES
    count = advised if passes is None else whole("passes", passes)
    wanted = start_click(outlook=asked.outlook, load_kg_m2=load_kg_m2, passes=count)
    plain = wanted if count != 2 else share_click(outlook=asked.outlook, load_kg_m2=load_kg_m2, passes_to_go=2)
    rule = LAST_RULE if count == 1 else (SHARE_RULE if wanted == plain else AHEAD_RULE)
    why = "last" if count == 1 else (asked.memory.basis if wanted == plain else "ahead")
    load = Load(load_kg_m2, load_kg_m2, load_kg_m2 * ground_m2, 0.0, ground_m2, count)
    answer, working = _answer(asked, asked.outlook, load, wanted, why, rule)
    answer["passes_advised"] = advised
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
    passes: int | None = None,
    swath_m: float | None = None,
    speed_m_s: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Setting of the next pass, from what is left; the pass just walked belongs to the history.

    Args:
        dial: the spreader's dial, as for spreading.start [group of values]
        product: what is spread, as for spreading.start [group of values]
        target_kg_m2: product per area, all passes together; no pass is set to put down more [kg/m2; 0.000001 to 50]
        area_m2: ground each pass covers [m2; 0.5 to 100000]
        history: past passes with this spreader, oldest first, as for spreading.start [list]
        left_kg: product left for the passes still to walk [kg; 0 to 20000]
        passes_to_go: passes still to walk, this one included [passes; 1 to 20]
        left_sd_kg?: likely error of what is left [kg; 0 to 20000]
        missing_kg_m2?: what the ground still lacks per area; all that is left when not said [kg/m2; 0 to 50]
        passes?: passes of the whole application; not used in the sum [passes; 1 to 20]
        swath_m?: distance between tracks of this walk [m; 0.2 to 20]
        speed_m_s?: walking speed of this walk [m/s; 0.3 to 3]
    Returns:
        dial: setting of the next pass, a whole click [dial]
        share: share of what is left that this pass should put down [share]
        aim_kg_m2: what this pass should put down per area [kg/m2]
        rate_kg_m2: low, mid and high of what the setting may put down; 90 % lie between low and high [kg/m2]
        dial_likely: low and high of the settings at which the aim may truly lie, with a chance of 90 % [dial]
        left_kg: low, mid and high of what will be left after it; 90 % lie between low and high [kg]
        chance_of_running_out: that what is left ends before the ground does [share]
        bad_passes: places in the history of the passes marked bad, or more likely bad than not [list]
        bad_chances: index and chance of having been bad, of every pass that was learnt from and flowed [list]
        basis: same_product, other_product or nothing_known [text]
        left_out: past passes not learnt from, with why: bad, damp, off_dial, too_old, unmeasured (it used no more than
            its readings may be off) or unreadable (with its error) [list]
        advice: walk; stop where even the first click that flows would put down too much; blocked where nothing
            came fully open. Without walk the dial stays closed [text]
        reason: why this setting, in a sentence [text]
        further_pass: this is the last pass, and more than 15 % of the aim is likely to be missing after it, so that
            one more is advised [true or false]
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
    missing = optional_number("missing_kg_m2", missing_kg_m2)
    load_kg_m2 = min(there_kg / ground_m2, most_kg_m2 if missing is None else min(missing, most_kg_m2))
    load = Load(load_kg_m2, most_kg_m2, there_kg, sd_kg, ground_m2, to_go)
    outlook = _doubted(asked, load)
    last = to_go == 1
    wanted = 0
    if load_kg_m2 > 0.0 and last:
        wanted = last_pass_click(outlook=outlook, left_kg_m2=load_kg_m2)
    elif load_kg_m2 > 0.0:
        wanted = share_click(outlook=outlook, load_kg_m2=load_kg_m2, passes_to_go=to_go)
    why, rule = ("last", LAST_RULE) if last else (asked.memory.basis, SHARE_RULE)
    answer, working = _answer(asked, outlook, load, wanted, why, rule)
    answer["bad_passes"] = _bad(asked)
    answer["bad_chances"] = [{"index": index, "chance": chance} for index, chance in asked.belief.bad_chances]
    over = _over(answer, load) if last else 0.0
    answer["further_pass"] = answer["advice"] == "walk" and over > FURTHER_FROM
    return answer, working + suspect_steps(asked) + [further_step(over, FURTHER_FROM)]


def _doubted(asked: Question, load: Load) -> Outlook:
    """The outlook with the error of what there is in it."""
    outlook: Outlook = asked.outlook
    if load.sd_kg <= 0.0 or load.there_kg <= 0.0:
        return outlook
    return outlook_of(belief=asked.belief, openings=asked.outlook.openings, load_relative_sd=load.sd_kg / load.there_kg)


def _over(answer: dict[str, object], load: Load) -> float:
    """What the ground is likely to lack after this pass though there is enough, over the whole aim [share]."""
    rate = answer["rate_kg_m2"]
    mid: float = rate["mid"] if isinstance(rate, dict) else 0.0
    share: float = max(0.0, load.kg_m2 - mid) / load.label_kg_m2
    return share


def _bad(asked: Question) -> list[int]:
    """Places of the passes marked as bad or more likely bad than not, in order."""
    suspected = [index for index, chance in asked.belief.bad_chances if chance > BAD_FROM]
    return sorted(asked.memory.bad + suspected)


def _answer(
    asked: Question, outlook: Outlook, load: Load, wanted: int, why: str, rule: str
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """What start and next have in common: the click settled on, and what is likely to come of it."""
    settled = settle(
        asked=asked, outlook=asked.outlook, wanted=wanted, load_kg_m2=load.kg_m2, label_kg_m2=load.label_kg_m2, why=why
    )
    click = settled.click
    aim_kg_m2 = load.kg_m2 / load.passes
    rate = rates(asked.outlook, click)
    there_kg_m2 = load.there_kg / load.ground_m2
    chance = chance_empty(outlook, click, there_kg_m2)
    left = left_after(load.there_kg, load.sd_kg, rate, load.ground_m2)
    likely = likely_clicks(asked.outlook, click, aim_kg_m2)
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
        "advice": settled.advice,
        "reason": REASONS[settled.why],
    }
    working = [share_step(load.passes), aim_step(load.kg_m2, load.passes, aim_kg_m2)]
    working.extend(learnt_steps(asked))
    working.append(dial_step(asked, click, aim_kg_m2, rate["mid"], rule))
    working.extend(rate_steps(asked, click, rate))
    working.extend(likely_steps(asked, likely, aim_kg_m2))
    working.extend(neighbour_steps(asked, outlook, click, load.kg_m2, load.passes == 1))
    working.extend(left_steps("Left after this pass", load.there_kg, load.sd_kg, rate, load.ground_m2, left))
    working.append(chance_step(there_kg_m2, rate["mid"], chance))
    return value, working
