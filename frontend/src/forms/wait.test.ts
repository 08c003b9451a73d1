/** A form that opened before the person's record was read kept its first boxes in lb and ft². */
import { describe, expect, it } from "vitest";
import { createGround } from "../features/ground/model/ground";
import { createShed } from "../features/shed/model/shed";
import { createTrays } from "../features/shed/model/trays";
import type { System } from "../format";
import { fakeBook, fakeEngine, settled } from "../records/fake-book";
import { checkGroup } from "../records/kinds";

function reading() {
  let system: System = "us";
  let read: () => void = () => undefined;
  const known = new Promise<void>((done) => {
    read = () => {
      system = "metric";
      done();
    };
  });
  const parts = {
    store: fakeBook(),
    engine: fakeEngine({ "record.totals": {} }),
    day: () => "2026-05-14",
    now: () => "2026-05-14T18:00:00Z",
    memberId: () => undefined,
    system: () => system,
    ready: () => known,
    check: checkGroup,
  };
  return { parts, read: () => read() };
}

const FORMS = [
  [
    "a product",
    (parts: any) => createShed(parts).productEditor(null),
    (form: any) => [form.net.unit, form.coverage.unit],
    ["kg", "m2"],
  ],
  [
    "a spreader",
    (parts: any) => createShed(parts).spreaderEditor(null),
    (form: any) => [form.swath.unit, form.holds.unit],
    ["m", "kg"],
  ],
  [
    "a zone",
    (parts: any) => createGround(parts).edit(null),
    (form: any) => [form.measures.area.unit, form.cut.unit],
    ["m2", "height_mm"],
  ],
  [
    "a tray test",
    (parts: any) => createTrays(parts).test("s"),
    (form: any) => [form.unit, form.spacing.unit],
    ["g", "cm"],
  ],
] as const;

describe("a new form after a cold load", () => {
  it.each(FORMS)("of %s waits until the units are read", async (_what, make, unitsOf, metric) => {
    const { parts, read } = reading();
    const editor: any = make(parts);
    const opened = editor.open(undefined);
    await settled();
    expect(editor.form.value).toBeUndefined();
    read();
    await opened;
    expect(unitsOf(editor.form.value)).toEqual(metric);
  });
});
