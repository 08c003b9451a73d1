// @vitest-environment happy-dom
import { beforeEach, describe, expect, it, vi } from "vitest";
import { openChosen, openedBook, save } from "../store";
import { newId } from "../store/core/uuid7";
import { json } from "../sync/fake/server";
import * as session from "./session";

const membership = (id: string, name: string) => ({
  id,
  name,
  role: "keeper" as const,
  member_id: `m-${id}`,
});
const me = (id: string, ...households: ReturnType<typeof membership>[]): session.Me => ({
  person: { id, name: "Ada", email: "ada@example.org" },
  households,
});

let answers: Record<string, () => Response>;
let asked: string[];

beforeEach(async () => {
  asked = [];
  answers = { "accounts/sign-out": () => new Response(null, { status: 204 }) };
  vi.stubGlobal("fetch", async (address: string) => {
    const path = address.replace("/api/v1/", "");
    asked.push(path);
    return answers[path]?.() ?? json(500, {});
  });
  await session.signOut();
  localStorage.clear();
  asked.length = 0;
});

const signedIn = async (who: session.Me) => {
  answers["accounts/sign-in"] = () => json(200, who);
  return session.signIn("ada@example.org", "a long password");
};

/** The app's code begun anew, with nothing in local storage. */
async function newStart(): Promise<typeof session> {
  localStorage.clear();
  vi.resetModules();
  return import("./session");
}

describe("S21 the session", () => {
  it("opens the store of this person and this household", async () => {
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    expect(session.session.value).toMatchObject({
      household: { id: "h1" },
      member_id: "m-h1",
      role: "keeper",
    });
    await vi.waitFor(() => expect(openedBook.value?.name).toBe("evenfall:p1:h1"));
  });

  it("is remembered: the app opens with no network at all", async () => {
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    const kept = localStorage.getItem("evenfall.session");
    await session.signOut();
    localStorage.clear();
    localStorage.setItem("evenfall.session", kept ?? "");
    asked.length = 0;
    session.startSession();
    openChosen();
    expect(session.session.value?.person.name).toBe("Ada");
    await vi.waitFor(() => expect(openedBook.value?.name).toBe("evenfall:p1:h1"));
    expect(asked).toEqual([]);
  });

  it("is remembered where a sudden end of the browser leaves no local storage behind (F1)", async () => {
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    const again = await newStart();
    again.startSession();
    expect(again.looking.value).toBe(true);
    await vi.waitFor(() => expect(again.session.value?.household.id).toBe("h1"));
    expect(again.looking.value).toBe(false);
    expect(localStorage.getItem("evenfall.session")).toContain("Alder Bend");
  });

  it("is found however long the phone's storage takes to say so, and nobody is taken for signed out meanwhile", async () => {
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    const again = await newStart();
    const open = indexedDB.open.bind(indexedDB);
    let answer: () => void = () => undefined;
    // Storage that is busy: what is asked of it is answered once it has time.
    const slow = vi.spyOn(indexedDB, "open").mockImplementation((name, version) => {
      if (name !== "evenfall") return open(name, version);
      const request = {} as IDBOpenDBRequest;
      answer = () => {
        const real = open(name, version);
        real.onsuccess = () => {
          Object.assign(request, { result: real.result });
          request.onsuccess?.(new Event("success"));
        };
      };
      return request;
    });
    vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
    try {
      again.startSession();
      await vi.advanceTimersByTimeAsync(60_000);
      expect([again.looking.value, again.lookingLong.value]).toEqual([true, true]);
      answer();
    } finally {
      vi.useRealTimers();
      slow.mockRestore();
    }
    await vi.waitFor(() => expect(again.session.value?.household.id).toBe("h1"));
    expect([again.looking.value, again.lookingLong.value]).toEqual([false, false]);
  });

  it("is not waited for where the person would rather sign in, and still counts when it is found", async () => {
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    const again = await newStart();
    again.startSession();
    again.stopLooking();
    expect(again.looking.value).toBe(false);
    await vi.waitFor(() => expect(again.session.value?.household.id).toBe("h1"));
  });

  it("is nobody's where storage is refused altogether: the door opens at once", async () => {
    const again = await newStart();
    const refused = vi.spyOn(indexedDB, "open").mockImplementation(() => {
      throw new DOMException("private", "SecurityError");
    });
    again.startSession();
    await vi.waitFor(() => expect(again.looking.value).toBe(false));
    expect(again.session.value).toBeNull();
    refused.mockRestore();
  });

  it("is not remembered after signing out, in either place", async () => {
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    const before = localStorage.getItem("evenfall.session") ?? "";
    await session.signOut();
    const again = await newStart();
    again.startSession();
    await vi.waitFor(() => expect(again.looking.value).toBe(false));
    expect(again.session.value).toBeNull();
    // The browser was killed before local storage had written that somebody signed out.
    localStorage.setItem("evenfall.session", before);
    again.startSession();
    expect(again.session.value).not.toBeNull();
    await again.heedSignOut();
    expect(again.session.value).toBeNull();
    expect(localStorage.getItem("evenfall.session")).toBeNull();
  });

  it("stays when nobody signed out since", async () => {
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    await session.signOut();
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    await session.heedSignOut();
    expect(session.session.value?.person.id).toBe("p1");
  });

  it("says what was wrong with a sign-in, and changes nothing", async () => {
    answers["accounts/sign-in"] = () =>
      json(400, { code: "invalid", message: "Not known.", fields: { email: "No." } });
    const outcome = await session.signIn("a", "b");
    expect(outcome).toMatchObject({ ok: false, message: "Not known.", fields: { email: "No." } });
    expect(session.session.value).toBeNull();
  });

  it("ends, and what waits stays on the phone for the same person's return", async () => {
    const who = me("p1", membership("h-left", "Alder Bend"));
    await signedIn(who);
    const { op } = await save([{ t: "zone", id: newId(), set: { name: { name: "Verge" } } }]);
    await session.signOut();
    expect(session.session.value).toBeNull();
    await signedIn(who);
    await vi.waitFor(() => expect(openedBook.value).not.toBeNull());
    const waiting = (await openedBook.value?.db.outbox.toArray()) ?? [];
    expect(waiting.map((one) => one.op)).toContain(op);
  });

  it("ended offline is ended at the server as soon as it can be told", async () => {
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    answers["accounts/sign-out"] = () => Response.error();
    await session.signOut();
    answers["accounts/sign-out"] = () => new Response(null, { status: 204 });
    asked.length = 0;
    await session.settleSignOut();
    await session.settleSignOut();
    expect(asked).toEqual(["accounts/sign-out"]);
  });

  it("of another person opens another store (F18)", async () => {
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    await session.signOut();
    await signedIn(me("p2", membership("h1", "Alder Bend")));
    await vi.waitFor(() => expect(openedBook.value?.name).toBe("evenfall:p2:h1"));
  });

  it("S21 remembers at a sign-out who left how much unsent, until they sign in again", async () => {
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    await save([{ t: "zone", id: newId(), set: { name: { name: "Long side" } } }]);
    await vi.waitFor(() => expect(session.waiting.value).toBeGreaterThan(0));
    const entries = session.waiting.value;
    await session.signOut();
    expect(session.leftHere()).toEqual([{ person: "p1", name: "Ada", entries, photos: 0 }]);
    await signedIn(me("p2", membership("h1", "Alder Bend")));
    expect(session.leftHere().map(({ person }) => person)).toEqual(["p1"]);
    await session.signOut();
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    expect(session.leftHere()).toEqual([]);
  });

  it("notices another person's cookie under it (F18)", async () => {
    await signedIn(me("p1", membership("h1", "Alder Bend")));
    answers["accounts/me"] = () => json(200, me("p2", membership("h1", "Alder Bend")));
    expect(await session.confirmSession()).toBe("other");
    expect(session.session.value?.person.id).toBe("p1");
    answers["accounts/me"] = () => json(401, { code: "signed_out", message: "Sign in to go on." });
    expect(await session.confirmSession()).toBe("unknown");
  });

  it("keeps the household open that was last chosen, and opens the one just joined", async () => {
    const [h1, h2, h3] = [membership("h1", "One"), membership("h2", "Two"), membership("h3", "Three")];
    await signedIn(me("p1", h1, h2));
    session.switchHousehold("h2");
    await vi.waitFor(() => expect(openedBook.value?.name).toBe("evenfall:p1:h2"));
    await signedIn(me("p1", h1, h2));
    expect(session.session.value?.household.id).toBe("h2");
    answers["accounts/join"] = () => json(200, me("p1", h1, h2, h3));
    await session.join({ token: "t" });
    expect(session.session.value?.household.id).toBe("h3");
  });
});

