/** A phone of the simulation: the real store and the real sync on a disk, a clock and a network the seed decides. */
import { type Book, openBook } from "../../src/platform/store/book";
import type { Mutation } from "../../src/platform/store/types";
import { request } from "../../src/platform/sync/http";
import { createSync, type Sync } from "../../src/platform/sync/index";
import type { World } from "../../src/platform/sync/world";
import { chanceOf } from "./chance";
import { opening } from "./dexie";
import { Disk, type Write } from "./disk";
import { Page } from "./running";

/** What happened, in order; the other half reads it after every order. */
export const told: unknown[] = [];
/** True time, in ms since 1970; each phone's own clock may be off. */
export const time = { now: 0 };

export interface Answer {
  status: number;
  headers: Record<string, string>;
  /** The body, perhaps cut short; null when no answer came at all. */
  text: string | null;
}

const TIMEOUT_MS = 30_000;

export class Phone {
  readonly chance: () => number;
  readonly disk: Disk;
  readonly tabs = new Map<number, Tab>();
  /** Added to true time to give what this phone's clock says. */
  offset = 0;
  /** The tabs in the order in which they asked to lead; without locks all of them do. */
  readonly leaders: Place[] = [];

  constructor(
    readonly name: string,
    seed: string,
    readonly household: string,
    readonly locks: boolean,
  ) {
    this.chance = chanceOf(`${seed}/${name}`);
    this.disk = new Disk(name, (phone, writes: Write[], how) => told.push([how, phone, writes]));
  }

  now(): number {
    return time.now + this.offset;
  }

  open(number: number): void {
    this.tabs.set(number, new Tab(this, number));
  }

  /** The tab is gone at once, whatever it was doing. */
  kill(number: number): void {
    this.tabs.get(number)?.page.die();
  }

  gone(tab: Tab): void {
    this.tabs.delete(tab.number);
    for (const place of this.leaders.filter((one) => one.tab === tab)) this.leaves(place);
    told.push(["died", this.name, tab.number]);
  }

  leaves(place: Place): void {
    const at = this.leaders.indexOf(place);
    if (at >= 0) this.leaders.splice(at, 1);
    if (at === 0) this.leaders[0]?.go();
  }

  /** The leading tab seems frozen, and the next one in the line leads in its place (F40). */
  steal(): void {
    const [frozen, next] = this.leaders;
    if (!frozen || !next) return;
    this.leaders.shift();
    next.go();
    frozen.lost();
  }
}

/** A tab's place in the line of those that want to lead. */
interface Place {
  tab: Tab;
  go: () => void;
  lost: () => void;
}

interface Timer {
  at: number;
  work: () => unknown;
}

export class Tab {
  readonly page: Page;
  readonly book: Book;
  readonly sync: Sync;
  timers: Timer[] = [];
  private wakers: (() => unknown)[] = [];
  private readonly waiting = new Map<number, (answer: Answer) => void>();
  private asked = 0;

  constructor(
    readonly phone: Phone,
    readonly number: number,
  ) {
    this.page = new Page(phone.chance, () => phone.gone(this));
    opening.page = this.page;
    opening.disk = () => phone.disk;
    this.book = openBook("book", { now: () => phone.now(), persist: undefined });
    this.sync = createSync({
      book: this.book,
      household: phone.household,
      confirm: async () => "same",
      send: (method, path, body) => request(method, path, body, { fetch: this.fetch, timeoutMs: TIMEOUT_MS }),
      world: this.world(),
    });
    this.watch("start", this.sync.start());
  }

  save(tag: number, mutations: Mutation[]): void {
    this.tell(
      "saved",
      tag,
      this.book.save(mutations).then(({ op }) => op),
    );
  }
  withdraw(tag: number, op: string): void {
    this.tell("withdrawn", tag, this.book.withdraw(op));
  }
  again(tag: number, op: string): void {
    this.tell("again", tag, this.book.parkedAgain(op));
  }
  discard(tag: number, op: string): void {
    this.tell("discarded", tag, this.book.discardParked(op));
  }
  wake(): void {
    for (const work of this.wakers) work();
  }

  /** Runs what is due; a phone that slept runs it late. */
  tick(): void {
    const due = this.timers.filter((timer) => timer.at <= time.now).sort((a, b) => a.at - b.at);
    this.timers = this.timers.filter((timer) => !due.includes(timer));
    for (const timer of due) timer.work();
  }

  nextAt(): number | null {
    return this.timers.length > 0 ? Math.min(...this.timers.map((timer) => timer.at)) : null;
  }

  answer(id: number, answer: Answer): void {
    this.waiting.get(id)?.(answer);
    this.waiting.delete(id);
  }

  private tell(how: string, tag: number, outcome: Promise<unknown>): void {
    const { name } = this.phone;
    outcome.then(
      (value) => this.page.dead || told.push([how, name, this.number, tag, value ?? null]),
      (error: Error) => this.page.dead || told.push(["refused", name, this.number, tag, error.name]),
    );
  }

  private watch(what: string, work: Promise<unknown>): void {
    work.catch((error: Error) =>
      told.push(["error", this.phone.name, this.number, what, String(error.stack)]),
    );
  }

  private readonly fetch = (async (address: string, init: { method: string; body?: string }) => {
    if (this.page.dead) await this.page.lives();
    const id = ++this.asked;
    told.push(["ask", this.phone.name, this.number, id, init.method, address, init.body ?? null]);
    const answer = await new Promise<Answer>((resolve) => this.waiting.set(id, resolve));
    if (this.page.dead) await this.page.lives();
    if (answer.text === null) throw new TypeError("no answer came");
    return responseOf({ ...answer, text: answer.text });
  }) as unknown as typeof fetch;

  private world(): World {
    const { phone } = this;
    return {
      now: () => phone.now(),
      chance: phone.chance,
      visible: () => true,
      after: (ms, work) => {
        const timer = { at: Math.ceil(time.now + ms), work };
        this.timers.push(timer);
        return () => {
          this.timers = this.timers.filter((one) => one !== timer);
        };
      },
      onWake: (work) => {
        this.wakers.push(work);
        return () => {
          this.wakers = this.wakers.filter((one) => one !== work);
        };
      },
      lead: (_name, _signal, lost) => this.lead(lost),
    };
  }

  private async lead(lost: () => void = () => undefined): Promise<() => void> {
    const { leaders, locks } = this.phone;
    if (!locks) return () => undefined;
    const place = { tab: this, go: (): void => undefined, lost };
    await new Promise<void>((go) => {
      place.go = go;
      leaders.push(place);
      if (leaders[0] === place) go();
    });
    return () => this.phone.leaves(place);
  }
}

/** As much of a Response as is read, without the streams behind a real one, which need more than microtasks. */
function responseOf({ status, headers, text }: Answer & { text: string }): Response {
  const said = new Map(Object.entries(headers).map(([name, value]) => [name.toLowerCase(), value]));
  const response = {
    status,
    ok: status >= 200 && status < 300,
    headers: { get: (name: string) => said.get(name.toLowerCase()) ?? null },
    json: async () => JSON.parse(text) as unknown,
    text: async () => text,
  };
  return response as unknown as Response;
}
