import { Button, Notice } from "../../../ui/parts";
import { spreading } from "../model";
import { type Doubt, doubtsOf } from "../model/learning";
import { sayChance } from "./bits";

/** Passes of this job that look unlike the others: clogged, damp, or a gate shut late. The person decides. */
export function Doubts() {
  const found = doubtsOf(spreading.next.value?.value, spreading.pastRows.value, spreading.passes.value);
  return (
    <>
      {found.map((doubt) => (
        <OneDoubt key={doubt.entryId} doubt={doubt} />
      ))}
    </>
  );
}

function OneDoubt({ doubt: { entryId, number, chance, leftOut } }: { doubt: Doubt }) {
  const set = (bad: boolean) => void spreading.learnFrom(entryId, !bad);
  if (leftOut)
    return (
      <Notice title={`Pass ${number} is ignored`}>
        <p>It still counts as put down. It won’t affect later dials.</p>
        <Button busy={spreading.busy.value} onClick={() => set(false)}>
          Use pass {number}
        </Button>
      </Notice>
    );
  return (
    <Notice kind="warn" title={`Pass ${number} looks off`}>
      <p>
        Was it clogged, damp, or walked at a different pace? If so, ignore this pass.
        {chance === null ? "" : ` Chance that it is off: ${sayChance(chance)}.`}
      </p>
      <Button busy={spreading.busy.value} onClick={() => set(true)}>
        Ignore pass {number}
      </Button>
    </Notice>
  );
}
