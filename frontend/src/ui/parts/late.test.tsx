import { render, screen, waitFor } from "@testing-library/preact";
import { describe, expect, it } from "vitest";
import { late, lateSheet } from "./late";

const Board = ({ name }: { name: string }) => <p>Board of {name}</p>;

describe("a late part", () => {
  it("is drawn with what it is given once its code is there, and is asked for only once", async () => {
    let loads = 0;
    const Late = late(async () => {
      loads += 1;
      return Board;
    });
    const first = render(<Late name="Back" />);
    expect(first.container.textContent).toBe("");
    await screen.findByText("Board of Back");
    first.unmount();
    render(<Late name="Front" />);
    expect(screen.getByText("Board of Front")).toBeTruthy();
    expect(loads).toBe(1);
  });

  it("is asked for again until its code could be read, as long as it is wanted", async () => {
    const waiting: (() => void)[] = [];
    let works = false;
    let loads = 0;
    const Late = late(
      async () => {
        loads += 1;
        if (!works) throw new TypeError("not in the cache");
        return Board;
      },
      (over) => {
        waiting.push(over);
        return () => waiting.splice(0);
      },
    );
    const { unmount } = render(<Late name="Back" />);
    await waitFor(() => expect(waiting).toHaveLength(1));
    works = true;
    waiting[0]?.();
    await screen.findByText("Board of Back");
    unmount();
    expect(loads).toBe(2);
  });
});

describe("a late sheet", () => {
  it("is fetched when it is first opened, and stays when it is shut", async () => {
    let loads = 0;
    const Door = ({ open }: { open: boolean }) => <p>{open ? "open" : "shut"}</p>;
    const Late = lateSheet(async () => {
      loads += 1;
      return Door;
    });
    const { rerender } = render(<Late open={false} />);
    expect(loads).toBe(0);
    rerender(<Late open />);
    await screen.findByText("open");
    rerender(<Late open={false} />);
    expect(screen.getByText("shut")).toBeTruthy();
  });
});
