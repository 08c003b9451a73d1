/** Reading the server's answer: only one of the right shape may change anything (S9). */
import type { SyncAnswer } from "../store/incoming/answers";

export const PROTO = 1;

export const isNumber = (value: unknown): value is number =>
  typeof value === "number" && Number.isFinite(value);

/** The answer, or undefined when this is not one of ours. */
export function readAnswer(json: unknown): SyncAnswer | undefined {
  if (typeof json !== "object" || json === null) return undefined;
  const answer = json as Partial<SyncAnswer> & { proto?: number };
  if (answer.proto !== undefined && answer.proto !== PROTO) return undefined;
  const numbers = isNumber(answer.cursor) && isNumber(answer.head) && isNumber(answer.acked_dseq);
  if (!numbers || typeof answer.has_more !== "boolean") return undefined;
  if (!isListOf(answer.results, isResult) || !isListOf(answer.changes, isChange)) return undefined;
  return answer as SyncAnswer;
}

function isListOf(list: unknown, is: (item: any) => boolean): boolean {
  return Array.isArray(list) && list.every((item) => typeof item === "object" && item !== null && is(item));
}

const VERDICTS = new Set(["applied", "merged", "parked", "duplicate"]);

function isResult(result: { op?: unknown; s?: unknown }): boolean {
  return typeof result.op === "string" && typeof result.s === "string" && VERDICTS.has(result.s);
}

/** Whether this is a record as it travels. */
export function isChange(change: { seq?: unknown; t?: unknown; id?: unknown; groups?: unknown }): boolean {
  const named = typeof change.t === "string" && typeof change.id === "string";
  return named && isNumber(change.seq) && typeof change.groups === "object" && change.groups !== null;
}
