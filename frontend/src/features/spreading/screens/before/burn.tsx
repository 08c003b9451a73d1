/** Can it burn? One plain sentence for the zones it is true of. */
import { useState } from "preact/hooks";
import { sayRefusal } from "../../../../forms/refusal";
import type { Answer } from "../../../../platform/engine/types";
import { units } from "../../../../platform/session/session";
import { Button, Notice, Sheet, Working } from "../../../../ui/parts";
import type { BurnLine } from "../../model/before/burn";

interface BurnsProps {
  found: Answer<BurnLine[]> | undefined;
  nameOf: (zoneId: string) => string;
  /** Names of the zones are left out where there is only one it could be about. */
  alone: boolean;
}

export function Burns({ found, nameOf, alone }: BurnsProps) {
  const [why, setWhy] = useState<BurnLine | undefined>(undefined);
  if (!found) return null;
  return (
    <section class="section" aria-labelledby="can-it-burn">
      <h2 id="can-it-burn">Can it burn?</h2>
      {found.error ? <Notice kind="bad">{sayRefusal(found.error, units.value)}</Notice> : null}
      {found.value?.map((line) => (
        <div key={line.says}>
          <p>
            {alone ? null : <strong>{line.zoneIds.map(nameOf).join(", ")}: </strong>}
            {line.says}
          </p>
          <Button tone="quiet" onClick={() => setWhy(line)}>
            How this is worked out
          </Button>
        </div>
      ))}
      <Sheet open={!!why} onClose={() => setWhy(undefined)} title="How this is worked out">
        <Working steps={why?.working ?? []} />
      </Sheet>
    </section>
  );
}
