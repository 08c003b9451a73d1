import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, expect, it, vi } from "vitest";

vi.mock("../../../../platform/session/session", async () => {
  const { signal } = await import("@preact/signals");
  return { units: signal("us") };
});
const { LinesFields } = await import("./lines");

afterEach(cleanup);

it("says of each length with a unit of its own what it was read as, and of one that is refused why", async () => {
  const lines = { amounts: ["12 ft 6 in", "33", "5 yd"], unit: "ft" };
  const errors = { "offsets.2": "A width is at most 10 ft." };
  render(
    <LinesFields
      what="Width"
      least={3}
      at="offsets"
      lines={lines}
      errors={errors}
      onInput={() => undefined}
    />,
  );
  // What reads amounts is fetched when first needed.
  await screen.findByText("Read as 12 ft 6 in");
  const box = screen.getByLabelText("Width 1");
  expect(document.getElementById(box.getAttribute("aria-describedby") ?? "")?.textContent).toBe(
    "Read as 12 ft 6 in",
  );
  expect(screen.getAllByText(/Read as/)).toHaveLength(1);
  expect(screen.getByText("A width is at most 10 ft.")).toBeTruthy();
});
