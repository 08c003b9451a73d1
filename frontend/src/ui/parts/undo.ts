/** What is recorded at one tap: a failure is said, what was made is offered back, everywhere in the same way. */
import { sayNotSaved } from "../../forms/saving";
import { rest } from "../../records/rest";
import { showToast } from "./toast";

const READING_S = 10;

/** A save at one tap, with no form to say it in: the failure is said at the foot of the screen. */
export async function orSay<V>(work: () => Promise<V>): Promise<{ value: V } | undefined> {
  try {
    return { value: await work() };
  } catch (error) {
    showToast({ text: sayNotSaved(error), seconds: READING_S });
    return undefined;
  }
}

/** Says what was done and offers the way back for as long as that stands; the thumb rests after it. */
export function offerUndo(text: string, back: (() => Promise<unknown>) | undefined): void {
  const undo = async (undoing: () => Promise<unknown>) => {
    if (await orSay(() => rest.during(undoing))) showToast({ text: "Undone." });
  };
  showToast({ text, action: back && { label: "Undo", act: () => undo(back) } });
}

/** Records at one tap, says so and offers the way back; nothing where it was not recorded. */
export async function orUndo<V extends { back?: () => Promise<unknown> }>(
  work: () => Promise<V>,
  text: string,
): Promise<V | undefined> {
  const made = await orSay(work);
  if (made) offerUndo(text, made.value.back);
  return made?.value;
}
