import { CloudUpload } from "lucide-preact";
import { Link } from "wouter-preact";
import { units } from "../../../platform/session/session";
import type { Entry } from "../../../records/entries";
import { nameOf } from "../../../records/log/named";
import { labelOf } from "../../../records/log/registry";
import { sayBriefly } from "../../../records/log/words";

/** One entry on its rule: kind and time, what it says, who did it, and whether it is still on its way. */
export function EntryLine({ entry, when }: { entry: Entry; when: string }) {
  const by = nameOf(entry.by);
  return (
    <li>
      <Link href={`/log/${entry.id}`} className="line">
        <span class="line__main">
          <span class={entry.struck ? "line__title struck" : "line__title"}>
            {labelOf(entry.kind)} <span class="quiet small">{when}</span>
          </span>
          <span class={entry.struck ? "line__facts struck" : "line__facts"}>
            {sayBriefly(entry, units.value)}
          </span>
          {entry.note ? <span class="line__facts">“{entry.note}”</span> : null}
          {by ? <span class="line__facts">by {by}</span> : null}
          {entry.struck ? <span class="line__facts">Crossed out</span> : null}
        </span>
        <span class="line__end">
          {entry.pending ? (
            <span class="tag">
              <CloudUpload aria-hidden="true" size={14} />
              waiting
            </span>
          ) : null}
        </span>
      </Link>
    </li>
  );
}
