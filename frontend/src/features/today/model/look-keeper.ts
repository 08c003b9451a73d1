/** Keeps what Today shows for the next opening, once all of it has been worked out from the book as it is now. */
import { effect } from "@preact/signals";
import { dayAfter } from "../../../format";
import type { Engine } from "../../../platform/engine/ask";
import type { KeepOffModel } from "../../../records/keep-off";
import type { DueZone, Evening, Look, LookModel } from "../../../records/look";
import type { ClaimsModel } from "./claims";
import type { TodayModel } from "./today";

/** A phone left in a drawer for longer waits for the engine. */
const DAYS_AHEAD = 7;

interface KeeperParts {
  look: LookModel;
  today: TodayModel;
  claims: ClaimsModel;
  keepOff: KeepOffModel;
  engine: Engine;
  day: () => string;
  now: () => string;
  nameOf: (id: string | undefined) => string | undefined;
}

export function createLookKeeper(parts: KeeperParts) {
  const { look, today, claims, keepOff, engine, day, now, nameOf } = parts;
  let turn = 0;
  let last = "";

  /** What stands on the screen; undefined while any of it is being worked out. */
  function shown(): Omit<Look, "at"> | undefined {
    const { totals, due, has } = today;
    const busy = [due, totals, keepOff.said].some((one) => "busy" in one && one.busy.value);
    if (
      busy ||
      today.unsettled.value ||
      !due.value?.value ||
      !keepOff.said.value?.value ||
      !has.value ||
      !claims.loaded.value
    )
      return undefined;
    const zones = today.dueZones.value;
    const keptOff = keepOff.zones.value;
    const ids = Object.entries(keptOff).flatMap(([id, { product_id }]) => [id, product_id ?? ""]);
    return {
      days: { [day()]: zones },
      ...(today.evening.value ? { evenings: { [day()]: today.evening.value } } : {}),
      keptOff,
      names: Object.fromEntries(ids.flatMap((id) => (nameOf(id) ? [[id, nameOf(id) ?? ""]] : []))),
      has: has.value,
      taken: zones.map(({ id }) => id).filter((id) => claims.onZone(id, "mow")),
    };
  }

  /** The same zones on the days to come: asked of the engine, never counted here. */
  async function ahead(): Promise<Required<Pick<Look, "days" | "evenings">>> {
    const days: Record<string, readonly DueZone[]> = {};
    const evenings: Record<string, Evening> = {};
    for (let away = 1; away <= DAYS_AHEAD; away++) {
      const on = dayAfter(day(), away);
      const args = today.dueArgs(on);
      const said = args && (await engine.call("record.due", args));
      const evening = await today.eveningOn(on);
      if (evening) evenings[on] = evening;
      if (said?.value) days[on] = today.zonesDue(said.value, evening);
    }
    return { days, evenings };
  }

  /** Follows Today while it is shown; returns what ends that. */
  return (): (() => void) =>
    effect(() => {
      const mark = look.forgotten.value;
      const seen = shown();
      const text = seen ? JSON.stringify([mark, seen]) : "";
      if (!seen || text === last) return;
      last = text;
      const mine = ++turn;
      const at = now();
      // Today's at once: whoever closes it again within a moment finds it there. Then with the days to come.
      look.keep({ ...seen, at });
      void ahead().then(({ days, evenings }) => {
        // A write that came meanwhile has made it old; what it changes is on its way.
        if (mine !== turn || mark !== look.forgotten.peek()) return;
        const found = { ...evenings, ...seen.evenings };
        const more = Object.keys(found).length ? { evenings: found } : {};
        look.keep({ ...seen, at, days: { ...days, ...seen.days }, ...more });
      });
    });
}
