import { describe, expect, it } from "vitest";
import type { Outcome } from "../../../platform/sync/http";
import { createAccount } from "./account";

const DONE = { ok: true, status: 200, value: {} };
const NO_ANSWER = { ok: false, status: 0, code: "no_answer", message: "No answer." };

/** An account whose server gives this answer, and what was asked of it and of this phone, in order. */
function account(answer: object) {
  const done: unknown[] = [];
  const model = createAccount({
    request: async (method, path, body) => {
      done.push([method, path, body]);
      return answer as Outcome<never>;
    },
    signOut: async () => void done.push("signed out here"),
    synced: () => void done.push("synced"),
  });
  return { model, done };
}

describe("S21 a new password", () => {
  it("is asked for with the present one, and what waits is sent after it", async () => {
    const { model, done } = account(DONE);
    expect(await model.changePassword("old words", "new words of mine")).toBe(true);
    expect(done).toEqual([
      ["POST", "accounts/password", { password: "old words", new_password: "new words of mine" }],
      "synced",
    ]);
    expect(model.problem.value).toBeUndefined();
  });

  it("is not sent while a field is blank, and says which", async () => {
    const { model, done } = account(DONE);
    expect(await model.changePassword("", "")).toBe(false);
    expect(Object.keys(model.problem.value?.fields ?? {})).toEqual(["password", "new_password"]);
    expect(done).toEqual([]);
  });

  it("says beside its field what the server does not take", async () => {
    const fields = { new_password: "Too short. Allowed: 10 to 256 characters." };
    const refused = { ok: false, status: 400, code: "invalid", message: "Some fields are wrong.", fields };
    const { model } = account(refused);
    expect(await model.changePassword("old words", "short")).toBe(false);
    expect(model.problem.value).toEqual({ fields, says: "", noSignal: false });
  });

  it("says in the server's words what belongs to no field", async () => {
    const { model } = account({ ok: false, status: 429, code: "throttled", message: "Too many tries." });
    await model.changePassword("old words", "new words of mine");
    expect(model.problem.value).toEqual({ fields: {}, says: "Too many tries.", noSignal: false });
  });

  it("needs signal, and says that nothing was changed", async () => {
    const { model, done } = account(NO_ANSWER);
    expect(await model.changePassword("old words", "new words of mine")).toBe(false);
    expect(model.problem.value).toMatchObject({
      says: expect.stringMatching(/needs signal/),
      noSignal: true,
    });
    expect(done).not.toContain("synced");
    model.begin();
    expect(model.problem.value).toBeUndefined();
  });
});

describe("S21 signing out everywhere", () => {
  it("ends it on this phone once the server has done it", async () => {
    const { model, done } = account(DONE);
    expect(await model.signOutEverywhere()).toBe(true);
    expect(done).toEqual([["POST", "accounts/sign-out-everywhere", {}], "signed out here"]);
  });

  it("leaves this phone signed in where the server was not reached", async () => {
    const { model, done } = account(NO_ANSWER);
    expect(await model.signOutEverywhere()).toBe(false);
    expect(done).not.toContain("signed out here");
    expect(model.problem.value?.noSignal).toBe(true);
  });
});
