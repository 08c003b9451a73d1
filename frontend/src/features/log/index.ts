/** What the rest of the app knows of the log: its place, its cards on Today, and the sheet that crosses an entry out. */
import { allWords, type Feature } from "../../records/log/registry";
import { late, lateSheet } from "../../ui/parts/late";

/** A list is drawn once every kind has its words, so that no line changes under a thumb. */
async function withWords<T>(load: () => Promise<T>): Promise<T> {
  const [found] = await Promise.all([load(), allWords()]);
  return found;
}

export const StrikeSheet = lateSheet(() => import("./screens/amend").then((found) => found.StrikeSheet));

const cards = () => withWords(() => import("./today/cards"));

export const feature: Feature = {
  routes: [{ path: "/log/*?", load: () => withWords(() => import("./screens/index")) }],
  reads: { place: "log", records: ["entry", "photo"] },
  cards: [
    { at: "beside", Card: late(() => cards().then(({ Waiting }) => Waiting)) },
    { at: "beside", Card: late(() => cards().then(({ Latest }) => Latest)) },
  ],
};
