import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Outcome } from "../../../platform/sync/http";

const made = vi.hoisted(() => ({ sent: [] as unknown[], answer: undefined as unknown }));
vi.mock("../../../platform/session/session", () => ({
  signIn: async (...sent: unknown[]) => {
    made.sent.push(sent);
    return made.answer;
  },
  signUp: async (details: unknown) => {
    made.sent.push(details);
    return made.answer;
  },
}));

const { SignForms } = await import("./sign");

const NO_ANSWER: Outcome<never> = { ok: false, status: 0, code: "no_answer", message: "No answer." };

function open(answer: Outcome<unknown>) {
  made.answer = answer;
  const done = vi.fn();
  render(<SignForms again={undefined} onDone={done} />);
  return done;
}

const type = (label: string, value: string) =>
  fireEvent.input(screen.getByLabelText(label), { target: { value } });

afterEach(() => {
  cleanup();
  made.sent.length = 0;
});

describe("the entrance", () => {
  it("sends nothing while a field is blank, says which, and moves the focus there", async () => {
    open(NO_ANSWER);
    type("E-mail", "rowan@example.org");
    fireEvent.click(screen.getByRole("button", { name: "Sign in" }));
    await screen.findByText("The password is missing. Enter the one you signed up with.");
    await waitFor(() => expect(document.activeElement).toBe(screen.getByLabelText("Password")));
    expect(made.sent).toEqual([]);
  });

  it("says what a new password may be while it is blank", async () => {
    open(NO_ANSWER);
    fireEvent.click(screen.getByLabelText("Start a new book"));
    fireEvent.click(screen.getByRole("button", { name: "Start the book" }));
    expect(await screen.findByText(/^The password is missing\. Allowed: 10 to 256 characters/)).toBeTruthy();
    expect(made.sent).toEqual([]);
  });

  it("says plainly that the first sign-in needs signal, and keeps what was written", async () => {
    const done = open(NO_ANSWER);
    type("E-mail", " rowan@example.org ");
    type("Password", "walking strips slowly");
    fireEvent.click(screen.getByRole("button", { name: "Sign in" }));
    expect(await screen.findByText(/You need a signal to sign in the first time/)).toBeTruthy();
    expect(made.sent).toEqual([["rowan@example.org", "walking strips slowly"]]);
    expect((screen.getByLabelText("Password") as HTMLInputElement).value).toBe("walking strips slowly");
    expect(done).not.toHaveBeenCalled();
  });

  it("puts what the server says beside its field", async () => {
    open({
      ok: false,
      status: 400,
      code: "invalid",
      message: "No.",
      fields: { password: "This password is too common." },
    });
    fireEvent.click(screen.getByLabelText("Start a new book"));
    type("Your name", "Rowan");
    type("E-mail", "rowan@example.org");
    type("Password", "password");
    type("Household", "Alder Bend");
    fireEvent.click(screen.getByLabelText("kg, m², mm"));
    fireEvent.click(screen.getByRole("button", { name: "Start the book" }));
    await screen.findByText("This password is too common.");
    expect(screen.getByLabelText("Password").getAttribute("aria-invalid")).toBe("true");
    expect(made.sent).toEqual([
      {
        name: "Rowan",
        email: "rowan@example.org",
        password: "password",
        household_name: "Alder Bend",
        units: "metric",
      },
    ]);
  });
});
