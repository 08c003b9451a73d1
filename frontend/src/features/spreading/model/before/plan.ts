/** From the aim to what is really loaded: checked, then frozen for the job. */
import { mass, type System } from "../../../../format";
import { parse } from "../../../../forms/amount";
import { given } from "../../../../records/entries";
import type { AimValue, Choice } from "../asks";
import type { Plan, SpreadDraft } from "../types";

export interface Load {
  /** What goes in, kg; undefined while unknown or not allowed. */
  kg?: number;
  /** What is wrong with the amount typed, and what is allowed. */
  error?: string;
}

/** What was loaded: as typed, or just what the aim asks for. Never more: too little can be mended, too much cannot. */
export function checkLoad(
  draft: SpreadDraft | null | undefined,
  aim: AimValue | undefined,
  system: System,
): Load {
  if (!draft || !aim) return {};
  if (draft.loaded.amount.trim() === "") return { kg: aim.mass_kg };
  const read = parse(draft.loaded.amount, draft.loaded.unit);
  if (!read.ok) return { error: read.message };
  const most = mass(aim.mass_kg, system).text;
  if (read.si <= 0) return { error: `Enter what you loaded: more than 0 and at most ${most}.` };
  if (read.si > aim.load_most_kg)
    return { error: `That is over the target. Load at most ${most}. Keep the rest in the bag.` };
  return { kg: Math.min(read.si, aim.mass_kg) };
}

/** The engine's answers that a plan rests on. */
export interface Grounds {
  aim: AimValue;
  load_kg: number;
  load_kg_m2: number;
  passes: number;
}

/** The plan of a job, frozen; undefined while product or spreader is not chosen. */
export function planOf(choice: Choice, { aim, load_kg, load_kg_m2, passes }: Grounds): Plan | undefined {
  const { zones, area_m2, product, spreader } = choice;
  if (!product || !spreader) return undefined;
  const { lowest, highest, step } = spreader.dial;
  const { id, name, sort, bulk_density_kg_m3, granules, n_percent, p2o5_percent, slow_n_share } = product;
  return {
    zones: [...zones],
    area_m2,
    target_kg_m2: aim.target_kg_m2,
    mass_kg: aim.mass_kg,
    load_kg,
    load_kg_m2,
    passes,
    product: { id, name, sort, ...given({ bulk_density_kg_m3, granules }) },
    ...given({ n_percent, p2o5_percent, slow_n_share, n_kg_m2: aim.n_kg_m2, label_share: aim.label_share }),
    dial: { lowest, highest, step },
    ...given({ swath_m: spreader.swath_m, speed_m_s: spreader.speed_m_s }),
  } as Plan;
}
