/** The way from Season to its rules. */
import { Button } from "../../../../ui/parts";
import { rules } from "../../model";

export function RulesLink() {
  const said = rules.place.value !== undefined;
  return (
    <section class="section" aria-labelledby="rules-link">
      <h2 id="rules-link">Place and rules</h2>
      <p>
        {said
          ? "Limits and closed dates of your place."
          : "Your place is not known, so the strictest rules hold."}
      </p>
      <div>
        <Button href="/season/rules">{said ? "See the rules" : "Choose your place"}</Button>
      </div>
    </section>
  );
}
