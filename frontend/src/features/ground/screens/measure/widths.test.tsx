import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Measures } from "../../model/zone-form";
import { blankForm } from "../../model/zone-form";

vi.mock("../../../../platform/session/session", async () => {
  const { signal } = await import("@preact/signals");
  return { units: signal("us") };
});
const { Widths } = await import("./widths");

function open(part: Partial<Measures>): Partial<Measures>[] {
  const said: Partial<Measures>[] = [];
  const editor = { tried: { value: false }, errors: { value: {} } } as never;
  const offsets = { amounts: ["33", "33", "33"], unit: "ft" };
  const measures = { ...blankForm("us").measures, method: "offsets" as const, offsets, ...part };
  render(<Widths editor={editor} measures={measures} set={(change) => said.push(change)} />);
  return said;
}

afterEach(cleanup);

describe("widths of a zone", () => {
  it("asks in plain words where they were measured, the two ends first", () => {
    const said = open({});
    const ends = screen.getByRole("radio", { name: "At both ends and between" }) as HTMLInputElement;
    expect(ends.checked).toBe(true);
    expect(screen.getByText(/Each end counts half/)).toBeTruthy();
    fireEvent.click(screen.getByRole("radio", { name: "In the middle of equal strips" }));
    expect(said).toEqual([{ rule: "middle" }]);
  });

  it("says of an older zone's widths that the area may read high, and picks no answer itself", () => {
    open({ rule: "sum" });
    expect(screen.getByText("This area may read high")).toBeTruthy();
    expect(screen.getAllByRole("radio").some((one) => (one as HTMLInputElement).checked)).toBe(false);
  });

  it("has nothing to say where an older zone's ends are points", () => {
    open({ rule: "sum", offsets: { amounts: ["0", "33", "0"], unit: "ft" } });
    expect(screen.queryByText("This area may read high")).toBeNull();
  });
});
