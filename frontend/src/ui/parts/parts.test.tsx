import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { saySource } from "../working/sources";
import { sayNumber, sayResult } from "../working/text";
import {
  Button,
  ChoiceField,
  clearToasts,
  Figure,
  NumberField,
  orSay,
  Sheet,
  showToast,
  Toasts,
  UnitField,
} from "./index";

afterEach(() => {
  cleanup();
  clearToasts();
  vi.useRealTimers();
});

function describedBy(element: HTMLElement): string {
  const ids = element.getAttribute("aria-describedby")?.split(" ") ?? [];
  return ids.map((id) => document.getElementById(id)?.textContent).join(" ");
}

describe("fields", () => {
  it("tie label, hint and error to the input", () => {
    render(
      <NumberField
        label="Length"
        hint="In paces"
        error="Length is missing."
        value=""
        onInput={() => undefined}
      />,
    );
    const input = screen.getByLabelText("Length");
    expect(input.getAttribute("aria-invalid")).toBe("true");
    expect(describedBy(input)).toBe("In paces Length is missing.");
  });

  it("hand back amount and unit as typed, whichever of the two changes", () => {
    const taken: object[] = [];
    const units = [
      { key: "lb", label: "lb" },
      { key: "kg", label: "kg" },
    ];
    render(
      <UnitField
        label="Net weight"
        units={units}
        value={{ amount: "5 1/2", unit: "lb" }}
        onInput={(typed) => taken.push(typed)}
      />,
    );
    fireEvent.input(screen.getByLabelText("Net weight"), { target: { value: "6" } });
    fireEvent.change(screen.getByLabelText("Unit of Net weight"), { target: { value: "kg" } });
    expect(taken).toEqual([
      { amount: "6", unit: "lb" },
      { amount: "5 1/2", unit: "kg" },
    ]);
  });

  it("say what an amount with a unit was read as, and nothing beside a bare number", async () => {
    const box = (amount: string) => (
      <UnitField
        label="Net weight"
        units={[]}
        value={{ amount, unit: "kg" }}
        onInput={() => undefined}
        words
      />
    );
    const { rerender } = render(box("50"));
    expect(screen.queryByText(/Read as/)).toBeNull();
    rerender(box("NET WT 50 LB"));
    await screen.findByText("Read as 50 lb");
    expect(describedBy(screen.getByLabelText("Net weight"))).toBe("Read as 50 lb");
    expect(screen.getByLabelText("Net weight").getAttribute("inputmode")).toBe("text");
  });

  it("offer few choices as radio buttons in a named group and many as a list", () => {
    const few = [
      { value: "a", label: "Sun" },
      { value: "b", label: "Shade" },
    ];
    const many = Array.from({ length: 6 }, (_, k) => ({ value: String(k), label: `Grass ${k}` }));
    render(
      <>
        <ChoiceField label="Light" value="b" onInput={() => undefined} choices={few} />
        <ChoiceField label="Grass" value="2" onInput={() => undefined} choices={many} />
      </>,
    );
    const group = screen.getByRole("group", { name: "Light" });
    expect((within(group).getByLabelText("Shade") as HTMLInputElement).checked).toBe(true);
    expect(screen.getByLabelText("Grass").tagName).toBe("SELECT");
  });
});

describe("a busy button", () => {
  it("takes no second tap but keeps its place for a screen reader", () => {
    const tapped = vi.fn();
    render(
      <Button busy onClick={tapped}>
        Save
      </Button>,
    );
    fireEvent.click(screen.getByRole("button", { name: "Save" }));
    expect(tapped).not.toHaveBeenCalled();
    expect(screen.getByRole("button").getAttribute("aria-disabled")).toBe("true");
  });
});

describe("a figure", () => {
  const step = {
    what: "Area of the rectangle",
    formula: "length times width",
    numbers: { width_m: 3.048, length_m: 30.48 },
    result: 92.90304,
    unit: "m2",
    source: "definition",
  };

  it("is plain text where nothing was computed", () => {
    render(<Figure label="Area" value="1,000 ft²" />);
    expect(screen.queryByRole("button")).toBeNull();
  });

  it("is marked at once while it is worked out anew, and says so in words where that takes long", () => {
    vi.useFakeTimers();
    const shown = (busy: boolean) => <Figure label="Area" value="100 m²" note="within ± 5 m²" busy={busy} />;
    const { container, rerender } = render(shown(true));
    expect(container.querySelector("[aria-busy]")?.textContent).toContain("within ± 5 m²");
    act(() => void vi.advanceTimersByTime(1000));
    expect(container.textContent).toContain("updating");
    expect(container.textContent).not.toContain("within");
    rerender(shown(false));
    expect(container.querySelector("[aria-busy]")).toBeNull();
    expect(container.textContent).toContain("within ± 5 m²");
    vi.useRealTimers();
  });

  it("opens its working on a tap, in the reader's units and in one order on every phone", () => {
    render(<Figure label="Area" value={"1,000\u00a0ft²"} working={[step]} />);
    fireEvent.click(screen.getByRole("button", { name: /Area/ }));
    const dialog = screen.getByRole("dialog", { name: "Area: how this is worked out" });
    const terms = [...dialog.querySelectorAll("dt, dd")].map((item) => item.textContent);
    // 10 ft x 100 ft = 1,000 ft2; 1 ft = 0.3048 m exactly (NIST SP 811, appendix B)
    expect(terms).toEqual(["length", "100\u00a0ft", "width", "10\u00a0ft"]);
    expect(dialog.textContent).toContain("= 1,000\u00a0ft²");
    expect(dialog.textContent).toContain("what the words mean");
  });
});

