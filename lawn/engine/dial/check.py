"""A check inside a pass: what should be left by now, and the setting for the strips still to walk."""

import math
from collections import namedtuple

from lawn.engine.core.errors import out_of_range
from lawn.engine.core.measuring import MOST_ERRORS, READ_SHARE
from lawn.engine.core.numeric import at_least, number, optional_number, whole
from lawn.engine.core.working import COMMON, DEFINITION, step
from lawn.engine.dial.amounts import SCORCH_SHARE, down_on_rest, held_back, most_of_pass, out_of, out_steps, rest_of
from lawn.engine.dial.decision import SHARED, after_part, rest_click
from lawn.engine.dial.guardrails import REASONS, Decision, Question, chance_empty, guard, left_after, question_of, rates
from lawn.engine.dial.history import Memory
from lawn.engine.dial.likelihood import PASS_VAR, Pass
from lawn.engine.dial.posterior import fit
from lawn.engine.dial.predictive import Predictive, predictive_of
from lawn.engine.dial.scale import Dial, click_near, opening_of, setting_of
from lawn.engine.dial.steps import SOURCE, chance_step, dial_step, learned_steps, left_steps, rate_steps

SCALE_SD = READ_SHARE["scale"]  # a weighing is at least this far off
SURE_ERRORS = 2.0  # nothing came if more than so many likely errors should be gone by now
RULE = "click expected to put down least amiss on the strips still to walk, the part just walked weighed in"
# By what came out (more, less) and by advice; where the two do not go together, by advice alone.
CHECK_REASONS = {
    "keep": "Keep this setting.",
    "more lower": "More came out than expected. Go lower so the rest lasts.",
    "less higher": "Less came out than expected. Go higher for the strips left.",
    "lower": "A lower setting fits the strips left.",
    "higher": "A higher setting fits the strips left.",
}

SCORCHED = (
    "More than one and a half times the label's rate lies on the part just walked. Shut the gate and put nothing more "
    "there. Water it heavily. "
)

# What passes before put down there, and the label's own rate.
Label = namedtuple("Label", ("down_kg_m2", "rate_kg_m2"))

# The part walked: what there was, what there is, its likely error, ground done and to go, setting and its click, and
# the likely error of what is gone: that of both readings.
Part = namedtuple("Part", ("start_kg", "now_kg", "sd_kg", "done_m2", "to_go_m2", "setting", "click", "used_sd_kg"))


