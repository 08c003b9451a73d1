/** Warnings in every place and, whole, on Today; looked for by code that is no part of the first script. */
import type { Feature } from "../../records/log/registry";
import { LateClashCards } from "./late";

export { LateClashLine, startClashes } from "./late";

export const feature: Feature = { cards: [{ at: "top", Card: LateClashCards }] };
