import { Link } from "wouter-preact";
import { dateTime, length, percent } from "../../../../format";
import { units } from "../../../../platform/session/session";
import type { Entry } from "../../../../records/entries";
import { nameOf } from "../../../../records/log/named";
import { Button } from "../../../../ui/parts";
import { trays } from "../../model";

/** The tests of a spreader that are in the book, and the way to a new one. */
export function TraysPart({ id }: { id: string }) {
  const past = trays.past(id);
  return (
    <section class="section" aria-labelledby="trays">
      <h2 id="trays">Tray tests</h2>
      {past.length ? (
        <ul class="lines">
          {past.map((entry) => (
            <TestLine key={entry.id} entry={entry} />
          ))}
        </ul>
      ) : (
        <p class="quiet">
          A row of trays shows how wide this spreader throws and whether it favors one side.
        </p>
      )}
      <div>
        <Button href={`/shed/spreader/${id}/trays`}>Test with trays</Button>
      </div>
    </section>
  );
}

function TestLine({ entry }: { entry: Entry }) {
  const { widest_m, cv_limit_share, product_id } = entry.body;
  const limit = typeof cv_limit_share === "number" ? percent(cv_limit_share).text : "the limit";
  return (
    <li>
      <Link class="line" href={`/log/${entry.id}`}>
        <span class="line__main">
          <span class="line__title">
            {typeof widest_m === "number"
              ? `${length(widest_m, units.value).text} within ${limit}`
              : `No distance within ${limit}`}
          </span>
          <span class="line__facts">
            {[dateTime(entry.at, units.value), nameOf(product_id)].filter(Boolean).join(" · ")}
          </span>
        </span>
      </Link>
    </li>
  );
}
