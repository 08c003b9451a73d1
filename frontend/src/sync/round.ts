/** One round trip: push what waits, take what came. All that is remembered is in the store. */
import kinds from "@fixtures/kinds.json";
import type { components } from "../models/api";
import { quarantine, reincarnate, rewind, type SyncAnswer, takeAnswer, takePush } from "../store/answers";
import type { Book } from "../store/book";
import { halved, PUSH_LIMITS } from "../store/core/outbox";
import type { State } from "../store/core/records";
import { readState } from "../store/state";
import { PROTO, readAnswer } from "./answer";
import type { Failure, request } from "./http";

export type Request = typeof request;
type Schemas = components["schemas"];

export type Ended =
  /** Done with this round; `quiet` when nothing waits on either side. */
  | { kind: "done"; quiet: boolean; answer: SyncAnswer }
  /** The same push must be tried differently, at once. */
  | { kind: "differently" }
  | { kind: "later"; failure: Failure };

const PAGE = 1000;
const BUILD = import.meta.env?.MODE ?? "test";

const ODD: Failure = {
  ok: false,
  status: 0,
  code: "odd_answer",
  message: "Something other than the Swardbook server answered. What you entered stays on this phone.",
};

export interface Rounds {
  next(): Promise<Ended>;
}

/**
 * The rounds of one book. A push refused for its size or content (400, 413) is halved; an op
 * refused alone is set aside only after a push without it got through, so that a broken server
 * or proxy cannot empty the outbox.
 */
export function createRounds(book: Book, household: string, send: Request, now: () => string): Rounds {
  let most = PUSH_LIMITS.ops;
  let suspect: { op: string; failure: Failure } | undefined;

  async function next(): Promise<Ended> {
    const { state, ops } = await takePush(book.db, { ...PUSH_LIMITS, ops: suspect ? 0 : most });
    const body: Schemas["SyncRequestRequest"] = {
      proto: PROTO,
      schema: kinds.schema,
      build: BUILD,
      device: state.device ?? "",
      incarnation: state.incarnation,
      cursor: state.cursor,
      confirmed_dseq: state.confirmed,
      ops: ops.map(({ op, dseq, hlc, schema, m, hash }) => ({ op, dseq, hlc, schema, m, hash })),
      limit: PAGE,
    };
    const outcome = await send<unknown>("POST", `households/${household}/sync`, body);
    if (!outcome.ok) return refused(outcome, ops);
    const answer = readAnswer(outcome.value);
    return answer ? answered(answer, state, ops.length) : { kind: "later", failure: ODD };
  }

  function refused(failure: Failure, ops: { op: string }[]): Ended {
    const only = ops.length === 1 ? ops[0] : undefined;
    const content = failure.status === 400 || failure.status === 413;
    suspect = undefined;
    if (!content || ops.length === 0) return { kind: "later", failure };
    if (only) suspect = { op: only.op, failure };
    else most = halved(ops.length);
    return { kind: "differently" };
  }

  async function answered(answer: SyncAnswer, asked: State, pushed: number): Promise<Ended> {
    book.show(await takeAnswer(book.db, answer, asked, now()));
    if (suspect) {
      const { code, message, fields } = suspect.failure;
      book.show(
        await quarantine(book.db, suspect.op, fields ? { code, message, fields } : { code, message }, now()),
      );
      suspect = undefined;
      return { kind: "differently" };
    }
    most = PUSH_LIMITS.ops;
    if (answer.fork_detected) await reincarnate(book.db);
    else if (typeof answer.need_from === "number") await rewind(book.db, answer.need_from);
    const left = await book.db.outbox.filter((op) => op.seq === undefined).count();
    const { cursor } = await readState(book.db);
    const nothingDone = pushed === 0 && !answer.has_more;
    const caughtUp = !answer.has_more && cursor >= answer.cursor && left === 0;
    return { kind: "done", quiet: caughtUp || nothingDone, answer };
  }

  return { next };
}
