/** What the app is not, and what comes before it. */
export function Cautions() {
  return (
    <section class="section" aria-labelledby="cautions">
      <h2 id="cautions">Cautions</h2>
      <ul class="stack stack--tight bullets">
        <li>
          The bag label comes first, then local rules, then licensed pros. This app never overrides them.
        </li>
        <li>It works from what you enter. A wrong number from a label gives a wrong dose.</li>
        <li>You can add more. You can’t take back too much.</li>
        <li>
          Wear what the label says. Watch wind and heat. Sweep granules off paving. Keep away from water and
          drains.
        </li>
        <li>
          Keep people and pets off for as long as the label says. Store products locked, dry, in their own
          bags.
        </li>
      </ul>
    </section>
  );
}
