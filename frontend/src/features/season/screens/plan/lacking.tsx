/** What no plan can take, each with the way to mend it. */
import { Link } from "wouter-preact";
import type { Gathered } from "../../model/plan/planning";
import { lackingIn } from "./words";

export function LackingList({ gathered }: { gathered: Gathered }) {
  const lacking = lackingIn(gathered);
  if (!lacking.length) return null;
  return (
    <>
      <h3>Not in the plan</h3>
      <ul class="lines">
        {lacking.map(({ id, name, says, href }) => (
          <li class="line" key={id}>
            <Link className="line__main" href={href}>
              <span class="line__title">{name}</span>
              <span class="line__facts">{says}</span>
            </Link>
          </li>
        ))}
      </ul>
    </>
  );
}
