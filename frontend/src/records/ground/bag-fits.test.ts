import { describe, expect, it } from "vitest";
import { realEngine } from "../../platform/engine/real-engine";
import { matchArgs, sayRest, sayZones } from "./bag-fits";

const ZONES = [
  { id: "v", name: "Street verge", area_m2: 250 },
  { id: "s", name: "Swing patch", area_m2: 140 },
  { id: "b", name: "Big back", area_m2: 900 },
  { id: "n", name: "Not yet", area_m2: 0 },
];

const fitsOf = (args: ReturnType<typeof matchArgs>) =>
  (args && realEngine("label.match", args).value?.choices) ?? [];

describe("what one bag just covers", () => {
  it("names the zones, those a little under the coverage with what stays in the bag", () => {
    const args = matchArgs({ net_kg: 18, coverage_m2: 400 }, ZONES);
    const choices = fitsOf(args);
    expect(choices.map((one) => sayZones(one, ZONES))).toEqual(["Street verge + Swing patch"]);
    expect(choices.map((one) => sayRest(one, "metric").replaceAll("\u00a0", " "))).toEqual([
      "Keep 450 g in the bag.",
    ]);
  });

  it("says that a set a little larger gets a little less", () => {
    const choices = fitsOf(matchArgs({ coverage_m2: 380 }, ZONES));
    expect(choices.slice(0, 1).map((one) => sayRest(one, "us"))).toEqual([
      "Uses it all, at 97% of the label rate.",
    ]);
  });

  it("asks nothing without a coverage or ground", () => {
    expect(matchArgs({ net_kg: 18 }, ZONES)).toBeNull();
    expect(matchArgs({ coverage_m2: 400 }, [])).toBeNull();
  });
});
