import { signal } from "@preact/signals";
import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";

vi.mock("../../../platform/store", () => ({
  standing: { value: { waiting: 0, parked: [], photosWaiting: 0, state: "saved" } },
}));
vi.mock("../../../platform/session/session", () => ({ former: { value: false } }));

import type { Outcome } from "../../../platform/sync/http";
import { createRemote } from "../../../platform/sync/remote";
import { Listed } from "./remote";

const NO_ANSWER = { ok: false, status: 0, code: "no_answer", message: "No answer." } as const;
const PORTAL = { ok: false, status: 0, code: "odd_answer", message: "Something else answered." } as const;
const RESTING = { ok: false, status: 503, code: "resting", message: "The server is resting." } as const;
const FOUND = { ok: true, status: 200, value: { names: ["Rowan"] } } as const;

/** A list of names whose server answers these, one after another. */
async function open(...answers: object[]) {
  const request = async () => answers.shift() as Outcome<never>;
  const root = signal("accounts");
  const names = createRemote(
    { request, root: () => root.value },
    "names",
    (got: { names: string[] }) => got.names,
  );
  await names.look();
  render(
    <Listed of={names} needs="Names need signal.">
      {(list) => <p>{list.join(", ")}</p>}
    </Listed>,
  );
  return names;
}

const loud = () => document.querySelector(".notice");

afterEach(cleanup);

describe("a list of the server", () => {
  it.each([
    ["nothing answers", NO_ANSWER],
    ["a captive portal answers", PORTAL],
  ])("is one quiet line while there is no signal: %s", async (_, answer) => {
    await open(answer);
    expect(screen.getByText("Names need signal.")).toBeTruthy();
    expect(loud()).toBeNull();
  });

  it("comes when it is asked for again", async () => {
    await open(NO_ANSWER, FOUND);
    fireEvent.click(screen.getByRole("button", { name: "Try again" }));
    expect(await screen.findByText("Rowan")).toBeTruthy();
    expect(screen.queryByText("Names need signal.")).toBeNull();
  });

  it("stays, and is said to be as last seen, where signal went since", async () => {
    const names = await open(FOUND, NO_ANSWER);
    await names.look();
    expect(await screen.findByText("No signal. This is the last list.")).toBeTruthy();
    expect(screen.getByText("Rowan")).toBeTruthy();
    expect(loud()).toBeNull();
  });

  it("says loudly what else went wrong", async () => {
    await open(RESTING);
    expect(loud()?.textContent).toContain("This list is not here");
    expect(loud()?.textContent).toContain("The server is resting.");
  });
});
