/** What the rest of the app knows of spreading: its place, the job under way, and the way into a new one. */
import type { Feature } from "../../records/log/registry";
import { late } from "../../ui/parts/late";
import { SpreadCard } from "./today/card";
import { onFoot } from "./today/on-foot";

export { onFoot };

/** Whether a product can burn, for its own page: fetched as it is drawn. */
export const CanItBurn = late(() => import("./screens/can-it-burn").then((found) => found.CanItBurn));

/** From the yard on, the dial and the strip have the screen to themselves. */
const INDOORS: readonly unknown[] = [undefined, "choose", "aim", "cautions", "load"];

/** Begins a job on a zone, unless one is under way; the job's own code is fetched for it. */
export async function beginOn(zoneId: string): Promise<void> {
  const { spreading } = await import("./model");
  await spreading.open();
  if (spreading.finished.value) await spreading.putAway();
  if (spreading.draft.value) return;
  spreading.begin();
  await spreading.change({ zone_ids: [zoneId] });
}

/** A step of the plan: which it is, where, and with what. */
export interface BegunStep {
  id: string;
  zoneIds: readonly string[];
  productId: string;
}

/** Begins the job of a step, unless one is under way; what is then logged says which step it did. */
export async function beginStep({ id, zoneIds, productId }: BegunStep): Promise<void> {
  const { spreading } = await import("./model");
  await spreading.open();
  if (spreading.finished.value) await spreading.putAway();
  if (spreading.draft.value) return;
  spreading.begin();
  await spreading.change({ zone_ids: [...zoneIds], product_id: productId, season_step_id: id });
}

export const feature: Feature = {
  routes: [{ path: "/spread/*?", load: () => import("./screens/index") }],
  cards: [{ at: "jobs", Card: SpreadCard }],
  reads: { place: "spread", records: ["zone", "product", "spreader", "entry"] },
  alone: () => !INDOORS.includes(onFoot.value?.step),
};
