import { Button } from "../../../ui/parts";
import { own } from "../model";
import { sayDays } from "./words";

/** Days of weather that the household brought itself. */
export function OwnPart() {
  const dates = [...own.days.value.keys()].sort();
  const [first, last] = [dates[0], dates.at(-1)];
  return (
    <section class="section" aria-labelledby="own">
      <h2 id="own">Your own days</h2>
      {first && last ? (
        <p>{sayDays(dates.length, first, last)}.</p>
      ) : (
        <p>
          Have a weather station, or a table from one near you? Add its days. They count before the forecast.
        </p>
      )}
      <div>
        <Button href="/weather/import">Import days</Button>
      </div>
    </section>
  );
}
