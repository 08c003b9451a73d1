// @vitest-environment happy-dom
import { beforeEach, describe, expect, it, vi } from "vitest";
import { signIn, switchHousehold } from "../session/session";
import { closeBook, save } from "../store";
import { newId } from "../store/core/uuid7";
import { FakeServer, json } from "./fake/server";
import { startSync, syncNow } from "./running";

const me = {
  person: { id: newId(), name: "Ada", email: "ada@example.org" },
  households: ["Alder Bend", "Other"].map((name) => ({
    id: newId(),
    name,
    role: "keeper",
    member_id: newId(),
  })),
};
let asked: string[];
let server: FakeServer;
let signedIn: boolean;

beforeEach(() => {
  server = new FakeServer();
  signedIn = true;
  asked = [];
  vi.stubGlobal("fetch", async (address: string, init?: RequestInit) => {
    asked.push(address);
    if (address.endsWith("accounts/sign-in")) return json(200, me);
    if (!signedIn) return json(401, { code: "signed_out", message: "Sign in to go on." });
    return address.endsWith("accounts/me") ? json(200, me) : server.fetch(address, init);
  });
});

describe("S21 an expired session", () => {
  it("keeps what is saved, and sends it as soon as the same person has signed in again (F17)", async () => {
    await signIn("ada@example.org", "a long password");
    signedIn = false;
    const end = startSync();
    const id = newId();
    await save([{ t: "zone", id, set: { name: { name: "Verge" } } }]);
    expect(server.records.size).toBe(0);
    signedIn = true;
    await signIn("ada@example.org", "a long password");
    await vi.waitFor(() => expect(server.records.has(`zone:${id}`)).toBe(true));
    end();
    closeBook();
  });
});

describe("S21 another household", () => {
  it("gets its own entries and no others (P10)", async () => {
    await signIn("ada@example.org", "a long password");
    const end = startSync();
    const [first, second] = me.households.map((household) => household.id);
    switchHousehold(second ?? "");
    asked.length = 0;
    const id = newId();
    await save([{ t: "zone", id, set: { name: { name: "Verge" } } }]);
    syncNow();
    await vi.waitFor(() => expect(server.records.has(`zone:${id}`)).toBe(true));
    const bodies = server.pushes.filter((push) => push.ops.length > 0);
    expect(bodies).toHaveLength(1);
    expect(asked.filter((address) => address.includes(`${first}/sync`))).toEqual([]);
    expect(asked.some((address) => address.includes(`${second}/sync`))).toBe(true);
    end();
    closeBook();
  });
});
