/** The last days' warmth, as the height to cut to asks for it; which of them count is the engine's to say. */
import { type Followed, follow } from "../../../platform/engine/ask";
import type { Answer, Args } from "../../../platform/engine/types";
import { given } from "../../../records/entries";
import type { DaysModel, Joined, Known } from "../../weather";

/** More than the engine looks at, and no long list. */
const BACK_DAYS = 14;

export type WarmDays = NonNullable<Args<"mowing.height">["days"]>;
export type RecentModel = Followed<Answer<WarmDays>>;

const warmth = ({ date, mean_c }: Joined["days"][number]) => ({ date, ...given({ mean_c }) });

export function createRecent({ days }: { days: Pick<DaysModel, "known" | "join"> }): RecentModel {
  async function recent(known: Known): Promise<Answer<WarmDays>> {
    const joined = await days.join(known);
    if (joined.error) return joined as Answer<WarmDays>;
    return { value: joined.value.days.map(warmth), working: [], engine: "" } as Answer<WarmDays>;
  }
  return follow(recent, () => days.known(BACK_DAYS, 0) ?? null, { keep: true });
}
