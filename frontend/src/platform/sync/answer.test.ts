// @vitest-environment node
import { describe, expect, expectTypeOf, it } from "vitest";
import type { components } from "../api";
import type { SyncAnswer } from "../store/incoming/answers";
import { readAnswer } from "./answer";

const whole = {
  results: [{ op: "o", s: "applied", seq: 1, lost: [] }],
  changes: [{ seq: 1, t: "zone", id: "z", groups: {} }],
  acked_dseq: 1,
  cursor: 1,
  head: 1,
  has_more: false,
};

describe("S9 an answer", () => {
  it("is what the server's own description says it is (checked by the compiler)", () => {
    expectTypeOf<components["schemas"]["SyncAnswer"]>().toExtend<SyncAnswer>();
  });

  it("is taken whole, with what this build does not know in it (F12)", () => {
    const later = { ...whole, mood: "sunny" };
    expect(readAnswer(later)).toEqual(later);
  });

  it.each([
    ["nothing", undefined],
    ["a list", []],
    ["another protocol", { ...whole, proto: 2 }],
    ["a verdict this build cannot act on", { ...whole, results: [{ op: "o", s: "maybe" }] }],
    ["a record without a number", { ...whole, changes: [{ t: "zone", id: "z", groups: {} }] }],
    ["no cursor", { ...whole, cursor: undefined }],
    ["a cursor that is no number", { ...whole, cursor: Number.NaN }],
    ["no word on more", { ...whole, has_more: undefined }],
  ])("that is %s changes nothing", (_name, json) => {
    expect(readAnswer(json)).toBeUndefined();
  });
});
