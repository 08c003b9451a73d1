/** A moment as a form asks for it. */
import type { System } from "../format";
import { momentFromLocal, NO_WHEN } from "../format/moment";
import { checkGroup } from "../records/kinds";

/** What is wrong with a datetime-local text as the moment of something done; undefined when all is well. */
export function whenTrouble(text: string, system: System): string | undefined {
  const occurred_at = momentFromLocal(text);
  return occurred_at ? checkGroup("entry", "when", { occurred_at }, system)["occurred_at"] : NO_WHEN;
}