describe("the numbers of a working", () => {
  it.each([
    ["net_kg", 21.77243376, "net", "48\u00a0lb"],
    ["height_mm", 76.2, "height", "3\u00a0in"],
    ["removed_share", 0.333, "removed", "33%"],
    ["n_percent", 23, "n percent", "23"],
    ["radii_m", [0.3048, 0.6096], "radii", "1\u00a0ft, 2\u00a0ft"],
    ["holes_m", null, "holes", "not given"],
  ])("writes %s in the reader's units", (name, value, says, text) => {
    expect(sayNumber(name, value, "us")).toEqual({ name: says, text });
  });

  it("writes a result by the unit the engine states, and an unknown unit as it stands", () => {
    expect(sayResult(92.90304, "m2", "metric")).toBe("92.9\u00a0m²");
    expect(sayResult(3, "strips", "us")).toBe("3 strips");
  });

  it("names the publication, or the key where none is listed", () => {
    expect(
      saySource("X-1", { "X-1": { institution: "An extension service", title: "Measuring", year: 2010 } }),
    ).toBe("An extension service, Measuring, 2010");
    expect(saySource("X-2", {})).toBe("X-2");
  });
});

describe("toasts", () => {
  it("offer undo for ten seconds, even when a newer line comes", () => {
    vi.useFakeTimers();
    const undone = vi.fn();
    render(<Toasts />);
    showToast({ text: "Mow noted.", action: { label: "Undo", act: undone } });
    vi.advanceTimersByTime(9000);
    showToast({ text: "Saved." });
    return vi.waitFor(() => {
      fireEvent.click(screen.getByRole("button", { name: "Undo" }));
      expect(undone).toHaveBeenCalledOnce();
    });
  });

  it("can be put away without doing what they offer", async () => {
    const taken = vi.fn();
    render(<Toasts />);
    showToast({ text: "A newer version.", action: { label: "Use it now", act: taken }, dismiss: "Later" });
    fireEvent.click(await screen.findByRole("button", { name: "Later" }));
    await vi.waitFor(() => expect(screen.queryByText("A newer version.")).toBeNull());
    expect(taken).not.toHaveBeenCalled();
  });

  it("are gone after their time", async () => {
    vi.useFakeTimers();
    render(<Toasts />);
    showToast({ text: "Mow noted.", action: { label: "Undo", act: () => undefined } });
    vi.advanceTimersByTime(10_000);
    vi.useRealTimers();
    await vi.waitFor(() => expect(screen.queryByText("Mow noted.")).toBeNull());
  });
});

describe("a line at the foot of the screen, while a sheet is open", () => {
  function Page({ open, over = false }: { open: boolean; over?: boolean }) {
    return (
      <>
        <Sheet open={open} onClose={() => undefined} title="Note a mow">
          <p>Zones</p>
        </Sheet>
        <Sheet open={over} onClose={() => undefined} title="Mow it all the same?">
          <p>Keep off</p>
        </Sheet>
        <Toasts />
      </>
    );
  }
  const said = () => screen.getByText("Not saved. Free some space on this phone and try again.");
  const fails = async () => void (await orSay(() => Promise.reject(new Error("full"))));

  it("is said inside the sheet, since all else is out of reach, and once", async () => {
    render(<Page open />);
    // What is to be announced needs a place that was there before.
    const sheet = screen.getByRole("dialog", { name: "Note a mow" });
    expect(within(sheet).getByRole("status").textContent).toBe("");
    await act(fails);
    expect(within(within(sheet).getByRole("status")).getByText(/^Not saved/)).toBe(said());
  });

  it("is said in the uppermost of two, and on the page once none is open", async () => {
    const { rerender } = render(<Page open over />);
    await act(fails);
    expect(said().closest("dialog")).toBe(screen.getByRole("dialog", { name: "Mow it all the same?" }));
    rerender(<Page open />);
    expect(said().closest("dialog")).toBe(screen.getByRole("dialog", { name: "Note a mow" }));
    rerender(<Page open={false} />);
    expect(said().closest("dialog")).toBeNull();
    expect(said().closest("[role=status]")).not.toBeNull();
  });

  it("can be taken back from there", async () => {
    const undone = vi.fn();
    render(<Page open />);
    act(() => void showToast({ text: "Front: mow noted.", action: { label: "Undo", act: undone } }));
    fireEvent.click(within(screen.getByRole("dialog")).getByRole("button", { name: "Undo" }));
    expect(undone).toHaveBeenCalledOnce();
  });
});
