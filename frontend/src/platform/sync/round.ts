/** One round trip: push what waits, take what came. All that is remembered is in the store. */
import contract from "@fixtures/contract.json";
import type { components } from "../api";
import type { Book } from "../store/book";
import { halved, PUSH_LIMITS } from "../store/core/outbox";
import type { Op, State } from "../store/core/records";
import { type SyncAnswer, takeAnswer } from "../store/incoming/answers";
import { type Push, quarantine, reincarnate, rewind, standing, takePush } from "../store/lines";
import { eraOf } from "../store/state";
import { PROTO, readAnswer } from "./answer";
import { type Failure, ODD, type Outcome, type request } from "./http";

export type Request = typeof request;
type Schemas = components["schemas"];

export type Ended =
  /** Done with this round; `quiet` when nothing waits on either side. */
  | { kind: "done"; quiet: boolean; answer: SyncAnswer; asked: State }
  /** The same push must be tried differently, at once. */
  | { kind: "differently" }
  | { kind: "later"; failure: Failure };

/** A question on its way: the state it was made from, what it carries, and what comes of it. */
interface Asked {
  state: State;
  ops: readonly Op[];
  coming: Promise<Outcome<unknown>>;
}

export const PAGE = 1000;
const BUILD = import.meta.env?.MODE ?? "test";

export interface Rounds {
  next(): Promise<Ended>;
  /** What waits may go out again: a new try. */
  begin(): void;
  /** Why nothing is pushed in this try, though something waits: this build is too old (426), or the book is full. */
  tooOld(): Failure | undefined;
}

/**
 * The rounds of one book. A push refused for its size or content (400, 413) is halved; an op
 * refused alone is set aside only after a push without it got through, so that a broken server
 * or proxy cannot empty the outbox.
 */
export function createRounds(book: Book, household: string, send: Request, now: () => number): Rounds {
  let most = PUSH_LIMITS.ops;
  let old: Failure | undefined;
  let suspect: { op: string; failure: Failure } | undefined;
  /** The next push, sent while the answer before it is stored. */
  let ahead: Asked | undefined;

  async function next(): Promise<Ended> {
    const { state, ops, coming } = ahead ?? (await asked());
    ahead = undefined;
    const outcome = await coming;
    if (!outcome.ok) return refused(outcome, ops);
    const answer = readAnswer(outcome.value);
    return answer ? answered(answer, state, ops) : { kind: "later", failure: ODD };
  }

  async function asked(): Promise<Asked> {
    return sent(await takePush(book.db, { ...PUSH_LIMITS, ops: suspect || old ? 0 : most }));
  }

  /**
   * Where the answer is on all that was sent and wants nothing else, and a whole push more waits: that is sent as from
   * the cursor the answer brings. Answers are stored one after another, so where this one cannot be, the next never is.
   */
  async function sendAhead(answer: SyncAnswer, state: State, ops: readonly Op[]): Promise<void> {
    const last = ops.at(-1)?.dseq;
    if (suspect || last === undefined || !isPlain(answer, state, ops)) return;
    const push = await takePush(book.db, PUSH_LIMITS, last);
    const same = push.state.incarnation === state.incarnation && eraOf(push.state) === eraOf(state);
    if (push.booting || !same || push.state.cursor !== state.cursor || push.ops.length === 0) return;
    ahead = sent({ ...push, state: { ...push.state, cursor: answer.cursor } });
  }

  function sent({ state, ops, booting }: Push): Asked {
    const body: Schemas["SyncRequestRequest"] = {
      proto: PROTO,
      schema: contract.schema,
      build: BUILD,
      device: state.device ?? "",
      incarnation: state.incarnation,
      cursor: state.cursor,
      confirmed_dseq: state.confirmed,
      ops: ops.map(({ op, dseq, hlc, schema, m, hash }) => ({ op, dseq, hlc, schema, m, hash })),
      // While the whole book is being fetched, a round is for pushing; the server gives one record at least.
      limit: booting ? 1 : PAGE,
    };
    return { state, ops, coming: send<unknown>("POST", `households/${household}/sync`, body) };
  }

  function refused(failure: Failure, ops: readonly { op: string }[]): Ended {
    const only = ops.length === 1 ? ops[0] : undefined;
    const content = failure.status === 400 || failure.status === 413;
    suspect = undefined;
    // Nothing more is taken for now, and what the others wrote is still read.
    if ((failure.status === 426 || failure.code === "book_full") && ops.length > 0) {
      old = failure;
      return { kind: "differently" };
    }
    if (!content || ops.length === 0) return { kind: "later", failure };
    if (only) suspect = { op: only.op, failure };
    else most = halved(ops.length);
    return { kind: "differently" };
  }

  async function answered(answer: SyncAnswer, asked: State, ops: readonly Op[]): Promise<Ended> {
    await sendAhead(answer, asked, ops);
    book.show(await takeAnswer(book.db, answer, asked, now()));
    if (suspect) {
      const { code, message, fields } = suspect.failure;
      const why = fields ? { code, message, fields } : { code, message };
      book.show(await quarantine(book.db, suspect.op, why, new Date(now()).toISOString()));
      suspect = undefined;
      return { kind: "differently" };
    }
    most = PUSH_LIMITS.ops;
    if (answer.fork_detected) await reincarnate(book.db, asked.incarnation);
    else if (typeof answer.need_from === "number") await rewind(book.db, answer.need_from, asked.incarnation);
    const { state, left } = await standing(book.db);
    const caughtUp = !answer.has_more && state.cursor >= answer.cursor && eraOf(state) === eraOf(asked);
    return { kind: "done", quiet: caughtUp && (!left || old !== undefined), answer, asked };
  }

  return {
    next,
    begin() {
      old = undefined;
      ahead = undefined;
    },
    tooOld: () => old,
  };
}

/** Nothing of the answer changes what goes out next, or as what. */
function isPlain(answer: SyncAnswer, asked: State, ops: readonly Op[]): boolean {
  const judged = new Set(answer.results.map(({ op }) => op));
  const odd = answer.reset || answer.fork_detected || typeof answer.need_from === "number";
  const sameServer = Boolean(answer.epoch) && (asked.epoch === undefined || answer.epoch === asked.epoch);
  return !odd && sameServer && answer.acked_dseq >= asked.confirmed && ops.every(({ op }) => judged.has(op));
}
