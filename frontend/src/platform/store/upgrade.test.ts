// @vitest-environment node
import Dexie from "dexie";
import { expect, it } from "vitest";
import { newId } from "./core/uuid7";
import { BookDb } from "./db";

const TABLES_1 = {
  base: "key",
  live: "key, t, [t+rev]",
  outbox: "op, dseq",
  parked: "op",
  drafts: "key",
  meta: "key",
};

const op = (dseq: number, more: object) => ({
  op: `op-${dseq}`,
  dseq,
  hlc: `000000000000${dseq}-0000-0badc0de`,
  schema: 1,
  m: [{ t: "zone", id: "z", set: { name: { name: `n${dseq}` } }, base: { name: null } }],
  sent: false,
  ...more,
});

it("F41 a book of the first version keeps everything when its tables are brought up to date (P9)", async () => {
  const name = newId();
  const old = new Dexie(name);
  old.version(1).stores(TABLES_1);
  const kept = {
    base: [{ key: "zone:z", record: { seq: 4, t: "zone", id: "z", groups: {} } }],
    live: [{ key: "zone:z", t: "zone", id: "z", groups: {}, seq: 4, pending: true, rev: 1 }],
    outbox: [
      op(1, { sent: true, seq: 9, hash: "h" }),
      op(2, { sent: true, hash: "i", m: [] }),
      op(3, {}),
      op(4, {}),
    ],
    parked: [{ op: "p", dseq: 0, where: "parked", why: { code: "c", message: "m" }, at: "2030", m: [] }],
    drafts: [{ key: "spread", value: { step: 3 } }],
    meta: [{ key: "state", incarnation: "i", dseq: 4, cursor: 4 }],
  };
  for (const [table, rows] of Object.entries(kept)) await old.table(table).bulkAdd(rows);
  old.close();

  const db = new BookDb(name);
  for (const [table, rows] of Object.entries(kept))
    expect(await db.table(table).toArray()).toMatchObject(rows);
  const due = await db.outbox.where("[judged+dseq]").between([0, Dexie.minKey], [0, Dexie.maxKey]).toArray();
  expect(due.map((one) => one.dseq)).toEqual([2, 3, 4]);
  expect(await db.outbox.where("keys").equals("zone:z").count()).toBe(3);
  expect(await db.outbox.where("hole").equals(1).count()).toBe(1);
  expect(await db.acked.count()).toBe(0);
  db.close();
});
