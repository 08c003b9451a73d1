import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { setSpeech, speech } from "../../platform/session/speech";
import { SpeechSwitch } from "./speech-switch";

function giveVoice() {
  vi.stubGlobal("SpeechSynthesisUtterance", class {});
  vi.stubGlobal("speechSynthesis", { cancel: () => undefined, speak: () => undefined });
}

afterEach(() => {
  cleanup();
  setSpeech(false);
  vi.unstubAllGlobals();
});

describe("the voice's switch", () => {
  it("says whether it is on and turns over with each tap", () => {
    giveVoice();
    render(<SpeechSwitch />);
    const at = () => screen.getByRole("button", { name: "Speak dial and strip" });
    expect(at().getAttribute("aria-pressed")).toBe("false");
    fireEvent.click(at());
    expect(at().getAttribute("aria-pressed")).toBe("true");
    expect(speech.on.value).toBe(true);
  });

  it("is not there where the phone has no voice", () => {
    vi.stubGlobal("speechSynthesis", undefined);
    const { container } = render(<SpeechSwitch />);
    expect(container.innerHTML).toBe("");
  });
});
