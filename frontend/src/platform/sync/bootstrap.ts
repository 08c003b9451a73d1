/** Fetching a whole book page by page (F51): settings first, newest entries first, going on after any cut. */
import type { Book } from "../store/book";
import type { ChangeRecord } from "../store/core/records";
import { startWhole, stopWhole, takeWholePage, type WholePage } from "../store/incoming/whole";
import { readBoot, readState } from "../store/state";
import { isChange, isNumber } from "./answer";
import { type Failure, ODD } from "./http";
import type { Request } from "./round";

const PAGE = 2000;
/** A server that forgets its own tokens is asked by rounds instead. */
const MOST_RESTARTS = 2;

export interface Bootstrap {
  /** Whether a fetching is under way. */
  begun(): Promise<boolean>;
  begin(): Promise<void>;
  /** Fetches and stores one page; undefined when that worked, or rounds are to go on instead. */
  page(): Promise<Failure | undefined>;
}

export function createBootstrap(book: Book, household: string, send: Request): Bootstrap {
  const { db } = book;
  let restarts = 0;

  async function page(): Promise<Failure | undefined> {
    const [asked, boot] = [await readState(db), await readBoot(db)];
    if (!boot) return undefined;
    const after = boot.after === null ? "" : `&after=${encodeURIComponent(boot.after)}`;
    const outcome = await send<unknown>("GET", `households/${household}/bootstrap?limit=${PAGE}${after}`);
    if (!outcome.ok) return refused(outcome, boot.after !== null);
    const came = readPage(outcome.value);
    if (!came || (came.after !== null && came.after === boot.after)) return ODD;
    book.show(await takeWholePage(db, came, asked, boot));
    return undefined;
  }

  /** A token it does not know: begin again. No such page: the rounds fetch everything as well, only slower. */
  async function refused(failure: Failure, begun: boolean): Promise<Failure | undefined> {
    if (failure.status !== 400 && failure.status !== 404) return failure;
    restarts += 1;
    if (failure.status === 400 && begun && restarts <= MOST_RESTARTS) await startWhole(db);
    else await stopWhole(db);
    return undefined;
  }

  return { begun: async () => (await readBoot(db)) !== undefined, begin: () => startWhole(db), page };
}

/** First line, records, last line; undefined when any is missing or of the wrong shape (cut short, somebody else's). */
export function readPage(value: unknown): WholePage | undefined {
  if (!Array.isArray(value) || value.length < 2) return undefined;
  const first = value[0] as Partial<WholePage> | null;
  const last = value[value.length - 1] as Partial<WholePage> | null;
  const records = value.slice(1, -1) as ChangeRecord[];
  if (typeof first?.epoch !== "string" || !isNumber(first.head)) return undefined;
  if (last?.after !== null && typeof last?.after !== "string") return undefined;
  if (!records.every((record) => typeof record === "object" && record !== null && isChange(record)))
    return undefined;
  return { epoch: first.epoch, head: first.head, records, after: last.after };
}
