import { describe, expect, it } from "vitest";
import { BEAT_MS, type Channel, createLead, type Lead, STALE_MS } from "./leader";

/** One browser: its locks as the Web Locks standard has them, its channel, and tabs whose time passes when told to. */
class Browser {
  private holder: { end: (why: unknown) => void } | undefined;
  private queue: { grant: () => void }[] = [];
  private ears: ((word: "beat" | "wanted") => void)[] = [];

  request(options: { steal?: boolean; signal?: AbortSignal }, work: () => Promise<void>): Promise<void> {
    return new Promise((done, fails) => {
      const asked = {
        grant: () => {
          const mine = { end: fails };
          this.holder = mine;
          void work().then(() => {
            done();
            if (this.holder !== mine) return;
            this.holder = undefined;
            this.queue.shift()?.grant();
          });
        },
      };
      options.signal?.addEventListener("abort", () => {
        const at = this.queue.indexOf(asked);
        if (at < 0) return;
        this.queue.splice(at, 1);
        fails(new DOMException("", "AbortError"));
      });
      if (options.steal) {
        this.holder?.end(new DOMException("", "AbortError"));
        asked.grant();
      } else if (this.holder) this.queue.push(asked);
      else asked.grant();
    });
  }

  tab(): Tab {
    return new Tab(this);
  }

  /** A word to every tab but the one that says it, as a BroadcastChannel has it. */
  channel(tab: Tab): Channel {
    let mine: (word: "beat" | "wanted") => void = () => undefined;
    return {
      say: (word) => {
        for (const ear of this.ears) if (ear !== mine) ear(word);
      },
      hear: (heard) => {
        mine = (word) => (tab.frozen ? tab.unheard.push(() => heard(word)) : heard(word));
        this.ears.push(mine);
      },
      close: () => {
        this.ears = this.ears.filter((ear) => ear !== mine);
      },
    };
  }
}

class Tab {
  frozen = false;
  visible = true;
  leads = 0;
  losses = 0;
  readonly unheard: (() => void)[] = [];
  private ticks: (() => void)[] = [];
  private end: () => void = () => undefined;
  readonly closing = new AbortController();
  private readonly lead: Lead;

  constructor(browser: Browser) {
    this.lead = createLead({
      locks: { request: (_: string, options: any, work: any) => browser.request(options, work) } as never,
      channel: () => browser.channel(this),
      every: (_, work) => {
        this.ticks.push(work);
        return () => this.ticks.splice(this.ticks.indexOf(work), 1);
      },
      visible: () => this.visible,
    });
  }

  open(): this {
    this.lead("book", this.closing.signal, () => {
      this.losses += 1;
      this.leads -= 1;
      this.open();
    }).then(
      (end) => {
        this.leads += 1;
        this.end = end;
      },
      () => undefined,
    );
    return this;
  }

  release(): void {
    this.leads -= 1;
    this.end();
  }

  /** This tab's timers fire once each; a frozen tab's do not. */
  tick(): void {
    if (!this.frozen) for (const work of [...this.ticks]) work();
  }

  thaw(): void {
    this.frozen = false;
    for (const hear of this.unheard.splice(0)) hear();
  }
}

const settled = () => new Promise((done) => setTimeout(done, 0));

async function pass(ms: number, ...tabs: Tab[]): Promise<void> {
  for (let left = ms; left > 0; left -= BEAT_MS) {
    for (const tab of tabs) tab.tick();
    await settled();
  }
}

async function two(): Promise<[Tab, Tab]> {
  const browser = new Browser();
  const first = browser.tab().open();
  await settled();
  const second = browser.tab().open();
  await settled();
  return [first, second];
}

describe("S16 one tab leads", () => {
  it("the first, for as long as it lives and says so", async () => {
    const [first, second] = await two();
    await pass(10 * STALE_MS, first, second);
    expect([first.leads, second.leads, first.losses]).toEqual([1, 0, 0]);
  });

  it("and the next one as soon as it ends", async () => {
    const [first, second] = await two();
    first.release();
    await settled();
    expect([first.leads, second.leads]).toEqual([0, 1]);
  });

  it("a waiting tab that closes is not waited for", async () => {
    const browser = new Browser();
    const first = browser.tab().open();
    await settled();
    const second = browser.tab().open();
    const third = browser.tab().open();
    second.closing.abort();
    first.release();
    await settled();
    expect([second.leads, third.leads]).toEqual([0, 1]);
  });

  it("a leader out of sight hands over to a tab in view, and takes part again", async () => {
    const [first, second] = await two();
    first.visible = false;
    await pass(BEAT_MS, second);
    expect([first.leads, second.leads, first.losses]).toEqual([0, 1, 1]);
    second.release();
    await settled();
    expect(first.leads).toBe(1);
  });

  it("a leader in view keeps the lead whatever others ask", async () => {
    const [first, second] = await two();
    await pass(STALE_MS, second, first);
    expect([first.leads, second.leads]).toEqual([1, 0]);
  });

  it("without Web Locks every tab does, at once", async () => {
    const lead = createLead({
      locks: undefined,
      channel: () => {
        throw new Error("nothing to say");
      },
      every: () => () => undefined,
      visible: () => true,
    });
    await expect(lead("book", new AbortController().signal)).resolves.toBeTypeOf("function");
  });
});

describe("F40 the leader's tab is frozen", () => {
  it("its lock is taken after 30 s, not before", async () => {
    const [first, second] = await two();
    first.frozen = true;
    await pass(STALE_MS - BEAT_MS, first, second);
    expect(second.leads).toBe(0);
    await pass(BEAT_MS, first, second);
    expect(second.leads).toBe(1);
  });

  it("when it goes on it leads no more, and follows", async () => {
    const [first, second] = await two();
    first.frozen = true;
    await pass(STALE_MS, first, second);
    first.thaw();
    await pass(10 * STALE_MS, first, second);
    expect([first.leads, first.losses, second.leads, second.losses]).toEqual([0, 1, 1, 0]);
    second.release();
    await settled();
    expect(first.leads).toBe(1);
  });

  it("a tab out of sight takes nothing: it has nobody waiting before it", async () => {
    const [first, second] = await two();
    first.frozen = true;
    second.visible = false;
    await pass(3 * STALE_MS, first, second);
    expect(second.leads).toBe(0);
  });

  it("a tab that was frozen itself does not take a living leader's lock", async () => {
    const [first, second] = await two();
    second.frozen = true;
    await pass(3 * STALE_MS, first, second);
    second.thaw();
    await pass(STALE_MS, first, second);
    expect([first.leads, second.leads]).toEqual([1, 0]);
  });
});
