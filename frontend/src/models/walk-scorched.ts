/** Ground that got far more than the label's rate: known from a check, taken out of the passes still to walk. */
import type { PassDone, PassOnFoot, Plan, Scorched } from "./walk-types";

interface Stretch {
  rows: number;
  area_m2: number;
  used_kg: number;
}

/** The stretch that a check has just shown to be scorched: the rows walked since the setting was last changed. */
export function scorchedStretch(pass: PassOnFoot, { rows, area_m2, used_kg }: Stretch): Scorched {
  const walked = pass.rows.slice(pass.part.rows, Math.max(rows, pass.part.rows + 1));
  const zone_ids = [...new Set(walked.map(({ zone_id }) => zone_id))];
  return { pass: pass.number, from: pass.part.rows + 1, to: rows, area_m2, used_kg, zone_ids };
}

/** All of a job so far, those of the pass on foot among them. */
export function scorchedOf(passes: readonly PassDone[], pass?: PassOnFoot | null): Scorched[] {
  const booked = passes.some(({ id }) => id === pass?.id);
  const checks = [...passes, ...(pass && !booked ? [pass] : [])].flatMap((one) => one.checks);
  return checks.flatMap(({ scorched }) => scorched ?? []);
}

/** Ground that gets no more and what lies on it, as the engine takes it; nothing where there is none. */
export function outOf(scorched: readonly Scorched[]): { out?: { area_m2: number; used_kg: number }[] } {
  return scorched.length ? { out: scorched.map(({ area_m2, used_kg }) => ({ area_m2, used_kg })) } : {};
}

/** "Strips 3 to 6 of pass 1 in Verge"; without strips the zone alone. */
export function sayScorched({ pass, from, to, zone_ids }: Scorched, plan: Plan): string {
  const names = zone_ids.map((id) => plan.zones.find((zone) => zone.id === id)?.name ?? "a zone").join(", ");
  if (to < from) return `The part of ${names} walked by the check in pass ${pass}`;
  return `${from === to ? `Strip ${from}` : `Strips ${from} to ${to}`} of pass ${pass} in ${names}`;
}
