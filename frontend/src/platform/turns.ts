/**
 * Work in turns: each piece in a task of its own, in the order in which it was asked for, so that a thumb is answered
 * between two however long the log is. Only a page takes turns (`takeTurns`); elsewhere each piece is done at once.
 */
type Work = () => void;

let hand: (work: Work) => void = (work) => work();

export const inTurn = (work: Work): void => hand(work);

/** A timer of no time waits for four milliseconds once it is set by another one; a message does not. */
export function takeTurns(): void {
  const { port1, port2 } = new MessageChannel();
  const waiting: Work[] = [];
  port1.onmessage = () => waiting.shift()?.();
  hand = (work) => {
    waiting.push(work);
    port2.postMessage(undefined);
  };
}
