// @vitest-environment happy-dom
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { keepForGood } from "./memory";

class Words {
  lang = "";
  constructor(public text: string) {}
}

/** A voice that keeps what it was told, in order. */
function fakeVoice(): string[] {
  const heard: string[] = [];
  vi.stubGlobal("SpeechSynthesisUtterance", Words);
  vi.stubGlobal("speechSynthesis", {
    cancel: () => heard.push("(silence)"),
    speak: ({ text, lang }: Words) => heard.push(`${lang}: ${text}`),
  });
  return heard;
}

/** The app's code begun anew. */
async function newStart() {
  vi.resetModules();
  return import("./speech");
}

beforeEach(() => localStorage.clear());
afterEach(() => vi.unstubAllGlobals());

describe("the phone's voice", () => {
  it("is off until it is turned on", async () => {
    const heard = fakeVoice();
    const { speech } = await newStart();
    speech.say("Dial 9.5. Strip 4 of 14.");
    expect(speech.on.value).toBe(false);
    expect(heard).toEqual([]);
  });

  it("drops what is being said for what is said next", async () => {
    const heard = fakeVoice();
    const { setSpeech, speech } = await newStart();
    setSpeech(true);
    heard.length = 0;
    speech.say("Strip 4 of 14.");
    speech.say("Strip 5 of 14.");
    expect(heard).toEqual(["(silence)", "en: Strip 4 of 14.", "(silence)", "en: Strip 5 of 14."]);
  });

  it("answers aloud when turned on and falls silent when turned off", async () => {
    const heard = fakeVoice();
    const { setSpeech, speech } = await newStart();
    setSpeech(true);
    expect(heard.at(-1)).toBe("en: Voice is on.");
    setSpeech(false);
    expect(heard.at(-1)).toBe("(silence)");
    const before = heard.length;
    speech.say("Strip 6 of 14.");
    expect(heard).toHaveLength(before);
  });

  it("is remembered by this phone", async () => {
    fakeVoice();
    (await newStart()).setSpeech(true);
    expect((await newStart()).speech.on.value).toBe(true);
    (await newStart()).setSpeech(false);
    expect((await newStart()).speech.on.value).toBe(false);
  });

  it("comes back from the lasting memory when local storage lost it", async () => {
    fakeVoice();
    await keepForGood("evenfall.speech", true);
    const { recoverSpeech, speech } = await newStart();
    await recoverSpeech();
    expect(speech.on.value).toBe(true);
  });

  it("does nothing where a phone has no voice", async () => {
    vi.stubGlobal("speechSynthesis", undefined);
    const { canSpeak, setSpeech, speech } = await newStart();
    setSpeech(true);
    speech.say("Strip 4 of 14.");
    expect(canSpeak()).toBe(false);
    expect(speech.on.value).toBe(true);
  });
});
