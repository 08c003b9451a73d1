import { dateTime } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { nameOf } from "../../../../records/log/named";
import { timeOfHlc } from "../../../../records/overlay";
import { Button, Notice, orUndo } from "../../../../ui/parts";
import type { Matter, Other } from "../../model/conflicts";
import { conflicts } from "../../model/together";
import { Facts } from "../facts";
import { sayGroup, sayRecord } from "../text";

/** What two phones wrote apart: shown to everybody until somebody chooses. */
export function Conflicts() {
  const matters = conflicts.matters.value;
  if (!matters.length) return null;
  return (
    <section class="section" aria-labelledby="conflicts">
      <h2 id="conflicts">Changed on two phones</h2>
      <p class="quiet">Two phones changed the same thing. Choose the right one.</p>
      {matters.map((matter) => (
        <OneMatter key={matter.key} matter={matter} />
      ))}
    </section>
  );
}

function sayWho(by: string | undefined, hlc: string | undefined): string {
  const at = timeOfHlc(hlc);
  return [nameOf(by), at && dateTime(at, units.value)].filter(Boolean).join(", ");
}

const sayOut = (value: Record<string, unknown> | undefined) =>
  value?.["deleted"] === true ? "Removed" : "In use";

function factsOf({ t, group }: Matter, value: Record<string, unknown> | undefined): [string, string][] {
  if (group === "deleted") return [["State", sayOut(value)]];
  return sayGroup(t, group, value, { system: units.value, nameOf: nameOf });
}

/** Where an edit met a deletion: still in the book, with what the edit wrote. */
function standingFacts(matter: Matter): [string, string][] {
  const written = matter.edited.flatMap((group) =>
    sayGroup(matter.t, group, matter.record.groups[group]?.value, {
      system: units.value,
      nameOf: nameOf,
    }),
  );
  return [...factsOf(matter, matter.standing), ...written];
}

function OneMatter({ matter }: { matter: Matter }) {
  const what = sayRecord(matter.t, matter.recordId, matter.record, nameOf);
  return (
    <Notice kind="warn" title={what}>
      <Side title="Used now" who={sayWho(matter.by, matter.hlc)} facts={standingFacts(matter)} />
      <div>
        <Button onClick={() => orUndo(() => conflicts.keep(matter), "Kept.")} label={`Keep this: ${what}`}>
          Keep this
        </Button>
      </div>
      {matter.others.map((other, at) => (
        <OtherSide
          key={other.id}
          matter={matter}
          other={other}
          what={what}
          many={matter.others.length > 1 ? at + 1 : 0}
        />
      ))}
    </Notice>
  );
}

interface OtherProps {
  matter: Matter;
  other: Other;
  what: string;
  /** Its number where there are several; 0 for the only one. */
  many: number;
}

function OtherSide({ matter, other, what, many }: OtherProps) {
  const named = many ? `the other, number ${many}` : "the other";
  const restore = () => orUndo(() => conflicts.restore(matter, other), "Restored.");
  return (
    <>
      <Side
        title={many ? `The other, number ${many}` : "The other"}
        who={sayWho(other.by, other.hlc)}
        facts={factsOf(matter, other.value)}
      />
      <div>
        <Button onClick={restore} label={`Restore ${named}: ${what}`}>
          Restore {named}
        </Button>
      </div>
    </>
  );
}

function Side({ title, who, facts }: { title: string; who: string; facts: [string, string][] }) {
  return (
    <div>
      <h3>{title}</h3>
      {who ? <p class="quiet">{who}</p> : null}
      <Facts facts={facts} />
    </div>
  );
}
