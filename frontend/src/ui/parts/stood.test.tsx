import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { rest, waitBy } from "../../records/rest";
import { Button } from "./button";
import { whatStands } from "./stood";

const tapped = vi.fn();
let top = 0;

const page = (label: string) => (
  <Button label={label} onClick={tapped}>
    Mowed
  </Button>
);

beforeEach(() => {
  // Rests until the test is over.
  waitBy(() => () => {});
  top = 0;
  vi.spyOn(Element.prototype, "getBoundingClientRect").mockImplementation(() => new DOMRect(0, top, 80, 48));
});

afterEach(() => {
  cleanup();
  tapped.mockClear();
  waitBy((over) => {
    over();
    return () => {};
  });
  rest.begin();
});

describe("a tap as the page changes by itself", () => {
  it("counts on a button that is where and what it was, once: what it records rests as ever", async () => {
    render(page("Mowed: Verge"));
    rest.begin(whatStands());
    fireEvent.click(screen.getByRole("button"));
    expect(tapped).toHaveBeenCalledTimes(1);
    await rest.during(async () => undefined);
    rest.begin(whatStands());
    fireEvent.click(screen.getByRole("button"));
    expect(tapped).toHaveBeenCalledTimes(1);
  });

  it("does nothing on one that has moved", () => {
    render(page("Mowed: Verge"));
    rest.begin(whatStands());
    top = 60;
    fireEvent.click(screen.getByRole("button"));
    expect(tapped).not.toHaveBeenCalled();
  });

  it("does nothing on one that says something else, nor on one that was not there", () => {
    const { rerender } = render(page("Mowed: Verge"));
    rest.begin(whatStands());
    rerender(page("Mowed: Bank"));
    fireEvent.click(screen.getByRole("button"));
    cleanup();
    render(page("Mowed: Verge"));
    fireEvent.click(screen.getByRole("button"));
    expect(tapped).not.toHaveBeenCalled();
  });
});
