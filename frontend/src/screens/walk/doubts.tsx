import { walk } from "../../models";
import { type Doubt, doubtsOf } from "../../models/learning";
import { Button, Notice } from "../../parts";
import { sayChance } from "./bits";

/** Passes of this walk that look unlike the others: clogged, damp, or a gate shut late. The person decides. */
export function Doubts() {
  const found = doubtsOf(walk.next.value?.value, walk.pastRows.value, walk.passes.value);
  return (
    <>
      {found.map((doubt) => (
        <OneDoubt key={doubt.entryId} doubt={doubt} />
      ))}
    </>
  );
}

function OneDoubt({ doubt: { entryId, number, chance, leftOut } }: { doubt: Doubt }) {
  const set = (bad: boolean) => void walk.learnFrom(entryId, !bad);
  if (leftOut)
    return (
      <Notice title={`Pass ${number} is left out of learning`}>
        <p>It still counts as put down; only the next settings take no lesson from it.</p>
        <Button busy={walk.busy.value} onClick={() => set(false)}>
          Learn from pass {number} after all
        </Button>
      </Notice>
    );
  return (
    <Notice kind="warn" title={`Pass ${number} looks unlike the others`}>
      <p>
        Clogged or damp, the gate not where it should be, another pace?
        {chance === null ? "" : ` By the other passes the chance is ${sayChance(chance)}.`} If you know a
        reason, leave it out of learning.
      </p>
      <Button busy={walk.busy.value} onClick={() => set(true)}>
        Leave pass {number} out of learning
      </Button>
    </Notice>
  );
}
