/** Where digests differ (P4, F52): down to the buckets that differ, and only those are replaced. */
import type { Book } from "../store/book";
import { addSums, digestText, NO_SUMS } from "../store/core/digest";
import type { ChangeRecord, State } from "../store/core/records";
import { type Placed, placed, takeBucket } from "../store/incoming/mend";
import { readState } from "../store/state";
import { isChange, isNumber } from "./answer";
import { type Failure, ODD } from "./http";
import type { Request } from "./round";

/** More differing buckets than this and fetching everything again is the shorter way. */
const MOST_QUESTIONS = 64;

interface Bucket {
  head: number;
  count: number;
  digest: string;
  children?: Record<string, { count: number; digest: string }>;
  records?: ChangeRecord[];
}

export interface Repaired {
  /** How many buckets were replaced. */
  replaced: number;
  failure?: Failure;
}

export async function repair(book: Book, household: string, send: Request): Promise<Repaired> {
  const asked = await readState(book.db);
  const mine = await placed(book.db);
  let questions = 0;
  let replaced = 0;

  async function walk(prefix: string): Promise<Failure | undefined> {
    questions += 1;
    if (questions > MOST_QUESTIONS) return undefined;
    const outcome = await send<unknown>("GET", `households/${household}/digest?prefix=${prefix}`);
    if (!outcome.ok) return outcome.status === 404 ? undefined : outcome;
    const bucket = readBucket(outcome.value);
    if (!bucket) return ODD;
    const here = mine.filter((one) => one.bucket.startsWith(prefix));
    if (digestOf(here) === bucket.digest && here.length === bucket.count) return undefined;
    if (bucket.records) return replace(here, bucket.records, bucket.head, asked);
    for (const [digit, child] of Object.entries(bucket.children ?? {})) {
      const below = here.filter((one) => one.bucket.startsWith(prefix + digit));
      if (digestOf(below) === child.digest && below.length === child.count) continue;
      const failure = await walk(prefix + digit);
      if (failure) return failure;
    }
    return undefined;
  }

  async function replace(
    here: Placed[],
    records: ChangeRecord[],
    head: number,
    state: State,
  ): Promise<undefined> {
    const keys = here.map((one) => one.key);
    book.show(await takeBucket(book.db, keys, records, head, state));
    replaced += 1;
  }

  const failure = await walk("");
  return failure ? { replaced, failure } : { replaced };
}

function digestOf(rows: readonly Placed[]): string {
  return digestText(rows.reduce((sums, row) => addSums(sums, row.sums), NO_SUMS));
}

/** A bucket of the server's book; undefined when it is not of that shape. */
function readBucket(value: unknown): Bucket | undefined {
  const bucket = value as Partial<Bucket> | null | undefined;
  if (!isNumber(bucket?.head) || !isNumber(bucket.count) || typeof bucket.digest !== "string")
    return undefined;
  const { records, children } = bucket;
  if (records !== undefined && !(Array.isArray(records) && records.every(isChange))) return undefined;
  if (records === undefined && (typeof children !== "object" || children === null)) return undefined;
  return bucket as Bucket;
}
