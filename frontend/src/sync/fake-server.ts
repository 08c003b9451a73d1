/**
 * For tests only: a household's server in memory, after sync.md "One round trip", reached through
 * `fetch` like the real one, with faults to order. It answers; it does not check what the phone
 * does. The real server is proved in Python; this one is for faults on the way.
 */
import { gunzipSync } from "node:zlib";
import { digestText, sumAll } from "../store/core/digest";
import type { SentOp } from "../store/core/outbox";
import type { ChangeRecord, OpResult } from "../store/core/records";

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

export class FakeServer {
  readonly records = new Map<string, ChangeRecord>();
  readonly ops = new Map<string, { hash: string; result: OpResult }>();
  readonly lines = new Map<string, number>();
  /** Every sync body that arrived, in order, whatever became of its answer. */
  readonly pushes: SyncBody[] = [];
  readonly faults: Fault[] = [];
  /** Stands on every request for as long as it is set. */
  always: Fault | undefined;
  /** Ops this server will not apply, by id, with the reason. */
  readonly refuses = new Map<string, { code: string; message: string }>();
  head = 0;
  page = 1000;

  readonly fetch = async (address: string | URL | Request, init?: RequestInit): Promise<Response> => {
    const path = String(address);
    if (path.endsWith("/devices")) return json(201, { device: "0190a000-0000-7000-8000-000000000001" });
    const body = read(init?.body) as SyncBody;
    this.pushes.push(body);
    const fault = this.faults.shift() ?? this.always;
    const reached = () => this.answer(body);
    return fault ? fault(reached, body) : reached();
  };

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
      if (known.hash !== op.hash) throw new Error(`op ${op.op} came again with other content`);
      return { ...known.result, s: "duplicate", was: known.result.s as "applied" };
    }
    const why = this.refuses.get(op.op);
    const result: OpResult = why ? { op: op.op, s: "parked", seq: null, why } : this.apply(op);
    this.ops.set(op.op, { hash: op.hash, result });
    return result;
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
    const now = { server_time: "2030-05-01T12:00:00Z", epoch: "0190a000-0000-7000-8000-0000000000ee" };
    const place = { cursor: reset ? 0 : reached, head: this.head, has_more: has_more || reset, reset };
    return { ...now, changes, ...place, digest: this.digest() };
  }
}

function read(body: BodyInit | null | undefined): unknown {
  if (typeof body === "string") return JSON.parse(body);
  return JSON.parse(gunzipSync(new Uint8Array(body as ArrayBuffer)).toString("utf8"));
}