def check(
    *,
    dial: dict[str, object],
    product: dict[str, object],
    target_kg_m2: float,
    area_m2: float,
    history: list[object],
    now_kg: float,
    area_done_m2: float,
    area_to_go_m2: float,
    dial_now: float,
    now_sd_kg: float | None = None,
    left_kg: float | None = None,
    left_sd_kg: float | None = None,
    passes_to_go: int | None = None,
    missing_kg_m2: float | None = None,
    used_kg: float | None = None,
    out: list[object] | None = None,
    label_share: float | None = None,
    swath_m: float | None = None,
    speed_m_s: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Look at the hopper part way through a pass: go on as set, or change the setting for the rest.

    Args:
        dial: the spreader's dial, as for spreading.start [group of values as spreading.start]
        product: what is spread, as for spreading.start [group of values as spreading.start]
        target_kg_m2: product per area, all passes together; no strip is set to get more [kg/m2; 0.000001 to 50]
        area_m2: ground each pass covers [m2; 0.5 to 100000]
        history: past passes with this spreader, oldest first, without this one, as for spreading.start [list as
            spreading.start]
        now_kg: product there is now [kg; 0 to 20000]
        area_done_m2: ground covered since the pass, or this part of it, began; without what gets no more, where the
            gate was shut, as swath.tour counts it [m2; 0.5 to 100000]
        area_to_go_m2: ground of this pass still to cover, likewise [m2; 0.5 to 100000]
        dial_now: setting walked so far [dial; -1000 to 1000]
        now_sd_kg?: likely error of what there is now [kg; 0 to 20000]
        left_kg?: what there was when the pass, or this part of it, began; aim x area when not said [kg; 0 to 20000]
        left_sd_kg?: likely error of that, where it was a reading [kg; 0 to 20000]
        passes_to_go?: passes still to walk, this one included; 1 when not said [passes; 1 to 20]
        missing_kg_m2?: what the strips still to walk lack per area, all passes together. Only where each part of the
            ground is dialled for what it lacks itself; what there was over all ground when not said [kg/m2; 0 to 50]
        used_kg?: put down by the passes before this one, on all of the ground [kg; 0 to 5000]
        out?: stretches that got no more after a pass before, as for spreading.next; what lies on them is not held
            against the rest of the ground [list as spreading.next]
        label_share?: the whole aim over the label's rate, as label.aim answers; 1 when not said [share; 0.001 to 1]
        swath_m?: distance between tracks of this job [m; 0.2 to 20]
        speed_m_s?: walking speed of this job [m/s; 0.3 to 3]
    Returns:
        dial: setting for the strips still to walk, a whole click [dial]
        advice: keep, lower or higher; close where nothing should or can go down on them; stop where the part walked is
            scorched but the rest may have its share: the setting is then for the rest [one of keep, lower, higher,
            close, stop]
        reason: why, in a sentence [text]
        expected_now_kg: what should be left by now, from past passes [kg]
        expected_now_range_kg: low and high of it; 90 % lie between them [kg; low and high]
        likely_end_kg: low, mid and high of what will be left of this pass at the new setting [kg; low, mid and high]
        likely_end_as_is_kg: the same at the setting walked so far [kg; low, mid and high]
        chance_of_running_out: that what there is ends before these strips do, at the new setting [share]
        rate_so_far_kg_m2: product per area on the part walked [kg/m2]
        label_share: what lies on the part walked, passes before counted in, over the label's rate [share]
        scorched: that is above 150 %, and not by what the readings may be off; that ground gets no more [true or false]
        rate_kg_m2: low, mid and high of what the strips still to walk get at the new setting [kg/m2; low, mid and high]
        rate_as_is_kg_m2: the same at the setting walked so far [kg/m2; low, mid and high]
    Raises:
        out_of_range: an argument is outside its range, or there is more now than there was and than its error allows
        impossible: the dial has no click
    Source: computed
    Checked: what should be left by now agrees with a numerical integration over the same curves (computed)
    """
    asked = question_of(dial=dial, product=product, history=history, swath_m=swath_m, speed_m_s=speed_m_s)
    most_kg_m2 = number("target_kg_m2", target_kg_m2)
    ground_m2 = number("area_m2", area_m2)
    start_kg = optional_number("left_kg", left_kg)
    now_error_kg = optional_number("now_sd_kg", now_sd_kg) or 0.0
    start_error_kg = optional_number("left_sd_kg", left_sd_kg) or 0.0
    part = Part(
        most_kg_m2 * ground_m2 if start_kg is None else start_kg,
        number("now_kg", now_kg),
        now_error_kg,
        number("area_done_m2", area_done_m2),
        number("area_to_go_m2", area_to_go_m2),
        number("dial_now", dial_now),
        _click_now(asked.dial, dial_now),
        math.sqrt(now_error_kg**2 + start_error_kg**2),
    )
    if not at_least(part.start_kg + MOST_ERRORS * start_error_kg, part.now_kg):
        raise out_of_range(name="now_kg", value=part.now_kg, low=0.0, high=part.start_kg)
    to_go = 1 if passes_to_go is None else whole("passes_to_go", passes_to_go)
    before_kg, left_out = optional_number("used_kg", used_kg), out_of(out)
    before_kg_m2 = down_on_rest(used_kg=before_kg, rest_m2=rest_of(ground_m2, left_out), out=left_out)
    of_label = optional_number("label_share", label_share) or 1.0
    label = Label(before_kg_m2, most_kg_m2 / of_label)
    missing = optional_number("missing_kg_m2", missing_kg_m2)
    lacked = part.start_kg / (part.done_m2 + part.to_go_m2) if missing is None else missing
    value, working = _checked(asked, part, min(lacked, most_kg_m2), most_kg_m2, to_go, missing is not None, label)
    return value, out_steps(area_m2=ground_m2, used_kg=before_kg, out=left_out) + working


def _click_now(dial: Dial, setting: float) -> int:
    """The click walked so far; a setting off the dial is refused."""
    if setting < dial.lowest or opening_of(dial, setting) > 1.0 + 1e-9:
        raise out_of_range(name="dial_now", value=setting, low=dial.lowest, high=dial.highest)
    return click_near(dial, setting)


def _checked(
    asked: Question, part: Part, missing_kg_m2: float, label_kg_m2: float, to_go: int, apart: bool, label: Label
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """The setting for the rest of the pass and what is likely to come of it."""
    expected = _expected(asked, part)
    if _nothing_came(part, expected["mid"]):
        asked = _after_nothing(asked, part)
    rest = _rest(asked, part)
    load_kg_m2 = min(missing_kg_m2, part.now_kg / part.to_go_m2)
    wanted = 0
    if load_kg_m2 > 0.0:
        wanted = rest_click(
            predictive=rest,
            missing_kg_m2=missing_kg_m2,
            empties_kg_m2=part.now_kg / part.to_go_m2,
            passes_to_go=to_go,
            apart=apart,
        )
    why = "last" if to_go == 1 else asked.memory.basis
    held = held_back(load_kg_m2=load_kg_m2, aim_kg_m2=None, there_kg=part.now_kg, passes=1)
    most = most_of_pass(
        load_kg_m2=load_kg_m2,
        aim_kg_m2=label_kg_m2,
        down_kg_m2=label.down_kg_m2,
        surplus=False,
        last=to_go == 1,
    )
    decision = guard(
        asked=asked, predictive=rest, wanted=wanted, load_kg_m2=load_kg_m2, most_kg_m2=most, why=why, held=held
    )
    dial = setting_of(asked.dial, decision.click)
    advice = _advice(asked.dial, decision, part)
    doubt = _with_error(rest, part)
    rate = rates(rest, decision.click)
    rate_as_is = rates(rest, part.click)
    end = left_after(part.now_kg, part.sd_kg, rate, part.to_go_m2)
    as_is = left_after(part.now_kg, part.sd_kg, rate_as_is, part.to_go_m2)
    chance = chance_empty(doubt, decision.click, part.now_kg / part.to_go_m2)
    so_far = max(part.start_kg - part.now_kg, 0.0) / part.done_m2
    down_share = ((label.down_kg_m2 or 0.0) + so_far) / label.rate_kg_m2
    scorched = down_share > SCORCH_SHARE and part.start_kg - part.now_kg > part.used_sd_kg
    value: dict[str, object] = {
        "dial": part.setting if advice == "keep" else dial,
        "advice": "stop" if scorched and advice != "close" else advice,
        "reason": (SCORCHED if scorched else "") + _reason(advice, part.now_kg < expected["mid"], decision, scorched),
        "expected_now_kg": expected["mid"],
        "expected_now_range_kg": {"low": expected["low"], "high": expected["high"]},
        "likely_end_kg": end,
        "likely_end_as_is_kg": as_is,
        "chance_of_running_out": chance,
        "rate_so_far_kg_m2": so_far,
        "label_share": down_share,
        "scorched": scorched,
        "rate_kg_m2": rate,
        "rate_as_is_kg_m2": rate_as_is,
    }
    working = learned_steps(asked) + _part_steps(part, expected, so_far) + [_label_step(label, so_far, down_share)]
    working.append(dial_step(asked, decision.click, load_kg_m2 / to_go, rate["mid"], RULE))
    working.extend(rate_steps(asked, decision.click, rate) + rate_steps(asked, part.click, rate_as_is))
    working.extend(left_steps("Left at the end of this pass", part.now_kg, part.sd_kg, rate, part.to_go_m2, end))
    working.extend(left_steps("Left at the end as set now", part.now_kg, part.sd_kg, rate_as_is, part.to_go_m2, as_is))
    working.append(chance_step(part.now_kg / part.to_go_m2, rate["mid"], chance))
    return value, working


def _label_step(label: Label, so_far: float, share: float) -> dict[str, object]:
    """What lies on the part walked over the label's rate."""
    return step(
        what="Share of the label rate, on the part done",
        formula="what the passes before put down and what this one did there, over the label's rate; 150 % is too much",
        numbers={"before_kg_m2": label.down_kg_m2, "rate_so_far_kg_m2": so_far, "label_rate_kg_m2": label.rate_kg_m2},
        result=share,
        unit="share",
        source=COMMON,
    )


def _expected(asked: Question, part: Part) -> dict[str, float]:
    """What should be left by now, from past passes alone: a part of a pass comes and goes more than a whole one."""
    done = part.done_m2 / (part.done_m2 + part.to_go_m2)
    more = math.sqrt((1.0 - SHARED) * PASS_VAR * (1.0 / done - 1.0))
    predictive = predictive_of(posterior=asked.posterior, openings=asked.predictive.openings, load_relative_sd=more)
    return left_after(part.start_kg, part.sd_kg, rates(predictive, part.click), part.done_m2)


def _nothing_came(part: Part, expected_kg: float) -> bool:
    """Whether nothing at all came out on the part walked, and surely so."""
    nothing: bool = part.now_kg >= part.start_kg and part.start_kg - expected_kg > SURE_ERRORS * part.used_sd_kg
    return nothing


def _after_nothing(asked: Question, part: Part) -> Question:
    """The question with what has just been seen: nothing flows at the setting walked."""
    opening = opening_of(asked.dial, part.setting)
    stuff, memory = asked.product, asked.memory
    seen = Pass(-1, stuff.id, opening, 0.0, SCALE_SD, stuff.density_kg_m3, stuff.granule_mm, True)
    posterior = fit(passes=memory.passes + [seen], product=stuff, unlike=memory.unlike)
    nothing_at = memory.nothing_at + [opening]
    met, unlike, other = memory.met, memory.unlike, memory.other_material
    known = Memory(
        memory.passes, memory.basis, met, nothing_at, memory.bad, memory.left_out, memory.read, unlike, other
    )
    return Question(
        asked.dial, stuff, known, posterior, predictive_of(posterior=posterior, openings=asked.predictive.openings)
    )


def _rest(asked: Question, part: Part) -> Predictive:
    """What the clicks may put down on the strips still to walk, the part walked weighed in."""
    used_kg = part.start_kg - part.now_kg
    if used_kg <= part.used_sd_kg:
        untold: Predictive = asked.predictive  # what its readings may be off by is no rate
        return untold
    relative = part.used_sd_kg / used_kg
    return after_part(
        predictive=asked.predictive,
        opening=opening_of(asked.dial, part.setting),
        rate_kg_m2=used_kg / part.done_m2,
        done_share=part.done_m2 / (part.done_m2 + part.to_go_m2),
        sd=math.sqrt(relative * relative + SCALE_SD**2),
    )


def _with_error(rest: Predictive, part: Part) -> Predictive:
    """The same predictive with the error of what there is now in it."""
    if part.sd_kg <= 0.0 or part.now_kg <= 0.0:
        return rest
    more = (part.sd_kg / part.now_kg) ** 2
    parts = [(weight, base, n, dead, math.sqrt(sd * sd + more)) for weight, base, n, dead, sd in rest.parts]
    return Predictive(parts=parts, openings=rest.openings, pass_var=rest.pass_var)


def _advice(dial: Dial, decision: Decision, part: Part) -> str:
    """In one word what to do with the setting."""
    if decision.advice != "walk":
        return "close"
    change = setting_of(dial, decision.click) - part.setting
    if abs(change) < 0.5 * dial.step:
        return "keep"
    return "higher" if change > 0.0 else "lower"


def _reason(advice: str, more_came: bool, decision: Decision, scorched: bool) -> str:
    """Why, in a sentence."""
    if advice == "close":
        return str(REASONS[decision.why])
    if scorched:
        return "This setting is for the rest of the area."
    return CHECK_REASONS.get(("more " if more_came else "less ") + advice, CHECK_REASONS[advice])


def _part_steps(part: Part, expected: dict[str, float], so_far: float) -> list[dict[str, object]]:
    """What the part walked put down, and what should have been left."""
    numbers: dict[str, object] = {"start_kg": part.start_kg, "area_done_m2": part.done_m2, "dial_now": part.setting}
    formula = "what there was less rate x area covered, the rate as past passes tell it"
    rows = [
        ("What should be left by now" + (", " + name if name != "mid" else ""), expected[name])
        for name in ("mid", "low", "high")
    ]
    found = [
        step(what=what, formula=formula, numbers=numbers, result=result, unit="kg", source=SOURCE)
        for what, result in rows
    ]
    found.append(
        step(
            what="Product per area on the part done",
            formula="what is gone over the area covered",
            numbers={"start_kg": part.start_kg, "now_kg": part.now_kg, "area_done_m2": part.done_m2},
            result=so_far,
            unit="kg/m2",
            source=DEFINITION,
        )
    )
    return found