describe("a household that is no longer the person's", () => {
  it("stays open as it is, with what waits in it (P9)", async () => {
    await signedIn(me("p1", membership("h1", "One"), membership("h2", "Two")));
    answers["accounts/me"] = () => json(200, me("p1", membership("h2", "Two")));
    expect(await session.confirmSession()).toBe("same");
    expect(session.session.value?.household.id).toBe("h1");
    await vi.waitFor(() => expect(openedBook.value?.name).toBe("evenfall:p1:h1"));
  });

  it("S22 F49 is known to be no longer theirs, until they are in it again", async () => {
    await signedIn(me("p1", membership("h1", "One")));
    expect(session.former.value).toBe(false);
    answers["accounts/me"] = () => json(200, me("p1"));
    await session.confirmSession();
    expect(session.former.value).toBe(true);
    answers["accounts/join"] = () => json(200, me("p1", membership("h1", "One")));
    await session.join({ token: "t" });
    expect(session.former.value).toBe(false);
    expect(session.session.value?.household.id).toBe("h1");
  });
});

describe("units", () => {
  it("are the person's own, from their member record", async () => {
    await signedIn(me("p1", membership(newId(), "Alder Bend")));
    expect(session.units.value).toBe("us");
    await session.setUnits("metric");
    await vi.waitFor(() => expect(session.units.value).toBe("metric"));
  });

  it("are waited for by forms until they are read, or it is clear that they cannot be", async () => {
    await signedIn(me("p1", membership(newId(), "Alder Bend")));
    expect(session.unitsKnown.value).toBe(false);
    const known = session.whenUnitsKnown().then(() => session.units.value);
    await session.setUnits("metric");
    expect(await known).toBe("metric");
    expect(session.unitsKnown.value).toBe(true);
  });

  it("are remembered for the next cold start, for this person only", async () => {
    const stop = session.followUnits();
    const household = membership(newId(), "Alder Bend");
    await signedIn(me("p1", household));
    await session.setUnits("metric");
    await vi.waitFor(() => expect(localStorage.getItem("evenfall.units")).toContain("metric"));
    stop();
    await signedIn(me("p2", { ...membership(newId(), "Other"), member_id: newId() }));
    expect(session.units.value).toBe("us");
    expect(session.unitsKnown.value).toBe(false);
  });
});
