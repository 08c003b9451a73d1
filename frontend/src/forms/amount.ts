/**
 * Amounts as typed. A bare number is read here at once; one with a unit behind it ("50 lb", "12 ft 6 in") by the engine,
 * whose answers are kept, so that whoever reads one in a computed or a component is told again once it is there.
 */
import { signal } from "@preact/signals";
import { grouped, type Parsed, readBare, type Typed, unit } from "../format";
import { call } from "../platform/engine";
import type { AnswerTo, Args } from "../platform/engine/types";

export type Read =
  | { ok: true; si: number; typed: Typed; says?: string }
  | { ok: false; code: string; message: string };

type ReadCall = (args: Args<"units.read">) => Promise<AnswerTo<"units.read">>;

const READING: Read = { ok: false, code: "reading", message: "Still reading this. Try again." };
const MOST_KEPT = 500;
/** Six figures, as amounts that are filled in. */
const DECIMALS = 6;

const answers = signal<ReadonlyMap<string, Read>>(new Map());
const waiting = new Map<string, Promise<void>>();
let askEngine: ReadCall = (args) => call("units.read", args);

/** For tests: who reads what has a unit. */
export function readBy(call: ReadCall): void {
  askEngine = call;
  answers.value = new Map();
}

/** A figure and a letter or a mark of feet and inches: words alone are no amount, which needs no engine to say. */
const hasUnit = (text: string): boolean => /[\d½¼¾⅓⅔⅛⅜⅝⅞]/.test(text) && /[a-z²³'"′″]/i.test(text);

/** What stands in an amount box; a unit written behind the number wins over the one chosen. */
export function parse(amount: string, unitKey: string): Read {
  if (!hasUnit(amount) || unit(unitKey) === undefined) return readBare(amount, unitKey) satisfies Parsed;
  const key = `${unitKey} ${amount}`;
  const known = answers.value.get(key);
  if (known) return known;
  if (!waiting.has(key)) waiting.set(key, answered(key, amount, unitKey));
  return READING;
}

async function answered(key: string, amount: string, unitKey: string): Promise<void> {
  const answer = await askEngine({ text: amount, unit: unitKey });
  waiting.delete(key);
  const kept = [...answers.peek()].slice(-MOST_KEPT);
  answers.value = new Map([...kept, [key, readOf(answer, amount, unitKey)]]);
}

function readOf({ value, error }: AnswerTo<"units.read">, amount: string, unitKey: string): Read {
  if (!value) return { ok: false, code: error?.code ?? "", message: error?.message ?? "" };
  // So much per an area of no unit of ours: kept whole, and read again as it is.
  const typed = value.unit ? { amount: value.amount, unit: value.unit } : { amount, unit: unitKey };
  return { ok: true, si: value.value, typed, says: value.parts.map(said).join(" ") };
}

function said(part: { number: number; unit: string }): string {
  const found = unit(part.unit);
  return `${grouped(part.number, DECIMALS, found?.system ?? "us")} ${found?.label ?? part.unit}`;
}

/** What an amount with a unit was read as, "15 lb 8 oz"; nothing for a bare number, whose unit stands beside it. */
export function readAs({ amount, unit: unitKey }: Typed): string | undefined {
  const read = hasUnit(amount) ? parse(amount, unitKey) : undefined;
  return read?.ok ? read.says : undefined;
}

/**
 * Once all that was typed is read: before a save, which must not miss what was typed last. `look` reads the form, in case
 * nobody does yet. What an engine that was not there could not read is asked again.
 */
export async function allRead(look: () => unknown = () => undefined): Promise<void> {
  const all = [...answers.peek()];
  const told = all.filter(([, read]) => read.ok || !read.code.startsWith("engine_"));
  if (told.length < all.length) answers.value = new Map(told);
  look();
  while (waiting.size) await Promise.all(waiting.values());
}
