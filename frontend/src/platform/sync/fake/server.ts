/**
 * For tests only: a household's server in memory, after sync.md "One round trip", reached through
 * `fetch` like the real one, with faults to order. It answers; it does not check what the phone
 * does. The real server is proved in Python; this one is for faults on the way.
 */
import { gunzipSync } from "node:zlib";
import { bucketOf, digestText, sumAll } from "../../store/core/digest";
import type { SentOp } from "../../store/core/outbox";
import type { ChangeRecord, OpResult } from "../../store/core/records";
import { newId } from "../../store/core/uuid7";

interface SyncBody {
  device: string;
  incarnation: string;
  cursor: number;
  confirmed_dseq: number;
  ops: SentOp[];
  limit: number;
}

/** What happens to one request; `reached` runs the real answer, so that a fault can come after it. */
export type Fault = (reached: () => Response, body: SyncBody) => Response | Promise<Response>;

export const json = (status: number, body: unknown, headers: Record<string, string> = {}): Response =>
  new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/json", ...headers } });

/** What a backup of the server holds. */
interface Backup {
  records: Map<string, ChangeRecord>;
  ops: Map<string, { op: SentOp; result: OpResult }>;
  lines: Map<string, number>;
  head: number;
}

export class FakeServer {
  records = new Map<string, ChangeRecord>();
  ops = new Map<string, { op: SentOp; result: OpResult }>();
  lines = new Map<string, number>();
  /** Every sync body that arrived, in order, whatever became of its answer. */
  readonly pushes: SyncBody[] = [];
  /** Every other address that was asked, after the household's own part. */
  readonly asked: string[] = [];
  readonly faults: Fault[] = [];
  /** Stands on every request for as long as it is set. */
  always: Fault | undefined;
  /** One for each page of a whole book; undefined lets it through. */
  readonly pageFaults: ((reached: () => Response) => Response | Promise<Response>)[] = [];
  /** Ops this server will not apply, by id, with the reason. */
  readonly refuses = new Map<string, { code: string; message: string }>();
  /** Kinds it does not know yet. */
  readonly unknownKinds = new Set<string>();
  readonly closedDevices = new Set<string>();
  /** The person is no longer a member. */
  former = false;
  minPushSchema = 1;
  epoch = newId();
  head = 0;
  page = 1000;
  wholePage = 2000;
  clock = () => Date.parse("2030-05-01T12:00:00Z");
  private devices = 0;

  readonly fetch = async (address: string | URL | Request, init?: RequestInit): Promise<Response> => {
    const url = new URL(String(address), "http://fake");
    const route = url.pathname.split("/").at(-1) ?? "";
    if (route !== "sync") return this.other(route, url.searchParams);
    const body = read(init?.body) as SyncBody;
    this.pushes.push(body);
    const fault = this.faults.shift() ?? this.always;
    const reached = () => this.synced(body);
    return fault ? fault(reached, body) : reached();
  };

  backup(): Backup {
    const { records, ops, lines, head } = this;
    return structuredClone({ records, ops, lines, head });
  }

  /** As `manage.py restore` does: the backup's book under a new epoch. */
  restore(backup: Backup, epoch: string = newId()): void {
    Object.assign(this, structuredClone(backup), { epoch });
  }

  /** An update taught it its kinds: what it had set aside for that is applied. */
  learn(): void {
    this.unknownKinds.clear();
    for (const kept of this.ops.values()) {
      if (kept.result.why?.code === "unknown_kind") kept.result = this.apply(kept.op);
    }
  }

  private other(route: string, asked: URLSearchParams): Response | Promise<Response> {
    this.asked.push(`${route}?${asked}`);
    if (this.former) return notFound();
    if (route === "devices") {
      this.devices += 1;
      return json(201, { device: `0190a000-0000-7000-8000-${String(this.devices).padStart(12, "0")}` });
    }
    if (route === "digest")
      return json(200, bucketOfBook(this.records.values(), asked.get("prefix") ?? "", this));
    const fault = this.pageFaults.shift();
    const reached = () => this.whole(asked.get("after"));
    return fault ? fault(reached) : reached();
  }

  /** A page of the whole book, settings before entries; the token is the place in that order. */
  private whole(after: string | null): Response {
    const all = [...this.records.values()].sort((a, b) => place(a).localeCompare(place(b)));
    const rest = all.filter((record) => after === null || place(record) > after);
    const page = rest.slice(0, this.wholePage);
    const last = page.at(-1);
    const next = last && rest.length > page.length ? place(last) : null;
    return ndjson([{ epoch: this.epoch, schema: 2, head: this.head, limit: 2000 }, ...page, { after: next }]);
  }

  private synced(body: SyncBody): Response {
    if (this.closedDevices.has(body.device)) return notFound();
    if (this.former) return body.ops.length ? this.held(body) : notFound();
    const tooOld = body.ops.some((op) => op.schema < this.minPushSchema);
    return tooOld ? json(426, { code: "update_needed", message: "Open the app again." }) : this.answer(body);
  }

  /** To a former member: every op held for the keeper, and not a word of the household. */
  private held(body: SyncBody): Response {
    const why = { code: "pending_review", message: "You are no longer in this household." };
    const results = body.ops.map(({ op }) => ({ op, s: "parked", seq: null, lost: [], why }));
    const place = { cursor: body.cursor, head: body.cursor, has_more: false, digest: null, epoch: null };
    return json(200, { server_time: this.now(), results, changes: [], acked_dseq: 0, ...place });
  }

