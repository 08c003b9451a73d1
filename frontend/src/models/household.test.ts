import { signal } from "@preact/signals";
import { describe, expect, it } from "vitest";
import type { Outcome } from "../sync/http";
import { fakeBook, groups } from "./fake-book";
import { createHousehold, type Invitation } from "./household";

function household(answer?: Outcome<Invitation>) {
  const store = fakeBook();
  const asked: string[] = [];
  store.put({ t: "member", id: "me", groups: groups({ name: { name: "Rowan" }, role: { role: "keeper" } }) });
  store.put({ t: "member", id: "you", groups: groups({ name: { name: "Ash" }, role: { role: "member" } }) });
  store.put({
    t: "zone",
    id: "z",
    groups: groups({ name: { name: "Long side" }, cut: { cut_height_mm: 75 } }, "won"),
  });
  store.put({
    t: "conflict",
    id: "c",
    body: {
      t: "zone",
      id: "z",
      group: "cut",
      lost: { value: { cut_height_mm: 60 }, version: "lost" },
      won: "won",
      at: "2026-05-14T10:00:00Z",
    },
  });
  const model = createHousehold({
    store,
    session: signal({ household: { id: "h", name: "Alder Bend" }, member_id: "me", role: "keeper" }),
    request: async (_, path) => {
      asked.push(path);
      return (answer ?? { ok: false, status: 0, code: "no_answer", message: "No signal." }) as Outcome<never>;
    },
    kinds: ["member", "zone", "entry"],
  });
  return { store, model, asked };
}

describe("the household", () => {
  it("lists this person first, then the others by name", () => {
    expect(household().model.members.value.map(({ name, me }) => [name, me])).toEqual([
      ["Rowan", true],
      ["Ash", false],
    ]);
  });

  it("writes the losing value again when a person prefers it, and the conflict is closed", async () => {
    const { store, model } = household();
    const [open] = model.conflicts.value;
    if (!open) return expect.fail("no open conflict");
    await model.useOther(open);
    expect(store.row("zone", "z").value?.groups["cut"]?.value).toEqual({ cut_height_mm: 60 });
    expect(model.conflicts.value).toEqual([]);
  });

  it("closes a conflict by keeping what stands, without changing it", async () => {
    const { store, model } = household();
    const [open] = model.conflicts.value;
    if (!open) return expect.fail("no open conflict");
    await model.keepThis(open);
    expect(store.row("zone", "z").value?.groups["cut"]?.value).toEqual({ cut_height_mm: 75 });
    expect(model.conflicts.value).toEqual([]);
  });

  it("says why an invitation could not be made", async () => {
    const { model, asked } = household();
    await model.invite();
    expect(asked).toEqual(["households/h/invitations"]);
    expect(model.inviteProblem.value).toBe("No signal.");
    expect(model.invitation.value).toBeUndefined();
  });
});
