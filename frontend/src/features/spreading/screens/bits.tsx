/** Small pieces every step of a job uses. */

import type { ComponentChildren } from "preact";
import { area, grouped, mass, nitrogen, range } from "../../../format";
import { allowedInstead } from "../../../forms/refusal";
import type { Answer, EngineError } from "../../../platform/engine";
import { units } from "../../../platform/session/session";
import { Button, Notice } from "../../../ui/parts";
import { spreading } from "../model";
import type { Advice, LeftOut } from "../model/asks";
import type { Likely } from "../model/types";

/** Something the engine is still working out: quiet, and read out once. */
export function Waiting({ what = "Calculating…" }: { what?: string }) {
  return (
    <p class="quiet" role="status">
      {what}
    </p>
  );
}

/** The engine's refusal in a sentence, with what is allowed in the person's units. */
export function Refusal({ answer }: { answer: Answer<unknown> | undefined }) {
  const error = answer?.error;
  if (!error) return null;
  if (error.code === "engine_unavailable") return <NoEngine />;
  const range = sayRange(error);
  return (
    <Notice kind="bad" alert title={error.message}>
      {range ? <p>{range}</p> : null}
    </Notice>
  );
}

function sayRange(error: EngineError): string {
  if (error.code === "over_label" && typeof error.high === "number")
    return `Put down at most ${sayMost(error.name ?? "", error.high)} here.`;
  return allowedInstead(error, units.value);
}

function sayMost(name: string, high: number): string {
  if (name.endsWith("n_kg_m2")) return nitrogen(high, units.value).text;
  return sayBags(Math.floor(high * 100) / 100);
}

/** "2.5 bags", "0.13 of a bag". */
export function sayBags(bags: number): string {
  const number = grouped(bags, 2, units.value);
  if (number === "1") return "1 bag";
  return bags < 1 ? `${number} of a bag` : `${number} bags`;
}

/** The engine's files could not be read: everything entered stands, and a fresh start usually mends it. */
function NoEngine() {
  return (
    <Notice kind="bad" alert title="Can’t calculate right now">
      <p>The calculator did not start. Your entries are safe.</p>
      <Button onClick={() => location.reload()}>Restart the app</Button>
    </Notice>
  );
}

/** What an action refused, kept until the next try. */
export function ActionRefused() {
  const message = spreading.refused.value;
  return message ? (
    <Notice kind="bad" alert title="Not done">
      <p>{message} Your entries are safe.</p>
    </Notice>
  ) : null;
}

interface NoSettingProps {
  advice: Advice;
  /** What walking at the first click that flows would lead to. */
  tooMuch: string;
}

/** No setting to walk at: the engine names none, and neither does the screen. */
export function NoSetting({ advice, tooMuch }: NoSettingProps) {
  if (advice === "blocked")
    return (
      <Notice kind="bad" title="Nothing came out with the dial fully open">
        <p>There is no higher setting. If the gate was shut or clogged, cross out that pass in the log.</p>
      </Notice>
    );
  if (advice === "by_hand")
    return (
      <Notice kind="warn" title="Too little for the spreader">
        <p>No setting spreads so little evenly. Spread it by hand, or put it back in the bag.</p>
      </Notice>
    );
  return (
    <Notice kind="bad" title="Too much even at the lowest setting">
      <p>{tooMuch} Don’t start.</p>
    </Notice>
  );
}

interface WayOnProps {
  children: ComponentChildren;
  onGo: () => void;
  busy?: boolean;
  disabled?: boolean;
  back?: boolean;
}

/** The one thing to do next, and the way back. */
export function WayOn({ children, onGo, busy, disabled, back = true }: WayOnProps) {
  return (
    <div class="spread__on">
      <Button tone="signal" size="yard" wide busy={busy} disabled={disabled} onClick={onGo}>
        {children}
      </Button>
      {back ? <Button onClick={() => void spreading.back()}>Back</Button> : null}
    </div>
  );
}

/** The ground of the job; it is nothing until the engine has added it up, which is no area to show. */
export const sayGround = (m2: number): string => (m2 > 0 ? area(m2, units.value).text : "…");

/** "8.1 lb, likely 7–9.2 lb". */
export function sayLikely({ low, mid, high }: Likely): { mid: string; range: string } {
  const say = (kg: number) => mass(kg, units.value);
  return { mid: say(mid).text, range: range(say(low), say(high)).text };
}

/** What the engine says beside a setting. */
export interface Said {
  reason: string;
  dial_likely?: { low: number; high: number } | null;
  left_out?: readonly LeftOut[];
}

/** Passes that cannot be read are named; the spreader's list of passes says which. */
function sayUnreadable(left_out: Said["left_out"]): string {
  const many = left_out?.filter(({ why }) => why === "unreadable").length ?? 0;
  if (!many) return "";
  return many === 1
    ? " One past pass can’t be read, so it is not used. See the spreader in the shed."
    : ` ${many} past passes can’t be read, so they are not used. See the spreader in the shed.`;
}

interface WhyProps {
  said: Said;
  write: (setting: number) => string;
}

/** Why a setting, and between which settings the right one may truly lie. */
export function WhySetting({ said, write }: WhyProps) {
  const { reason, dial_likely: likely, left_out } = said;
  const [low, high] = likely ? [write(likely.low), write(likely.high)] : [];
  return (
    <p>
      {reason}
      {low === undefined || high === undefined
        ? null
        : low === high
          ? ` Likely right: ${low}.`
          : ` Likely right: ${low} to ${high}.`}
      {sayUnreadable(left_out)}
    </p>
  );
}

/** A chance in words a person acts on. */
export function sayChance(chance: number): string {
  if (chance < 0.01) return "under 1%";
  return `about ${Math.round(chance * 100)}%`;
}

/** Where the job stands among its steps before the yard. */
export function StepLine({ at }: { at: 1 | 2 | 3 | 4 }) {
  const names = ["Choose", "Amount", "Safety", "Load"];
  return (
    <ol class="spread__steps" aria-label="Steps before you start">
      {names.map((name, k) => (
        <li
          key={name}
          aria-current={k + 1 === at ? "step" : undefined}
          class={k + 1 < at ? "is-done" : undefined}
        >
          {name}
        </li>
      ))}
    </ol>
  );
}
