import { afterEach, describe, expect, it } from "vitest";
import { rest, waitBy } from "../../../records/rest";
import { count, engine, shelf, striped, weighed } from "./fake-spreading";
import { createSpreading } from "./spreading";

afterEach(() => {
  waitBy((over) => {
    over();
    return () => {};
  });
  rest.begin();
});

/** Ten strips by hand and a zone of one row, with a clock of its own for the rest after a strip. */
async function slowly() {
  const store = shelf();
  const overs: (() => void)[] = [];
  const spreading = createSpreading({
    store,
    engine: engine(),
    now: () => "2026-05-14T18:05:00+02:00",
    memberId: () => "me",
    system: () => "metric",
    rest: (over) => void overs.push(over),
  });
  await spreading.open();
  spreading.begin();
  await spreading.change({ zone_ids: ["verge", "long"], product_id: "slow", spreader_id: "rotary" });
  await spreading.setOff();
  const on = async () => {
    await spreading.count();
    overs.splice(0).forEach((over) => {
      over();
    });
  };
  return { spreading, on, over: () => overs.splice(0).forEach((done) => void done()) };
}

describe("a thumb that shakes in the yard", () => {
  it("does not end the pass by the double tap that counts the last strip", async () => {
    const { spreading, on, over } = await slowly();
    await on();
    await spreading.count();
    expect(spreading.standing.value).toMatchObject({ done: 2, of: 2 });
    await spreading.endPass();
    expect(spreading.step.value).toBe("yard");
    over();
    await spreading.endPass();
    expect(spreading.step.value).toBe("left");
  });

  it("takes one strip back by a double tap, not two", async () => {
    const { spreading, on, over } = await slowly();
    await on();
    await on();
    await spreading.uncount();
    await spreading.uncount();
    expect(spreading.standing.value?.done).toBe(1);
    over();
    await spreading.uncount();
    expect(spreading.standing.value?.done).toBe(0);
  });

  it("rests after a pass is saved, since other buttons lie there then", async () => {
    const spreading = await striped();
    await count(spreading, 11);
    waitBy(() => () => {});
    await weighed(spreading, "5");
    expect(spreading.step.value).toBe("next");
    expect(rest.resting.value).toBe(true);
  });

  it("rests after a walk is put away, since Today lies there then", async () => {
    const spreading = await striped();
    waitBy(() => () => {});
    await spreading.putAway();
    expect(rest.resting.value).toBe(true);
  });

  it("rests after a step, since another page lies there then", async () => {
    const spreading = await striped();
    waitBy(() => () => {});
    await spreading.endPass();
    expect(rest.resting.value).toBe(true);
  });
});
