/**
 * The phones' half of the simulation: reads one order a line, lets everything that follows from it happen, and
 * answers with one line of what was seen. Nothing here decides anything: the orders come from the seed's driver.
 */
import { readSync, writeSync } from "node:fs";
import type { Mutation } from "../../src/platform/store/types";
import type { Image, Write } from "./disk";
import { frozen } from "./keys";
import { type Answer, Phone, type Tab, time, told } from "./phone";

interface Order extends Partial<Answer> {
  do: string;
  at: number;
  p: string;
  tab: number;
  tag: number;
  id: number;
  n: number;
  said: string;
  on: boolean;
  m: Mutation[];
  rows: Write[];
}

let seed = "";
let phones = new Map<string, Phone>();
let images = new Map<string, Image>();

const phoneOf = (order: Order): Phone => {
  const phone = phones.get(order.p);
  if (!phone) throw new Error(`no phone ${order.p}`);
  return phone;
};
const tabOf = (order: Order): Tab | undefined => phoneOf(order).tabs.get(order.tab);

function killAll(phone: Phone): void {
  for (const number of [...phone.tabs.keys()]) phone.kill(number);
}

const ORDERS: Record<string, (order: Order) => void> = {
  begin(order) {
    seed = order.said;
    frozen.on = order.on;
    phones = new Map();
    images = new Map();
  },
  phone: (order) => phones.set(order.p, new Phone(order.p, seed, order.said, order.on)),
  open: (order) => phoneOf(order).open(order.tab),
  close: (order) => phoneOf(order).kill(order.tab),
  kill: (order) => killAll(phoneOf(order)),
  arm(order) {
    for (const tab of phoneOf(order).tabs.values()) tab.page.diesIn = order.n;
  },
  save: (order) => tabOf(order)?.save(order.tag, order.m),
  withdraw: (order) => tabOf(order)?.withdraw(order.tag, order.said),
  again: (order) => tabOf(order)?.again(order.tag, order.said),
  discard: (order) => tabOf(order)?.discard(order.tag, order.said),
  wake: (order) => tabOf(order)?.wake(),
  tick: (order) => tabOf(order)?.tick(),
  answer: (order) =>
    tabOf(order)?.answer(order.id, {
      status: order.status ?? 0,
      headers: order.headers ?? {},
      text: order.text ?? null,
    }),
  clock(order) {
    phoneOf(order).offset = order.n;
  },
  /** All is well from now on; `on`: the app is to be started anew as well. */
  calm(order) {
    const phone = phoneOf(order);
    phone.disk.full = false;
    for (const tab of phone.tabs.values()) tab.page.diesIn = Number.POSITIVE_INFINITY;
    if (order.on) killAll(phone);
  },
  full(order) {
    phoneOf(order).disk.full = order.on;
  },
  cut(order) {
    killAll(phoneOf(order));
    told.push(["cut", order.p, phoneOf(order).disk.lose(order.n)]);
  },
  steal: (order) => phoneOf(order).steal(),
  image: (order) => images.set(order.said, phoneOf(order).disk.image()),
  restore(order) {
    killAll(phoneOf(order));
    phoneOf(order).disk.restore(images.get(order.said) ?? new Map());
  },
  damage: (order) => phoneOf(order).disk.damage(order.rows),
};

/** One phone acts in an order: its clock and its chance are the world's meanwhile. */
let acting: Phone | undefined;
Date.now = () => acting?.now() ?? time.now;
Math.random = () => acting?.chance() ?? 0;
const never = new AbortController().signal;
AbortSignal.timeout = () => never;
crypto.getRandomValues = ((bytes: Uint8Array) => {
  for (let at = 0; at < bytes.length; at++) bytes[at] = Math.floor((acting?.chance() ?? 0) * 256);
  return bytes;
}) as typeof crypto.getRandomValues;
// Packing needs more than microtasks; the server's side of it is proved elsewhere.
Reflect.deleteProperty(globalThis, "CompressionStream");
process.on("unhandledRejection", (error) =>
  told.push(["error", acting?.name ?? "", 0, "unhandled", String(error)]),
);

async function obey(line: string): Promise<string> {
  const order = JSON.parse(line) as Order;
  time.now = order.at;
  acting = phones.get(order.p);
  (ORDERS[order.do] as (order: Order) => void)(order);
  acting = phones.get(order.p);
  await new Promise((settled) => setImmediate(settled));
  const timers: Record<string, number | null> = {};
  for (const tab of acting?.tabs.values() ?? []) {
    timers[tab.number] = tab.nextAt();
    if (tab.page.open.size > 0)
      told.push(["error", order.p, tab.number, "a transaction waits for something else"]);
  }
  return JSON.stringify({ told: told.splice(0), timers });
}

const CHUNK = Buffer.alloc(1 << 20);
async function serve(): Promise<void> {
  for (let rest = ""; ; ) {
    const end = rest.indexOf("\n");
    if (end >= 0) {
      const answer = await obey(rest.slice(0, end));
      const bytes = Buffer.from(`${answer}\n`);
      for (let sent = 0; sent < bytes.length; ) sent += writeSync(1, bytes, sent);
      rest = rest.slice(end + 1);
      continue;
    }
    const count = readSync(0, CHUNK);
    if (count === 0) return;
    rest += CHUNK.toString("utf8", 0, count);
  }
}

await serve();
