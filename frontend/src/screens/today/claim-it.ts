/** Claims in words, and the taps that make, give up and do them, each with its way back. */
import { daysBetween, weekday } from "../../format";
import { claims, log, today } from "../../models";
import type { Claim, Job, Made, Saying } from "../../models/claims";
import { today as day } from "../../models/clock";
import { orSay, showToast } from "../../parts";
import { mayMow } from "../keep-off";

const WILL: Record<Job, string> = {
  mow: "mow",
  feed: "feed",
  spray: "spray",
  water: "water",
  other: "see to it",
};

const DID: Record<Job, string> = {
  mow: "Mow noted.",
  feed: "Noted: fed. A walk brings the figures.",
  spray: "Noted: sprayed.",
  water: "Noted: watered.",
  other: "Noted: done.",
};

export const JOBS = [
  { value: "mow", label: "Mow" },
  { value: "feed", label: "Feed" },
  { value: "spray", label: "Spray" },
  { value: "water", label: "Water" },
  { value: "other", label: "Something else" },
] as const;

/** "tonight", "tomorrow", "yesterday", "on Thu 14 May". */
function sayWhen(when: string): string {
  const away = daysBetween(day(), when);
  return { "-1": "yesterday", "0": "tonight", "1": "tomorrow" }[String(away)] ?? `on ${weekday(when)}`;
}

export function sayWho({ mine, by }: Claim): string {
  return mine ? "You" : (log.nameOf(by) ?? "Somebody");
}

/** "Rowan said they will mow tonight". */
export function sayClaimOn(claim: Claim): string {
  const past = daysBetween(claim.day, day()) > 0;
  const what = `${past ? "would" : "will"} ${WILL[claim.job]} ${sayWhen(claim.day)}`;
  return claim.mine ? `You said you ${what}` : `${sayWho(claim)} said they ${what}`;
}

async function kept(
  write: () => Promise<Made>,
  text: string,
  back: (made: Made) => Promise<unknown>,
  backSays: string,
): Promise<boolean> {
  const made = await orSay(write);
  if (!made) return false;
  const act = async () => {
    await back(made.value);
    showToast({ text: backSays });
  };
  showToast({ text, undo: { act } });
  return true;
}

/** "I'll do it", said to the whole household. */
export function takeOn(saying: Saying, what: string): Promise<boolean> {
  today.still.hold();
  return kept(
    () => claims.claim(saying),
    `${what}: everybody sees that you will.`,
    claims.takeBack,
    "Claim taken back.",
  );
}

export function giveUp(claim: Claim): Promise<boolean> {
  return kept(() => claims.giveUp(claim), "Given up.", claims.keepAfterAll, "Your claim stands again.");
}

export async function noteDone(claim: Claim): Promise<boolean> {
  const zones = claim.zoneIds.length ? claim.zoneIds : log.zones.value.map(({ id }) => id);
  if (claim.job === "mow" && !(await mayMow(zones))) return false;
  return kept(() => claims.done(claim), DID[claim.job], today.undo, "Taken back.");
}
