/** One wish changed, to see what it would do to the plan that is kept. */

import type { System } from "../../../../format";
import { MONTHS } from "../../../../format";
import type { PlanWishes } from "./book";
import { draftOf, readWishes, type WishesDraft } from "./wishes";

export type WhatIfKind = "skip" | "gentle" | "budget" | "evenings";

export interface WhatIfDraft {
  kind: WhatIfKind;
  /** Number of the month, January being 1. */
  month: string;
  budget: string;
  evenings: string;
}

export interface WhatIf {
  wishes: PlanWishes;
  /** "If you skip May". */
  says: string;
}

const CHANGES: Record<WhatIfKind, (draft: WhatIfDraft, was: WishesDraft) => Partial<WishesDraft>> = {
  skip: ({ month }, { skip }) => ({ skip: [...new Set([...skip, Number(month)])] }),
  gentle: () => ({ only_gentle: true }),
  budget: ({ budget }) => ({ budget }),
  evenings: ({ evenings }) => ({ evenings_week: evenings }),
};

const SAYS: Record<WhatIfKind, (draft: WhatIfDraft) => string> = {
  skip: ({ month }) => `If you skip ${MONTHS[Number(month) - 1]}`,
  gentle: () => "With gentle products only",
  budget: ({ budget }) => `If you spend at most ${budget.trim()}`,
  evenings: ({ evenings }) =>
    `With ${evenings.trim()} ${evenings.trim() === "1" ? "evening" : "evenings"} a week`,
};

const NEEDED: Partial<Record<WhatIfKind, "budget" | "evenings">> = { budget: "budget", evenings: "evenings" };

/** What is asked then; or what is wrong with the one field it goes by. */
export function whatIf(draft: WhatIfDraft, wishes: PlanWishes, system: System): WhatIf | { error: string } {
  const needed = NEEDED[draft.kind];
  if (needed && !draft[needed].trim()) return { error: "Enter a number." };
  const { value, errors } = readWishes(
    { ...draftOf(wishes), ...CHANGES[draft.kind](draft, draftOf(wishes)) },
    system,
  );
  const error = errors[draft.kind === "evenings" ? "evenings_week" : draft.kind];
  if (error) return { error };
  return { wishes: value, says: SAYS[draft.kind](draft) };
}
