/** Can it burn? Each zone asked of the engine (`feeding.burn`); zones of one answer are said together. */
import { type Engine, type Followed, follow } from "../../../../platform/engine/ask";
import type { Answer, Args, Step, Value } from "../../../../platform/engine/types";
import type { Row } from "../../../../platform/store/types";
import { type Entry, given } from "../../../../records/entries";
import { type CheckDay, checkZones, doneJobs, heldRules } from "../../../../records/limits/check";

type Asked = Args<"feeding.burn">;

/** What is about to go down. */
export interface BurnJob {
  n_kg_m2?: number | undefined;
  slow_n_share?: number | undefined;
  source?: Asked["job"]["source"];
  product?: string | undefined;
}

export interface BurnLine extends Pick<Value<"feeding.burn">, "can_burn" | "says"> {
  zoneIds: string[];
  working: Step[];
}

export interface BurnAsking {
  job: BurnJob;
  zoneIds: readonly string[];
  zones: readonly Row[];
  entries: readonly Entry[];
  days: readonly CheckDay[] | undefined;
  rules: Args<"limits.rules">;
  today: string;
}

/** Nobody has put anything down yet: they are told to begin with a gentle one. */
const isBeginner = (entries: readonly Entry[]): boolean =>
  !entries.some(({ kind, struck }) => kind === "spread" && !struck);

function before(asking: BurnAsking): NonNullable<Asked["before"]> {
  return doneJobs(asking.entries, asking.today, asking.zoneIds).map(
    ({ id, date, zone, n_kg_m2, slow_n_share, sort, product }) => ({
      ...{ id, date, zone },
      ...given({ n_kg_m2, slow_n_share, sort, product }),
    }),
  );
}

interface Shared {
  zoneIds: readonly string[];
  rules: Args<"limits.rules">;
  job: Omit<Asked["job"], "zone">;
  rest: Omit<Asked, "job" | "rules">;
}

function sharedOf(asking: BurnAsking): Shared | null {
  const { job, zoneIds, zones, entries, days, rules, today } = asking;
  const known = checkZones(zones, entries, today).filter(({ id }) => zoneIds.includes(id));
  if (!known.length || !days) return null;
  const rest = { zones: known, today, days, before: before(asking), beginner: isBeginner(entries) };
  return { zoneIds: known.map(({ id }) => id), rules, job: given({ ...job }), rest };
}

function together(lines: readonly BurnLine[]): BurnLine[] {
  const found = new Map<string, BurnLine>();
  for (const line of lines) {
    const same = found.get(line.says);
    found.set(line.says, same ? { ...same, zoneIds: [...same.zoneIds, ...line.zoneIds] } : line);
  }
  return [...found.values()];
}

export function followBurns(engine: Engine, asking: () => BurnAsking | null): Followed<Answer<BurnLine[]>> {
  async function work({ zoneIds, rules, job, rest }: Shared): Promise<Answer<BurnLine[]>> {
    const held = await engine.call("limits.rules", rules);
    if (held.error) return held;
    const asked = { rules: heldRules(held.value), ...given({ place: held.value.places[0] }) };
    const lines: BurnLine[] = [];
    for (const zone of zoneIds) {
      const said = await engine.call("feeding.burn", { ...rest, ...asked, job: { ...job, zone } });
      if (said.error) return said;
      lines.push({ ...said.value, zoneIds: [zone], working: said.working });
    }
    return { ...held, working: [], value: together(lines) };
  }
  return follow(work, () => {
    const now = asking();
    return now && sharedOf(now);
  });
}
