/** The phone's own voice for the yard: off until somebody turns it on; a choice of this phone, kept here. */
import { signal } from "@preact/signals";
import { keepForGood, recall, recallKept, remember } from "./memory";

const KEY = "evenfall.speech";
/** The book's sentences are English whatever the phone's own language is. */
const LANGUAGE = "en";

const on = signal(recall(KEY) === true);

/** The phone's voice; absent in some browsers. */
function voice(): SpeechSynthesis | undefined {
  const { speechSynthesis, SpeechSynthesisUtterance } = globalThis as Partial<typeof globalThis>;
  return speechSynthesis && SpeechSynthesisUtterance ? speechSynthesis : undefined;
}

/** Whether this phone can speak at all. */
export function canSpeak(): boolean {
  return voice() !== undefined;
}

/** Says it now: what is still being said is dropped, for a dial said late is a wrong dial. */
export function say(text: string): void {
  if (on.value) utter(text);
}

function utter(text: string): void {
  const speaker = voice();
  if (!speaker) return;
  speaker.cancel();
  const words = new SpeechSynthesisUtterance(text);
  words.lang = LANGUAGE;
  speaker.speak(words);
}

/** Turned on by a tap, it answers aloud at once: some phones give a page its voice only within a tap. */
export function setSpeech(choice: boolean): void {
  on.value = choice;
  remember(KEY, choice);
  void keepForGood(KEY, choice);
  if (choice) utter("Voice is on.");
  else voice()?.cancel();
}

/** A choice that local storage had not yet written when the browser was killed. */
export async function recoverSpeech(): Promise<void> {
  if (recall(KEY) !== undefined) return;
  const known = await recallKept(KEY);
  if (typeof known !== "boolean" || recall(KEY) !== undefined) return;
  on.value = known;
  remember(KEY, known);
}

/** `speech.on` is followed by screens; `speech.say` is what the job calls. */
export const speech = { on, say };

void recoverSpeech();
