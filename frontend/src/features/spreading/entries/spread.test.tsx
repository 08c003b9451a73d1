import { describe, expect, it } from "vitest";
import { entryOf } from "../../../records/entries";
import { fakeRow, wholeBody } from "../../../records/fake-book";
import { spread } from "./spread";

describe("a spreading job in the log", () => {
  it("says at which dial the last pass was walked, and promises none for the next job", () => {
    const body = wholeBody({
      kind: "spread",
      last_dial: 8,
      dial_scale: { minimum: 1, maximum: 24, step: 0.5, opens: "up" },
    });
    const facts = spread.facts(entryOf(fakeRow({ t: "entry", id: "a", body })), "us");
    expect(facts).toContainEqual(["Last dial", "8"]);
    expect(facts.map(([name]) => name).join()).not.toContain("next");
  });
});
