import { fireEvent, render, screen } from "@testing-library/preact";
import { describe, expect, it } from "vitest";
import { lazy } from "./lazy";

const Place = () => <h1>Ground</h1>;

describe("a lazy screen", () => {
  it("shows itself once loaded, and is loaded only once", async () => {
    let loads = 0;
    const Lazy = lazy(async () => {
      loads += 1;
      return { default: Place };
    });
    const first = render(<Lazy />);
    await screen.findByRole("heading", { name: "Ground" });
    first.unmount();
    render(<Lazy />);
    expect(screen.getByRole("heading", { name: "Ground" })).toBeTruthy();
    expect(loads).toBe(1);
  });

  it("that cannot be loaded says so, and loads when asked again", async () => {
    let works = false;
    const Lazy = lazy(async () => {
      if (!works) throw new TypeError("not in the cache");
      return { default: Place };
    });
    render(<Lazy />);
    expect((await screen.findByRole("alert")).textContent).toContain("Nothing you entered is touched");
    works = true;
    fireEvent.click(screen.getByRole("button", { name: "Try again" }));
    await screen.findByRole("heading", { name: "Ground" });
  });
});
