// @vitest-environment happy-dom
import { beforeEach, describe, expect, it, vi } from "vitest";
import { enterSheet, markHere, move, startWayBack, takeEntries, whenThere } from "../../../ui/parts/way-back";
import { createTrail, GUARD } from "./trail";

interface Entry {
  state: unknown;
  url: string;
}

/** A browser's history that goes when it is told to, and only then says so. */
function browser(url = "/") {
  const list: Entry[] = [{ state: null, url }];
  let at = 0;
  const gone: number[] = [];
  const put = (state: unknown, _: string, to?: string | null): Entry => ({
    state,
    url: to ?? list[at]?.url ?? "",
  });
  return {
    get state() {
      return list[at]?.state ?? null;
    },
    get url() {
      return list[at]?.url;
    },
    urls: () => list.slice(0, at + 1).map(({ url: one }) => one),
    pushState(state: unknown, unused: string, to?: string | null) {
      list.splice(at + 1, list.length, put(state, unused, to));
      at += 1;
    },
    replaceState(state: unknown, unused: string, to?: string | null) {
      list[at] = put(state, unused, to);
    },
    go(by: number) {
      gone.push(by);
    },
    /** What a browser does in its own time. */
    arrive() {
      for (const by of gone.splice(0)) {
        if (!list[at + by]) continue;
        at += by;
        dispatchEvent(new PopStateEvent("popstate", { state: this.state }));
      }
    },
    back() {
      this.go(-1);
      while (gone.length) this.arrive();
    },
    forward() {
      this.go(1);
      while (gone.length) this.arrive();
    },
  };
}

const BACK: Record<string, string> = { aim: "choose", care: "aim", load: "care", left: "yard" };

function job(step = "choose", id = "job") {
  const entries = browser();
  takeEntries(entries);
  entries.pushState(null, "", "/spread");
  const at = { job: id, step, counted: false, warns: 0, warned: false, traversed: false };
  const to = (from: string) => (from === "yard" ? (at.counted ? undefined : "load") : BACK[from]);
  const below = (from: string): string[] => {
    const next = to(from);
    return next ? [...below(next), next] : [];
  };
  const make = () =>
    createTrail({
      stand: () => ({ job: at.job, step: at.step }),
      beneath: () => {
        const steps = below(at.step);
        return steps.length || at.step === "choose" || at.step === "finish" ? steps : [GUARD];
      },
      back() {
        const next = to(at.step);
        if (next) at.step = next;
        return next;
      },
      traversed: () => at.traversed,
      done: () => at.step === "finish",
      home: () => entries.replaceState(null, "", "/"),
      warn() {
        at.warns += 1;
        at.warned = true;
        return () => at.warned;
      },
    });
  let now = make();
  const trail: typeof now = {
    follow: (to) => now.follow(to),
    heard: () => now.heard(),
    leave: () => now.leave(),
  };
  /** The page is loaded again, at an entry with that mark. */
  const anew = (mark: object) => {
    now = make();
    entries.replaceState(mark, "");
  };
  addEventListener("popstate", trail.heard);
  stop = () => removeEventListener("popstate", trail.heard);
  const go = (next: string) => {
    at.step = next;
    trail.follow({ job: at.job, step: next });
    entries.arrive();
  };
  go(step);
  return { entries, at, trail, go, anew };
}

let stop = () => {};
startWayBack();

beforeEach(() => stop());

