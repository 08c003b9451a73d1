/** Claims in words, and the taps that make, give up and do them, each with its way back. */

import { daysBetween, weekday } from "../../../format";
import { today as day } from "../../../platform/session/clock";
import { nameOf } from "../../../records/log/named";
import type { Job } from "../../../records/log/registry";
import { orUndo } from "../../../ui/parts";
import { mayMow } from "../keep-off";
import { claims, today } from "../model";
import type { Claim, Saying } from "../model/claims";

const WILL: Record<Job, string> = {
  mow: "mow",
  feed: "feed",
  spray: "spray",
  water: "water",
  other: "do it",
};

const DID: Record<Job, string> = {
  mow: "Mow logged.",
  feed: "Marked fed. Use “Start spreading” to record the amount.",
  spray: "Marked sprayed.",
  water: "Marked watered.",
  other: "Marked done.",
};

/** "tonight", "tomorrow", "yesterday", "on Thu 14 May". */
function sayWhen(when: string): string {
  const away = daysBetween(day(), when);
  return { "-1": "yesterday", "0": "tonight", "1": "tomorrow" }[String(away)] ?? `on ${weekday(when)}`;
}

export function sayWho({ mine, by }: Claim): string {
  return mine ? "You" : (nameOf(by) ?? "Someone");
}

/** "Rowan will mow tonight"; a day that is over says only what was planned. */
export function sayClaimOn(claim: Claim): string {
  const past = daysBetween(claim.day, day()) > 0;
  const what = `${WILL[claim.job]} ${sayWhen(claim.day)}`;
  if (past) return `${sayWho(claim)} planned to ${what}`;
  return claim.mine ? `You’ll ${what}` : `${sayWho(claim)} will ${what}`;
}

/** "I'll do it", said to the whole household. */
export async function takeOn(saying: Saying, what: string): Promise<boolean> {
  today.still.hold();
  return (await orUndo(() => claims.claim(saying), `${what}: you’re down for it.`)) !== undefined;
}

export const giveUp = (claim: Claim) => orUndo(() => claims.giveUp(claim), "Dropped.");

export async function noteDone(claim: Claim): Promise<boolean> {
  const zones = claim.zoneIds.length ? claim.zoneIds : today.zones.value.map(({ id }) => id);
  if (claim.job === "mow" && !(await mayMow(zones))) return false;
  return (await orUndo(() => claims.done(claim), DID[claim.job])) !== undefined;
}
