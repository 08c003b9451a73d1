/** Ground that got far more than the label's rate: known from a check, taken out of the passes still to walk. */
import type { OutRow, PassDone, PassOnFoot, Plan, Scorched, SpreadDraft, TourRow } from "../types";

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

/** Where that stretch lies: its rows, and of a zone without strips the part walked by the check. */
export function outRows(pass: PassOnFoot, rows: number, end_m2: number): OutRow[] {
  const { number, part } = pass;
  const walked = (at: number) => (at > 0 ? walkedBy(pass.rows[at - 1]) : 0);
  const found = pass.rows.slice(part.rows, rows).map(({ zone_id, points_m }, k) => {
    const at = part.rows + k;
    return { pass: number, zone_id, points_m, from_m2: walked(at), to_m2: walked(at + 1) };
  });
  const here = pass.rows[rows];
  const from_m2 = Math.max(walked(rows), found.length ? 0 : part.area_m2);
  if (here?.kind !== "whole" || end_m2 <= from_m2) return found;
  return [...found, { pass: number, zone_id: here.zone_id, points_m: null, from_m2, to_m2: end_m2 }];
}

const walkedBy = (row: TourRow | undefined) => row?.walked_m2 ?? row?.done_area_m2 ?? 0;

/** Rows that a pass leaves out: those found scorched in the passes before it. */
export function outBefore(draft: Pick<SpreadDraft, "out"> | null | undefined, pass: number): OutRow[] {
  return (draft?.out ?? []).filter((row) => row.pass < pass);
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
