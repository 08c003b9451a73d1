import { signal } from "@preact/signals";
import { expect, test } from "vitest";
import { fakeBook, groups } from "../fake-book";
import { createNames } from "./names";

test("the holder of the phone is named before the book has brought their record, and by it from then on", () => {
  const store = fakeBook();
  const holder = signal<{ id: string; name: string } | undefined>(undefined);
  const { nameOf } = createNames(store, () => holder.value);
  expect(nameOf("me")).toBeUndefined();
  holder.value = { id: "me", name: "Sam Example" };
  expect(nameOf("me")).toBe("Sam Example");
  expect(nameOf("another")).toBeUndefined();
  store.put({ t: "member", id: "me", groups: groups({ name: { name: "Sam" } }) });
  expect(nameOf("me")).toBe("Sam");
});
