import { signal } from "@preact/signals";
import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";

const days = signal(new Map<string, object>());
const looked = signal<object | undefined>(undefined);

vi.mock("../model", () => ({ own: { days, looked, replaced: () => 1 } }));
vi.mock("../../../platform/session/session", () => ({ units: signal("us"), former: signal(false) }));

const { OwnPart } = await import("./own-part");
const { ImportPage } = await import("./import-page");

const of = (...dates: string[]) => new Map(dates.map((date) => [date, { date }]));

function look(...dates: string[]) {
  const found = dates.map((date) => ({ date }));
  const value = { days: found, columns: [], ignored: [], needs: [], problems: [], left_out: 0 };
  looked.value = { file: "days.csv", table: "", told: {}, answer: { value } };
  render(<ImportPage />);
}

afterEach(cleanup);

describe("own days", () => {
  it("are counted as one speaks: one day is a day, without an end", () => {
    days.value = of("2026-05-01");
    render(<OwnPart />);
    screen.getByText("1 day, 1 May 2026.");
    cleanup();
    days.value = of("2026-05-01", "2026-05-03");
    render(<OwnPart />);
    screen.getByText("2 days, 1 May 2026 to 3 May 2026.");
  });

  it("of a table are counted so too, and on the button that saves them", () => {
    look("2026-05-01");
    screen.getByText("1 day, 1 May 2026. It replaces a day you have.");
    expect(screen.getByRole("button", { name: "Save 1 day" })).toBeDefined();
    cleanup();
    look("2026-05-01", "2026-05-03");
    screen.getByText("2 days, 1 May 2026 to 3 May 2026. 1 of them replaces a day you have.");
    screen.getByRole("button", { name: "Save 2 days" });
  });
});
