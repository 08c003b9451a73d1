import table from "@fixtures/published/tray_tests.json";
import { percent } from "../../../../format";
import { Figure, type WorkingStep } from "../../../../ui/parts";
import { saySource, useSources } from "../../../../ui/working/sources";

/** Nearer to even than this is taken as even: trays are not weighed more finely. */
const EVEN = 0.02;

interface LopsidedProps {
  share: number;
  working: readonly WorkingStep[] | undefined;
  busy: boolean;
}

/** What a lopsided throw does, in words, with what is done about it. */
export function Lopsided({ share, working, busy }: LopsidedProps) {
  const heavy = Math.max(share, 1 - share);
  const side = share > 0.5 ? "left" : "right";
  const steps = working?.filter((step) => /left/i.test(step.what));
  const even = heavy - 0.5 <= EVEN;
  return (
    <section class="stack" aria-labelledby="lopsided">
      <h3 id="lopsided">Left and right</h3>
      <div class="figures">
        <Figure label="Falls left of the middle" value={percent(share).text} working={steps} busy={busy} />
      </div>
      {even ? (
        <p>It throws evenly to both sides.</p>
      ) : (
        <>
          <p>
            It throws more to the <b>{side}</b>: {percent(heavy).text} of the product falls there.
          </p>
          <Compared heavy={heavy} />
          <Advice />
        </>
      )}
    </section>
  );
}

/** The computed pattern nearest to this one, walked three ways. */
function Compared({ heavy }: { heavy: number }) {
  const [first] = table.lopsided;
  if (!first) return null;
  const near = table.lopsided.reduce(
    (best, row) => (Math.abs(row.heavy_share - heavy) < Math.abs(best.heavy_share - heavy) ? row : best),
    first,
  );
  const ways = [
    ["Once, back and forth", near.to_and_fro_share],
    ["Two passes at half the rate, the second between the first strips", near.offset_share],
    ["Half the rate, strips half as far apart", near.half_apart_share],
  ] as const;
  return (
    <table class="table">
      <caption class="quiet small">
        Figured for a triangular throw with {percent(near.heavy_share).text} on one side, strips half a throw
        apart.
      </caption>
      <thead>
        <tr>
          <th scope="col">How you walk</th>
          <th scope="col" class="num">
            Uneven
          </th>
        </tr>
      </thead>
      <tbody>
        {ways.map(([way, cv]) => (
          <tr key={way}>
            <td>{way}</td>
            <td class="num">{percent(cv).text}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Advice() {
  const sources = useSources();
  return (
    <ul class="bullets">
      {table.advice.map(({ key, says, sources: keys }) => (
        <li key={key}>
          {says} <small class="quiet">Source: {keys.map((one) => saySource(one, sources)).join("; ")}</small>
        </li>
      ))}
    </ul>
  );
}
