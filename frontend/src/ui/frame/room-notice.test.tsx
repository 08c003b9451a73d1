import { signal } from "@preact/signals";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, expect, it, vi } from "vitest";
import type { Trouble } from "../../platform/store/room";

const trouble = signal<Trouble | null>(null);
const freeSentPhotos = vi.fn(async () => 3);
vi.mock("../../platform/store", () => ({
  storeTrouble: trouble,
  freeSentPhotos,
  standing: signal({ waiting: 4, parked: [], photosWaiting: 0, state: "waiting" }),
}));
const { RoomNotice } = await import("./room-notice");
const { Toasts } = await import("../parts/toast");

afterEach(() => {
  cleanup();
  trouble.value = null;
});

function show(kind: Trouble) {
  render(
    <>
      <label>
        Typed <input />
      </label>
      <RoomNotice />
      <Toasts />
    </>,
  );
  screen.getByLabelText<HTMLInputElement>("Typed").focus();
  trouble.value = kind;
}

it("F41 an older page says so with a way to open it again, and takes no focus", async () => {
  show("older_page");
  expect(await screen.findByText(/older than another tab/)).toBeTruthy();
  expect(screen.getByRole("button", { name: "Reload" })).toBeTruthy();
  expect(document.activeElement).toBe(screen.getByLabelText("Typed"));
});

it("F41 a page that waits for an older tab says for what, until it goes on", async () => {
  show("blocked");
  await screen.findByText(/Close that tab/);
  trouble.value = null;
  await waitFor(() => expect(screen.queryByText(/Close that tab/)).toBeNull());
});

it("F43 a page older than the book's tables says what can be done and what not", async () => {
  show("newer");
  expect(await screen.findByText(/has data from a newer version/)).toBeTruthy();
  expect(screen.getByRole("link", { name: "Go to export" }).getAttribute("href")).toBe("/household");
});

it("F38 a save on a lost connection says that it was not saved, and what to do, until one is made", async () => {
  show("lost");
  expect(await screen.findByText(/^Not saved\. This phone’s storage did not answer\./)).toBeTruthy();
  expect(screen.getByRole("button", { name: "Restart the app" })).toBeTruthy();
  expect(document.activeElement).toBe(screen.getByLabelText("Typed"));
  trouble.value = null;
  await waitFor(() => expect(screen.queryByText(/Not saved/)).toBeNull());
});

it("F37 a save without room offers what makes room, and the form stays", async () => {
  show("full");
  await screen.findByText("No space left on this phone");
  expect(screen.getByText("4 waiting to be sent.")).toBeTruthy();
  expect(screen.getByLabelText("Typed")).toBeTruthy();
  fireEvent.click(screen.getByText("Remove sent photos from this phone"));
  await screen.findByText("3 photos removed here. The server keeps them.");
  expect(freeSentPhotos).toHaveBeenCalledOnce();
});
