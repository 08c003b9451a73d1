import { beforeEach, describe, expect, it, vi } from "vitest";
import { save } from "../store";
import { newId } from "../store/core/uuid7";
import { FakeServer, json } from "../sync/fake-server";
import { signIn } from "./session";
import { startSync } from "./sync";

const me = {
  person: { id: newId(), name: "Ada", email: "ada@example.org" },
  households: [{ id: newId(), name: "Alder Bend", role: "keeper", member_id: newId() }],
};
let server: FakeServer;
let signedIn: boolean;

beforeEach(() => {
  server = new FakeServer();
  signedIn = true;
  vi.stubGlobal("fetch", async (address: string, init?: RequestInit) => {
    if (address.endsWith("accounts/sign-in")) return json(200, me);
    if (!signedIn) return json(401, { code: "signed_out", message: "Sign in to go on." });
    return address.endsWith("accounts/me") ? json(200, me) : server.fetch(address, init);
  });
});

describe("S21 an expired session", () => {
  it("keeps what is saved, and sends it as soon as the same person has signed in again (F17)", async () => {
    await signIn("ada@example.org", "a long password");
    signedIn = false;
    startSync();
    const id = newId();
    await save([{ t: "zone", id, set: { name: { name: "Verge" } } }]);
    expect(server.records.size).toBe(0);
    signedIn = true;
    await signIn("ada@example.org", "a long password");
    await vi.waitFor(() => expect(server.records.has(`zone:${id}`)).toBe(true));
  });
});
