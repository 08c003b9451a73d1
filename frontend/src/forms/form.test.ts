/** The one form of this app: a draft that outlives the page, a save that ends in one of three ways, and the way back. */
import { describe, expect, it } from "vitest";
import { fakeBook } from "../records/fake-book";
import { createForm, type Errors } from "./form";
import { recordGroups } from "./recorded";
import { NOT_SAVED } from "./saving";

interface Fields {
  name: string;
  day: string;
}

function machine(store = fakeBook(), day = "2026-05-14") {
  const make = (today = day) =>
    createForm<Fields, Fields, { id?: string; back?: () => Promise<void> }, undefined>(
      { store },
      {
        key: "thing:new",
        fresh: () => ({ name: "", day: today }),
        read: (form) => {
          const blank: Errors = form.name.trim() ? {} : { name: "Enter a name." };
          const odd: Errors = form.name.includes("?") ? { name: "No question marks." } : {};
          return { value: form, errors: { ...blank, ...odd }, unreadable: odd };
        },
        write: async (value, _draft, _base, refuse) => {
          if (value.name === "Taken") return refuse({ name: "This name is taken." });
          return recordGroups(store, "zone", { id: "z", row: undefined }, { name: { name: value.name } });
        },
      },
    );
  return { store, make };
}

async function typed(part: Partial<Fields>, parts = machine()) {
  const form = parts.make();
  await form.open(undefined);
  form.change(part);
  return { ...parts, form };
}

describe("what is typed", () => {
  it("outlives a killed page, and says that it does", async () => {
    const { make } = await typed({ name: "Front" });
    const again = make();
    await again.open(undefined);
    expect([again.form.value?.name, again.resumed.value]).toEqual(["Front", true]);
  });

  it("is all that is kept: a field nobody touched starts as it does on the day it is opened", async () => {
    const { make } = await typed({ name: "Front" });
    const later = make("2026-05-20");
    await later.open(undefined);
    expect(later.form.value).toEqual({ name: "Front", day: "2026-05-20" });
  });

  it("is read as an older build kept it, without what the form said when it was opened", async () => {
    const store = fakeBook();
    store.kept.set("thing:new", { name: "Front", day: "2026-05-01" });
    const form = machine(store).make();
    await form.open(undefined);
    expect(form.form.value).toEqual({ name: "Front", day: "2026-05-01" });
  });

  it("comes back after it was discarded, at an undo", async () => {
    const { form, store } = await typed({ name: "Front" });
    const back = await form.discard(undefined);
    expect([form.form.value?.name, store.kept.size]).toEqual(["", 0]);
    await back?.();
    expect([form.form.value?.name, store.kept.size]).toEqual(["Front", 1]);
  });

  it("offers nothing back where nothing was typed", async () => {
    const form = machine().make();
    await form.open(undefined);
    expect(await form.discard(undefined)).toBeUndefined();
  });
});

describe("a save", () => {
  it("writes one op, forgets the draft, and can be taken back with what was typed", async () => {
    const { form, store } = await typed({ name: "Front" });
    const saved = await form.save(undefined);
    expect(store.saved).toHaveLength(1);
    expect(store.kept.size).toBe(0);
    await saved?.back?.();
    expect(store.rows("zone").value).toEqual([]);
    expect(store.kept.get("thing:new")).toMatchObject({ form: { name: "Front" } });
  });

  it("that was sent already is taken back for everybody", async () => {
    const { form, store } = await typed({ name: "Front" });
    const saved = await form.save(undefined);
    store.sent.add(String((saved as { op?: string }).op));
    await saved?.back?.();
    expect(store.rows("zone").value).toEqual([]);
  });

  it("does not scold about a blank form before it was tried, and writes nothing", async () => {
    const { form, store } = await typed({ day: "2026-05-15" });
    expect(form.errors.value).toEqual({});
    expect(await form.save(undefined)).toBeUndefined();
    expect(form.errors.value).toEqual({ name: "Enter a name." });
    expect(store.saved).toEqual([]);
  });

  it("says at once what cannot be read", async () => {
    const { form } = await typed({ name: "Front?" });
    expect(form.errors.value).toEqual({ name: "No question marks." });
  });

  it("that is refused while it is written says so by field, until something is typed", async () => {
    const { form } = await typed({ name: "Taken" });
    expect(await form.save(undefined)).toBeUndefined();
    expect(form.errors.value).toEqual({ name: "This name is taken." });
    form.change({ name: "Front" });
    expect(form.errors.value).toEqual({});
  });

  it("that the phone refuses says so, keeps what was typed, and takes the next tap", async () => {
    const { form, store } = await typed({ name: "Front" });
    const real = store.save;
    store.save = () => Promise.reject(new Error("no room"));
    expect(await form.save(undefined)).toBeUndefined();
    expect([form.problem.value, form.busy.value, store.kept.size]).toEqual([NOT_SAVED, false, 1]);
    store.save = real;
    expect(await form.save(undefined)).toBeTruthy();
    expect(form.problem.value).toBeUndefined();
  });

  it("is made once, however often it is tapped", async () => {
    const { form, store } = await typed({ name: "Front" });
    await Promise.all([form.save(undefined), form.save(undefined)]);
    expect(store.saved).toHaveLength(1);
  });

  it("whose draft cannot be removed is a save all the same", async () => {
    const { form, store } = await typed({ name: "Front" });
    store.drafts.remove = () => Promise.reject(new Error("lost"));
    expect(await form.save(undefined)).toBeTruthy();
    expect(form.problem.value).toBeUndefined();
  });
});
