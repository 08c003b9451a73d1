import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Quantity, readBare, unitsFor } from "./index";
import { allowedIs, scaleOf } from "./limit";

const STORED: Record<string, Quantity> = {
  kg: "mass",
  m2: "area",
  m: "length",
  mm: "height",
  "m/s": "speed",
  "kg/m2": "rate",
  "kg N/m2": "nitrogen",
  "kg/m3": "density",
  m3: "volume",
};
const SYSTEMS = ["us", "metric"] as const;

describe("what is allowed", () => {
  it.each(
    Object.entries(STORED).flatMap(([stored, quantity]) =>
      SYSTEMS.flatMap((system) =>
        unitsFor(quantity, system).map(({ key, label }) => ({ stored, system, key, label })),
      ),
    ),
  )(
    "for $stored is said in $label where the field is set to it ($system), and taken when typed back",
    (row) => {
      const range = fc.tuple(
        fc.double({ min: 0.001, max: 10, noNaN: true }),
        fc.double({ min: 20, max: 1e6, noNaN: true }),
      );
      fc.assert(
        fc.property(range, ([low, high]) => {
          const says = allowedIs({ low, high }, scaleOf(row.stored, row.system, row.key), row.system);
          expect(says.endsWith(`\u00a0${row.label}.`)).toBe(true);
          const numbers = says.slice("Allowed is ".length, -`\u00a0${row.label}.`.length).split(" to ");
          const [least, most] = numbers.map((text) => readBare(text, row.key));
          expect(least?.ok && least.si).toBeGreaterThanOrEqual(low * (1 - 1e-9));
          expect(most?.ok && most.si).toBeLessThanOrEqual(high * (1 + 1e-9));
        }),
      );
    },
  );

  it.each([
    [{ low: 0, high: 1 }, "share", "Allowed is 0 to 100%."],
    [{ low: 0, high: 100 }, "%", "Allowed is 0 to 100%."],
    [{ low: 0, high: 365 }, "day", "Allowed is 0 to 365 days."],
    [{ low: 0, high: 720 }, "h", "Allowed is 0 to 720 hours."],
    [{ low: 0, high: 360 }, "deg", "Allowed is 0 to 360°."],
    [{ low: -1000, high: 1000 }, undefined, "Allowed is -1,000 to 1,000."],
    [{ low: 1 }, undefined, "Allowed is 1 or more."],
    [{ high: 2 }, "kg", "Allowed is up to 4.409\u00a0lb."],
    [{}, "kg", ""],
  ] as const)("%j of %s reads: %s", (range, stored, says) => {
    expect(allowedIs(range, scaleOf(stored, "us"), "us")).toBe(says);
  });

  it("goes by the person's own unit where the field's is of another sort", () => {
    expect(scaleOf("kg", "us", "ft").label).toBe("\u00a0lb");
    expect(scaleOf("kg", "metric", "no such").label).toBe("\u00a0kg");
  });
});