  /** Puts a record into the book as another phone would. */
  write(t: string, id: string, more: Partial<ChangeRecord> = {}): ChangeRecord {
    const key = `${t}:${id}`;
    this.head += 1;
    const before = this.records.get(key);
    const record: ChangeRecord = { seq: this.head, t, id, groups: {}, ...before, ...more };
    record.seq = this.head;
    record.groups = { ...before?.groups, ...more.groups };
    this.records.set(key, record);
    return record;
  }

  digest(): string {
    return digestText(sumAll(this.records.values()));
  }

  private answer(body: SyncBody): Response {
    const line = `${body.device} ${body.incarnation}`;
    const results: OpResult[] = [];
    let acked = this.lines.get(line) ?? 0;
    let need_from: number | null = null;
    let fork_detected = false;
    for (const op of body.ops) {
      const known = this.ops.get(op.op);
      if (op.dseq > acked + 1) need_from = acked + 1;
      else if (!known && op.dseq <= acked) fork_detected = true;
      if (need_from !== null || fork_detected) break;
      results.push(this.judge(op));
      acked = Math.max(acked, op.dseq);
    }
    this.lines.set(line, acked);
    return json(200, { ...this.pull(body), results, acked_dseq: acked, need_from, fork_detected });
  }

  private judge(op: SentOp): OpResult {
    const known = this.ops.get(op.op);
    if (known) {
      if (known.op.hash !== op.hash) throw new Error(`op ${op.op} came again with other content`);
      const was = known.result.s as "applied";
      return { ...known.result, s: known.result.s === "parked" ? "parked" : "duplicate", was };
    }
    const result = this.judged(op);
    this.ops.set(op.op, { op, result });
    return result;
  }

  private judged(op: SentOp): OpResult {
    const unknown = op.m.some((m) => this.unknownKinds.has(m.t));
    const why =
      this.refuses.get(op.op) ?? (unknown ? { code: "unknown_kind", message: "Not known yet." } : undefined);
    if (why) return { op: op.op, s: "parked", seq: null, why };
    if (op.m.length > 0) return this.apply(op);
    return { op: op.op, s: "applied", seq: null, lost: [], why: { code: "hole", message: "Nothing." } };
  }

  private apply(op: SentOp): OpResult {
    for (const m of op.m) {
      const groups = Object.fromEntries(
        Object.entries(m.set ?? {}).map(([name, value]) => [name, { value, version: op.op, hlc: op.hlc }]),
      );
      this.write(m.t, m.id, { groups, ...(m.body ? { body: m.body } : {}) });
    }
    return { op: op.op, s: "applied", seq: this.head, lost: [] };
  }

  private pull({ cursor, limit }: SyncBody) {
    const reset = cursor > this.head;
    const from = reset ? this.head : cursor;
    const newer = [...this.records.values()]
      .filter((record) => record.seq > from)
      .sort((a, b) => a.seq - b.seq);
    const changes = newer.slice(0, Math.min(this.page, limit));
    const has_more = newer.length > changes.length;
    const reached = has_more ? (changes.at(-1)?.seq ?? this.head) : this.head;
    const now = { server_time: this.now(), epoch: this.epoch };
    const place = { cursor: reset ? 0 : reached, head: this.head, has_more: has_more || reset, reset };
    return { ...now, changes, ...place, digest: this.digest() };
  }

  private now(): string {
    return new Date(this.clock()).toISOString();
  }
}

const notFound = (): Response => json(404, { code: "not_found", message: "There is nothing here." });

const ndjson = (lines: unknown[]): Response =>
  new Response(lines.map((line) => `${JSON.stringify(line)}\n`).join(""), {
    headers: { "Content-Type": "application/x-ndjson" },
  });

/** Settings first; an id says when it was made, so the newest entry is the last by it. */
function place({ t, id }: ChangeRecord): string {
  if (t !== "entry") return `a ${t} ${id}`;
  return `b ${[...id].map((letter) => (letter === "-" ? "-" : "fedcba9876543210"[Number.parseInt(letter, 16)])).join("")}`;
}

/** One bucket of the book, as GET digest answers it. */
function bucketOfBook(records: Iterable<ChangeRecord>, prefix: string, server: FakeServer) {
  const all = [...records];
  const inBucket = (start: string) => all.filter(({ t, id }) => bucketOf(t, id).startsWith(start));
  const facts = (list: ChangeRecord[]) => ({ count: list.length, digest: digestText(sumAll(list)) });
  const here = inBucket(prefix);
  const own = { head: server.head, prefix, ...facts(here) };
  if (here.length <= 64 || prefix.length === 4) return { ...own, records: here };
  const digits = [..."0123456789abcdef"];
  return {
    ...own,
    children: Object.fromEntries(digits.map((digit) => [digit, facts(inBucket(prefix + digit))])),
  };
}

function read(body: BodyInit | null | undefined): unknown {
  if (typeof body === "string") return JSON.parse(body);
  return JSON.parse(gunzipSync(new Uint8Array(body as ArrayBuffer)).toString("utf8"));
}
