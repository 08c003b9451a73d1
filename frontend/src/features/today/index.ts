/** Today, which a cold start opens, and what it says of where nobody goes yet. */
import type { Feature } from "../../records/log/registry";

export { KeepOffNotices } from "./keep-off";
export { default as Today } from "./screens/index";

export const feature: Feature = {
  reads: { place: "", records: ["zone", "product", "spreader", "mower", "entry", "claim", "settlement"] },
};
