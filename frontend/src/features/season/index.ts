/** What the rest of the app knows of the season: its place. */
import type { Feature } from "../../records/log/registry";
import { late } from "../../ui/parts/late";

/** Soil tests of a zone, for its own page: fetched as they are drawn. */
export const SoilTests = late(() => import("./screens/soil-tests").then((found) => found.SoilTests));

/** Nitrogen of a zone, put down and available, for its own page. */
export const ZoneLedger = late(() => import("./screens/ledger").then((found) => found.ZoneLedger));

export const feature: Feature = {
  routes: [
    { path: "/season/rules", load: () => import("./screens/rules") },
    { path: "/season/shopping", load: () => import("./screens/shopping") },
    { path: "/season/*?", load: () => import("./screens/index") },
  ],
  reads: { place: "season", records: ["household", "zone", "product", "entry", "plan", "step"] },
};
