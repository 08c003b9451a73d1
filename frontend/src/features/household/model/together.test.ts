/** The lists that only the server has, and what a keeper may do with them. */
import { signal } from "@preact/signals";
import { describe, expect, it } from "vitest";
import type { Outcome } from "../../../platform/sync/http";
import { createCalendar } from "./calendar";
import { createDevices, type Device } from "./devices";
import { createInvitations } from "./invitations";
import { createMembers } from "./members";
import { createPendingReview } from "./pending-review";

type Answer = (path: string) => unknown;
const NO_ANSWER = { ok: false, status: 0, code: "no_answer", message: "No answer." } as const;

function server(answer: Answer) {
  const asked: string[] = [];
  const root = signal<string | undefined>("households/h");
  const request = async (method: string, path: string) => {
    asked.push(`${method} ${path}`);
    const said = answer(path);
    return (
      said && typeof said === "object" && "ok" in said ? said : { ok: true, status: 200, value: said }
    ) as Outcome<never>;
  };
  return { asked, root, parts: { request, root: () => root.value } };
}

const device = (id: string, more: Partial<Device> = {}): Device => ({
  id,
  name: "Phone",
  member_id: "me",
  member_name: "Rowan",
  created_at: "2026-01-01T00:00:00Z",
  last_seen_at: null,
  this: false,
  closed_at: null,
  waiting_holes: 0,
  acked_dseq: 0,
  ...more,
});

describe("lists of the server", () => {
  it("lists this phone first and signed-out ones last", async () => {
    const list = [
      device("closed", { closed_at: "2026-05-01T00:00:00Z" }),
      device("old", { last_seen_at: "2026-02-01T00:00:00Z" }),
      device("new", { last_seen_at: "2026-03-01T00:00:00Z" }),
      device("mine", { this: true }),
    ];
    const model = createDevices(server(() => ({ devices: list })).parts);
    await model.look();
    expect(model.value.value?.map(({ id }) => id)).toEqual(["mine", "new", "old", "closed"]);
  });

  it("says in words that it needs signal, and keeps the list it had", async () => {
    let signalThere = true;
    const { parts } = server(() => (signalThere ? { devices: [device("a")] } : NO_ANSWER));
    const model = createDevices(parts);
    await model.look();
    signalThere = false;
    expect(await model.signOut("a")).toBe(false);
    expect(model.problem.value).toEqual({
      of: "a",
      says: expect.stringMatching(/needs signal/),
      noSignal: true,
    });
    expect(model.value.value?.length).toBe(1);
  });

  it("takes a tap that comes while the list is being asked for", async () => {
    const { parts, asked } = server(() => ({ devices: [device("a")] }));
    const model = createDevices(parts);
    const looking = model.look();
    expect(await model.signOut("a")).toBe(true);
    await looking;
    expect(asked).toContain("POST households/h/devices/a/sign-out");
  });

  it("takes a second tap on the same thing for none", async () => {
    const { parts, asked } = server(() => ({ devices: [device("a")] }));
    const model = createDevices(parts);
    const both = await Promise.all([model.signOut("a"), model.signOut("a")]);
    expect(both).toEqual([true, false]);
    expect(asked.filter((one) => one.endsWith("sign-out")).length).toBe(1);
  });

  it("S21 shows nobody another household's list, however late its answer came", async () => {
    const { parts, root } = server(() => ({ devices: [device("a")] }));
    const model = createDevices(parts);
    await model.look();
    root.value = "households/other";
    expect(model.value.value).toBeUndefined();
    const late = model.look();
    root.value = "households/third";
    await late;
    expect(model.value.value).toBeUndefined();
  });
});

describe("S22 held entries", () => {
  const entry = (id: string) => ({ id, m: [], member_name: "Ash" });

  it("F48 accepts all that can be taken, and says how many could not", async () => {
    let list = [entry("a"), entry("b")];
    const { parts, asked } = server((path) => {
      if (path.endsWith("/a/accept")) {
        list = list.filter(({ id }) => id !== "a");
        return { op: "a", s: "applied", seq: 7 };
      }
      if (path.endsWith("/b/accept"))
        return { op: "b", s: "parked", why: { code: "invalid", message: "Too large." } };
      return { pending_review: list };
    });
    let synced = 0;
    const model = createPendingReview({
      ...parts,
      synced: () => {
        synced += 1;
      },
    });
    await model.look();
    expect(await model.acceptAll()).toEqual({ taken: 1, refused: 1 });
    expect(asked.filter((one) => one.endsWith("accept")).length).toBe(2);
    expect(model.value.value?.map(({ id }) => id)).toEqual(["b"]);
    expect(synced).toBe(2);
  });

  it("A3 comes in pages: shows the next ones, reads the same page again after an answer, begins anew when asked", async () => {
    const pages: Record<string, object> = {
      "pending-review": { pending_review: [entry("a")], after: "p~1", count: 2 },
      "pending-review?after=p~1": { pending_review: [entry("b")], after: null, count: 2 },
    };
    const { parts, asked } = server(
      (path) => pages[path.slice(path.indexOf("pending-review"))] ?? { op: "b", s: "applied" },
    );
    const model = createPendingReview({ ...parts, synced: () => undefined });
    const shown = () => model.value.value?.map(({ id }) => id);
    await model.look();
    expect([shown(), model.more.value]).toEqual([["a"], true]);
    await model.lookOn();
    expect([shown(), model.more.value]).toEqual([["b"], false]);
    await model.accept("b");
    expect(asked.at(-1)).toBe("GET households/h/pending-review?after=p~1");
    await model.look();
    expect(shown()).toEqual(["a"]);
  });

  it("stops at the first that the server does not answer", async () => {
    const { parts, asked } = server((path) =>
      path.endsWith("accept") ? NO_ANSWER : { pending_review: [entry("a"), entry("b")] },
    );
    const model = createPendingReview({ ...parts, synced: () => undefined });
    await model.look();
    expect(await model.acceptAll()).toEqual({ taken: 0, refused: 0 });
    expect(asked.filter((one) => one.endsWith("accept"))).toEqual([
      "POST households/h/pending-review/a/accept",
    ]);
  });
});

