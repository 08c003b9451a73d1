/** What the app is not, and what comes before it. */
export function Cautions() {
  return (
    <section class="section" aria-labelledby="cautions">
      <h2 id="cautions">Cautions</h2>
      <ul class="stack stack--tight bullets">
        <li>
          The label on the bag comes first, then your local rules, then licensed practice. This book never
          stands above them.
        </li>
        <li>It works from what you entered. A wrong number off a label gives a wrong dose.</li>
        <li>Too little can be added to; too much cannot be taken back.</li>
        <li>
          Wear what the label asks for. Mind wind and heat, sweep granules off paving, keep away from water
          and drains.
        </li>
        <li>
          Keep people and pets off for as long as the label says. Store products locked, dry, in their own
          bags.
        </li>
      </ul>
    </section>
  );
}
