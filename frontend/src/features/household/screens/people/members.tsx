import { ChevronRight } from "lucide-preact";
import { useState } from "preact/hooks";
import { Link } from "wouter-preact";
import { Button } from "../../../../ui/parts";
import { household } from "../../model";
import type { Member } from "../../model/household";
import { NameSheet, type Naming } from "./names";

export function sayRole({ role, active }: Member): string {
  if (!active) return "No longer in the household";
  return role === "keeper" ? "Keeper: invites, removes, names the household" : "Member";
}

export function Members() {
  const [naming, setNaming] = useState<Naming>("");
  return (
    <section class="section" aria-labelledby="members">
      <h2 id="members">Members</h2>
      <ul class="lines">
        {household.members.value.map((member) => (
          <li key={member.id}>
            <Link href={`/household/members/${member.id}`} className="line">
              <span class="line__main">
                <span class="line__title">
                  {member.name}
                  {member.me ? " (you)" : ""}
                </span>
                <span class="line__facts">{sayRole(member)}</span>
              </span>
              <ChevronRight aria-hidden="true" size={20} />
            </Link>
          </li>
        ))}
      </ul>
      <div class="row">
        <Button onClick={() => setNaming("me")}>Change your name</Button>
        {household.keeper.value ? (
          <Button onClick={() => setNaming("household")}>Rename the household</Button>
        ) : null}
      </div>
      <NameSheet which={naming} onClose={() => setNaming("")} />
    </section>
  );
}
