import { describe, expect, it } from "vitest";
import { CAP_MS, IDLE_MS } from "./backoff";
import { fakeHousehold } from "./fake/household";
import { createNews, type News, type Stream } from "./news";

/** The page and its streams, moved by hand. */
class Page {
  inView = true;
  readonly opened: { address: string; at: (text: string) => void; broken: () => void; closed: boolean }[] =
    [];
  timer: { ms: number; work: () => void } | undefined;
  private watching: (() => void)[] = [];

  readonly follow = createNews({
    open: (address): Stream => {
      const one = { address, at: (_: string) => {}, broken: () => {}, closed: false };
      this.opened.push(one);
      return {
        onAt: (heard) => {
          one.at = heard;
        },
        onBroken: (broken) => {
          one.broken = broken;
        },
        close: () => {
          one.closed = true;
        },
      };
    },
    after: (ms, work) => {
      this.timer = { ms, work };
      return () => {
        this.timer = undefined;
      };
    },
    onView: (work) => {
      this.watching.push(work);
      return () => {
        this.watching = [];
      };
    },
    visible: () => this.inView,
    chance: () => 1,
  });

  view(on: boolean): void {
    this.inView = on;
    for (const work of this.watching) work();
  }

  get last() {
    const one = this.opened.at(-1);
    if (!one) throw new Error("no stream was opened");
    return one;
  }
}

function listening(): { page: Page; news: News; heard: number[]; lost: () => number } {
  const page = new Page();
  const heard: number[] = [];
  let lost = 0;
  const news = page.follow(
    "h1",
    (seq) => heard.push(seq),
    () => {
      lost += 1;
    },
  );
  return { page, news, heard, lost: () => lost };
}

describe("S17 the server's news", () => {
  it("are numbers from one stream of this household", () => {
    const { page, news, heard } = listening();
    expect(page.last.address).toBe("/api/v1/households/h1/events");
    expect(news.flowing()).toBe(false);
    page.last.at('{"seq": 7}');
    page.last.at('{"seq": 9}');
    expect(heard).toEqual([7, 9]);
    expect(news.flowing()).toBe(true);
  });

  it("that are not numbers are nothing", () => {
    const { page, news, heard } = listening();
    for (const text of [
      "",
      "<html>",
      "null",
      '{"seq": "7"}',
      '{"seq": -1}',
      '{"seq": 1.5}',
      '{"seq": 1e300}',
    ])
      page.last.at(text);
    expect(heard).toEqual([]);
    expect(news.flowing()).toBe(false);
  });

  it("stop out of sight and begin again in view", () => {
    const { page, news } = listening();
    page.last.at('{"seq": 7}');
    page.view(false);
    expect(page.last.closed).toBe(true);
    expect(news.flowing()).toBe(false);
    page.view(true);
    expect(page.opened).toHaveLength(2);
    expect(page.last.closed).toBe(false);
  });

  it("are tried again for ever, at most five minutes apart, and soon again once they flowed", () => {
    const { page, lost } = listening();
    const pauses: number[] = [];
    for (let times = 0; times < 12; times += 1) {
      page.last.broken();
      expect(page.last.closed).toBe(true);
      pauses.push(page.timer?.ms ?? Number.NaN);
      page.timer?.work();
    }
    expect(pauses.slice(0, 3)).toEqual([2_000, 4_000, 8_000]);
    expect(Math.max(...pauses)).toBe(CAP_MS);
    expect(lost()).toBe(0);
    page.last.at('{"seq": 7}');
    page.last.broken();
    expect(page.timer?.ms).toBe(2_000);
    expect(lost()).toBe(1);
  });

  it("of a stream closed already are not heard, and a stopped listener opens nothing", () => {
    const { page, news, heard } = listening();
    const old = page.last;
    old.broken();
    old.at('{"seq": 7}');
    expect(heard).toEqual([]);
    news.stop();
    expect(page.timer).toBeUndefined();
    page.view(true);
    expect(page.opened).toHaveLength(1);
  });
});

describe("F10 news are a hint", () => {
  const household = fakeHousehold();

  function withNews(flowing: boolean) {
    let heard: (seq: number) => unknown = () => undefined;
    household.world.news = (_, on) => {
      heard = on;
      return { flowing: () => flowing, stop: () => undefined };
    };
    return (seq: number) => heard(seq);
  }

  it("a number beyond the cursor makes the phone look at once; one it has does not", async () => {
    const say = withNews(true);
    await household.sync.start();
    const before = household.server.pushes.length;
    await say(household.server.head);
    expect(household.server.pushes.length).toBe(before);
    household.server.write("zone", "z1", { groups: { name: { value: { name: "Verge" }, version: "o1" } } });
    await say(household.server.head);
    expect(household.server.pushes.at(-1)?.cursor).toBe(household.server.head - 1);
  });

  it("the death of the server between a commit and its news costs no change: the next round brings it", async () => {
    withNews(true);
    await household.sync.start();
    household.server.write("zone", "z1", { groups: { name: { value: { name: "Verge" }, version: "o1" } } });
    await household.world.runNext();
    const base = await household.book.db.base.toArray();
    expect(base.map((row) => row.key)).toEqual(["zone:z1"]);
  });

  it("the idle round comes less often while they flow, and never not at all", async () => {
    withNews(false);
    await household.sync.start();
    expect(household.world.nextIn()).toBe(IDLE_MS);
    const other = household.phone();
    withNews(true);
    household.world.timers.length = 0;
    await other.sync.start();
    expect(household.world.nextIn()).toBe(CAP_MS);
  });
});
