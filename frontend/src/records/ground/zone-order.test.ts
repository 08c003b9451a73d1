import { expect, it } from "vitest";
import { inOrder } from "./zone-order";

it("puts the show patch first, then goes by name", () => {
  const zones = [
    { id: "1", name: "Verge", show: false },
    { id: "2", name: "Swing patch", show: true },
    { id: "3", name: "Bend", show: false },
    { id: "0", name: "Bend", show: false },
  ];
  expect(zones.sort(inOrder).map(({ id }) => id)).toEqual(["2", "0", "3", "1"]);
});
