/** Drafts of earlier builds, brought to today's shape. Nothing a person had entered is dropped. */

import { blankJob } from "./steps";
import type { PassOnFoot, SpreadDraft } from "./types";
import { patternOf, unwalked } from "./yard/rows";

type System = "us" | "metric";

/** A draft as kept, whichever build kept it. */
export function upgraded(kept: any, system: System): SpreadDraft | null {
  if (!kept) return null;
  if (kept.shape === 2) return kept;
  const blank = blankJob(kept.id, kept.started_at, system);
  const left = { ...blank.left, ...kept.left };
  return { ...blank, ...kept, shape: 2, left, pass: kept.pass ? passOf(kept) : null };
}

/** Shape 1 counted no strips: the pass stands at its start, and its rows are laid out when the yard is opened. */
function passOf({ pass, crossing, plan }: any): PassOnFoot {
  const pattern = patternOf(pass.number, plan?.passes ?? pass.number, crossing ?? "offset");
  return { ...unwalked(pass.start_kg), rate_kg_m2: null, pattern, ...pass };
}