describe("invitations", () => {
  const kept = {
    made_by: "me",
    created_at: "2026-05-01T00:00:00Z",
    used_at: null,
    used_by: null,
    withdrawn_at: null,
  };
  const NOW = Date.parse("2026-05-03T00:00:00Z");

  it("lists the open ones only: not used, not withdrawn, not run out", async () => {
    const all = [
      { ...kept, id: "open", expires_at: "2026-05-08T00:00:00Z" },
      { ...kept, id: "out", expires_at: "2026-05-02T00:00:00Z" },
      { ...kept, id: "used", expires_at: "2026-05-08T00:00:00Z", used_at: "2026-05-02T00:00:00Z" },
      { ...kept, id: "back", expires_at: "2026-05-08T00:00:00Z", withdrawn_at: "2026-05-02T00:00:00Z" },
    ];
    const model = createInvitations({ ...server(() => ({ invitations: all })).parts, now: () => NOW });
    await model.look();
    expect(model.open.value?.map(({ id }) => id)).toEqual(["open"]);
  });

  it("shows a new link until it is withdrawn", async () => {
    const made = {
      id: "i",
      link: "https://example.org/join/x",
      svg: "<svg/>",
      expires_at: "2026-05-08T00:00:00Z",
    };
    const { parts } = server((path) => (path.endsWith("/invitations") ? { ...made, invitations: [] } : {}));
    const model = createInvitations({ ...parts, now: () => NOW });
    await model.invite();
    expect(model.made.value?.link).toBe(made.link);
    await model.withdraw("i");
    expect(model.made.value).toBeUndefined();
  });

  it("says why none was made", async () => {
    const model = createInvitations({ ...server(() => NO_ANSWER).parts, now: () => NOW });
    await model.invite();
    expect(model.problem.value).toMatchObject({ of: "new", says: expect.stringMatching(/needs signal/) });
    expect(model.made.value).toBeUndefined();
  });
});

describe("S22 members", () => {
  it("says in the server's words that the last keeper stays, and changes nothing", async () => {
    const message = "A household keeps one keeper at least.";
    const { parts } = server(() => ({ ok: false, status: 409, code: "last_keeper", message }));
    let changed = 0;
    const model = createMembers({
      ...parts,
      changed: () => {
        changed += 1;
      },
    });
    expect(await model.remove("me")).toBe(false);
    expect(model.problem.value).toEqual({ of: "me", says: message });
    expect(changed).toBe(0);
  });

  it("fetches the book's own records once the server has done it", async () => {
    const { parts, asked } = server(() => ({}));
    let changed = 0;
    const model = createMembers({
      ...parts,
      changed: () => {
        changed += 1;
      },
    });
    expect(await model.setRole("you", "keeper")).toBe(true);
    expect(asked).toEqual(["POST households/h/members/you/role"]);
    expect(changed).toBe(1);
  });
});

describe("the calendar link", () => {
  const kept = { on: true, made_at: "2026-05-01T00:00:00Z" };
  const answers: Answer = (path) =>
    path.endsWith("/off")
      ? { on: false, made_at: null }
      : { ...kept, link: "https://book.example.org/a.ics" };

  it("is shown once it is made, until it is turned off", async () => {
    const { asked, parts } = server(answers);
    const model = createCalendar(parts);
    expect(model.made.value).toBeUndefined();
    await model.make();
    expect(model.made.value).toBe("https://book.example.org/a.ics");
    await model.turnOff();
    expect(model.made.value).toBeUndefined();
    expect(asked).toEqual([
      "POST households/h/calendar",
      "GET households/h/calendar",
      "POST households/h/calendar/off",
      "GET households/h/calendar",
    ]);
  });

  it("is not shown to whoever opens another household", async () => {
    const { root, parts } = server(answers);
    const model = createCalendar(parts);
    await model.make();
    root.value = "households/other";
    expect(model.made.value).toBeUndefined();
  });

  it("stays as it was where no answer comes", async () => {
    const model = createCalendar(server(() => NO_ANSWER).parts);
    await model.make();
    expect(model.made.value).toBeUndefined();
    expect(model.problem.value?.of).toBe("new");
  });
});
