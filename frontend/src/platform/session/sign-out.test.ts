// @vitest-environment happy-dom
/** Signing out on a phone whose storage is gone or refuses: it ends all the same, and what stays is told. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { openChosen, openedBook } from "../store";
import { json } from "../sync/fake/server";
import * as session from "./session";

const ADA = {
  person: { id: "p1", name: "Ada", email: "ada@example.org" },
  households: [{ id: "h1", name: "Alder Bend", role: "keeper", member_id: "m1" }],
};

let asked: string[];

beforeEach(async () => {
  asked = [];
  vi.stubGlobal("fetch", async (address: string) => {
    const path = address.replace("/api/v1/", "");
    asked.push(path);
    return path === "accounts/sign-in" ? json(200, ADA) : new Response(null, { status: 204 });
  });
  localStorage.clear();
  await session.signIn("ada@example.org", "a long password");
  asked.length = 0;
});

afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
  localStorage.clear();
});

const refuse = () => {
  throw new DOMException("refused", "SecurityError");
};

/** Local storage that neither gives nor takes. */
function noMemory(): void {
  vi.stubGlobal("localStorage", { getItem: refuse, setItem: refuse, removeItem: refuse });
}

/** The database takes nothing more: a full phone, or one that hides it. */
function noDatabase(): void {
  vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(refuse);
}

/** The app begun anew on what the phone kept; who is signed in then. */
async function nextStart() {
  vi.resetModules();
  const again = await import("./session");
  again.startSession();
  await vi.waitFor(() => expect(again.looking.value).toBe(false));
  return again.session.value?.person.name;
}

describe("signing out on dead storage", () => {
  it("tells the server where local storage can keep nothing", async () => {
    noMemory();
    await session.signOut();
    expect(session.session.value).toBeNull();
    expect(asked).toEqual(["accounts/sign-out"]);
    expect(session.uncleared.value).toEqual(["memory"]);
  });

  it("is not undone by the database at the next start where that took no word of it", async () => {
    noDatabase();
    await session.signOut();
    expect(asked).toEqual(["accounts/sign-out"]);
    expect(session.uncleared.value).toEqual(["database"]);
    expect(await nextStart()).toBeUndefined();
  });

  it("ends where there is no database at all", async () => {
    vi.stubGlobal("indexedDB", undefined);
    await session.signOut();
    expect(session.session.value).toBeNull();
    expect(asked).toEqual(["accounts/sign-out"]);
    expect(session.uncleared.value).toEqual(["database"]);
  });

  it("names both where neither lets go, and still ends", async () => {
    noMemory();
    noDatabase();
    await session.signOut();
    expect(session.session.value).toBeNull();
    expect(asked).toEqual(["accounts/sign-out"]);
    expect(session.uncleared.value).toEqual(["memory", "database"]);
  });

  it("ends where the book itself cannot be closed", async () => {
    openChosen();
    await vi.waitFor(() => expect(openedBook.value).not.toBeNull());
    vi.spyOn(openedBook.value as NonNullable<typeof openedBook.value>, "close").mockImplementation(refuse);
    await session.signOut();
    expect([session.session.value, openedBook.value]).toEqual([null, null]);
    expect(asked).toContain("accounts/sign-out");
  });

  it("says nothing where all was let go, and nothing any more after the next sign-in", async () => {
    await session.signOut();
    expect(session.uncleared.value).toEqual([]);
    expect(await nextStart()).toBeUndefined();
    noDatabase();
    await session.signOut();
    vi.restoreAllMocks();
    await session.signIn("ada@example.org", "a long password");
    expect(session.uncleared.value).toEqual([]);
    expect(await nextStart()).toBe("Ada");
  });
});
