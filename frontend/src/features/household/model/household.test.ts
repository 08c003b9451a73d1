import { signal } from "@preact/signals";
import { describe, expect, it } from "vitest";
import { fakeBook, groups } from "../../../records/fake-book";
import { createHousehold } from "./household";

function household() {
  const store = fakeBook();
  const member = (id: string, name: string, role: string, active = true) =>
    store.put({ t: "member", id, groups: groups({ name: { name }, role: { role }, active: { active } }) });
  member("me", "Rowan", "keeper");
  member("you", "Ash", "member");
  member("gone", "Alder", "member", false);
  const model = createHousehold({
    store,
    session: signal({ household: { id: "h", name: "Alder Bend" }, member_id: "me", role: "keeper" as const }),
    kinds: ["member", "zone", "entry"],
  });
  return { store, model, member };
}

describe("the household", () => {
  it("lists this person first, then the others by name, former members last", () => {
    expect(household().model.members.value.map(({ name, me }) => [name, me])).toEqual([
      ["Rowan", true],
      ["Ash", false],
      ["Alder", false],
    ]);
  });

  it("goes by the book's own word on who is keeper, which is newer than the sign-in", () => {
    const { model, member } = household();
    expect(model.keeper.value).toBe(true);
    member("me", "Rowan", "member");
    expect(model.keeper.value).toBe(false);
    member("me", "Rowan", "keeper", false);
    expect(model.keeper.value).toBe(false);
  });

  it("renames only what it was asked to rename", async () => {
    const { model, store } = household();
    await model.setName(" Rowan B ");
    await model.renameHousehold("The Bend");
    expect(store.saved).toEqual([
      [{ t: "member", id: "me", set: { name: { name: "Rowan B" } } }],
      [{ t: "household", id: "h", set: { name: { name: "The Bend" } } }],
    ]);
  });
});