describe("a job's steps among the browser's entries", () => {
  it("go back one by one, and out of the job only from its first", () => {
    const { entries, at, go } = job();
    for (const step of ["aim", "care", "load", "yard"]) go(step);
    for (const step of ["load", "care", "aim", "choose"]) {
      entries.back();
      expect([entries.url, at.step]).toEqual(["/spread", step]);
    }
    entries.back();
    expect(entries.url).toBe("/");
  });

  it("lie there as well where the job is taken up again from Today", () => {
    const { entries, at } = job("yard");
    entries.back();
    expect([entries.url, at.step]).toEqual(["/spread", "load"]);
  });

  it("are gone back over by the job's own button too, without growing", () => {
    const { entries, go } = job();
    go("aim");
    const many = entries.urls().length;
    go("choose");
    go("aim");
    expect(entries.urls()).toHaveLength(many);
  });

  it("go on again by the browser's forward only as the job does", () => {
    const { entries, at, go } = job();
    go("aim");
    entries.back();
    entries.forward();
    expect(at.step).toBe("choose");
    expect((markHere() as any).step).toBe("choose");
  });

  it("stay once strips are counted, and say so; a second back leaves to Today", () => {
    const { entries, at, go } = job();
    for (const step of ["aim", "care", "load", "yard"]) go(step);
    at.counted = true;
    entries.back();
    expect([entries.url, at.step, at.warns]).toEqual(["/spread", "yard", 1]);
    entries.back();
    expect([entries.url, at.step]).toEqual(["/", "yard"]);
    expect(entries.urls().filter((url) => url === "/spread")).toEqual([]);
  });

  it("stay again where the word about it has gone meanwhile", () => {
    const { entries, at, go } = job();
    for (const step of ["aim", "yard"]) go(step);
    at.counted = true;
    entries.back();
    at.warned = false;
    entries.back();
    expect([entries.url, at.warns]).toEqual(["/spread", 2]);
  });

  it("guard a job that was begun before it was opened here", () => {
    const { entries, at } = job("next");
    entries.back();
    expect([entries.url, at.step, at.warns]).toEqual(["/spread", "next", 1]);
  });

  it("lead out of a finished job, and none is left beneath Today", async () => {
    const { entries, trail, go } = job();
    for (const step of ["aim", "yard", "left", "next", "finish"]) go(step);
    const gone = trail.leave();
    entries.arrive();
    await gone;
    expect(entries.urls()).toEqual(["/", "/"]);
  });

  it("are heard where the browser loads the page anew for one of them", () => {
    const { at, trail, go, anew } = job();
    for (const step of ["aim", "care"]) go(step);
    anew({ job: "job", step: "aim", depth: 1, below: "choose" });
    at.traversed = true;
    trail.follow({ job: "job", step: "care" });
    expect(at.step).toBe("aim");
  });

  it("follow the job where a page loaded anew says otherwise without back", () => {
    const { at, trail, anew } = job();
    at.step = "care";
    anew({ job: "job", step: "aim", depth: 1, below: "choose" });
    trail.follow({ job: "job", step: "care" });
    expect([at.step, (markHere() as any).step]).toEqual(["care", "care"]);
  });

  it("of another job lead to Today", () => {
    const { entries, at, go } = job();
    go("aim");
    at.job = "another";
    go("choose");
    entries.back();
    expect(entries.url).toBe("/");
  });
});

describe("an open sheet", () => {
  it("is closed by back, with the page where it was", () => {
    const { entries, at, go } = job();
    for (const step of ["aim", "yard"]) go(step);
    let shut = 0;
    const left = enterSheet(() => {
      shut += 1;
    });
    entries.back();
    left();
    entries.arrive();
    expect([shut, at.step, (markHere() as any).step]).toEqual([1, "yard", "yard"]);
    entries.back();
    expect(at.step).toBe("load");
  });

  it("leaves no entry behind where it is closed otherwise", () => {
    const { entries, at, go } = job();
    for (const step of ["aim", "yard"]) go(step);
    const many = entries.urls().length;
    enterSheet(() => {})();
    entries.arrive();
    expect([entries.urls().length, at.step]).toEqual([many, "yard"]);
  });

  it("lets a page that is opened as it closes come after it", () => {
    const entries = browser();
    takeEntries(entries);
    enterSheet(() => {})();
    history.pushState(null, "", "/elsewhere");
    expect(entries.urls()).toHaveLength(2);
    entries.arrive();
    expect(markHere()).toEqual({});
  });

  it("above another closes alone", () => {
    const entries = browser();
    takeEntries(entries);
    const shut: string[] = [];
    enterSheet(() => void shut.push("lower"));
    enterSheet(() => void shut.push("upper"));
    entries.back();
    expect(shut).toEqual(["upper"]);
  });

  it("of an earlier start is no place to be", () => {
    const entries = browser();
    takeEntries(entries);
    entries.pushState({ sheets: ["earlier"] }, "", "/shed");
    entries.pushState(null, "", "/log");
    entries.back();
    expect(entries.url).toBe("/");
  });

  it("that cannot be gone back from holds nothing up", () => {
    vi.useFakeTimers();
    takeEntries(browser());
    move(-9);
    let written = false;
    whenThere(() => {
      written = true;
    });
    expect(written).toBe(false);
    vi.advanceTimersByTime(500);
    expect(written).toBe(true);
    vi.useRealTimers();
  });
});
