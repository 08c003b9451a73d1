import { Button } from "../../../ui/parts";

/** The way from the place and its weather to the soil beneath it. */
export function SoilPart() {
  return (
    <section class="section" aria-labelledby="soil">
      <h2 id="soil">Soil warmth</h2>
      <p>Some jobs wait for warm soil. See when it gets there.</p>
      <div>
        <Button href="/weather/soil">Show soil warmth</Button>
      </div>
    </section>
  );
}
