import { session, setTheme, setUnits, switchHousehold, theme, units } from "../../models/session";
import { canSpeak, setSpeech, speech } from "../../models/speech";
import { CheckField, ChoiceField, orSay } from "../../parts";

/** What each person and each phone may choose for themselves. */
export function Choices() {
  const households = session.value?.households ?? [];
  return (
    <section class="section" aria-labelledby="choices">
      <h2 id="choices">Your choices</h2>
      <ChoiceField
        label="Units"
        hint="Yours alone: others see the same book in theirs. What was typed stays as typed."
        value={units.value}
        onInput={(choice) => void orSay(() => setUnits(choice))}
        choices={[
          { value: "us", label: "lb, ft², in" },
          { value: "metric", label: "kg, m², mm" },
        ]}
      />
      <ChoiceField
        label="Light"
        hint="For this phone."
        value={theme.value}
        onInput={setTheme}
        choices={[
          { value: "light", label: "Light" },
          { value: "dusk", label: "Dusk" },
          { value: "system", label: "As the phone" },
        ]}
      />
      {canSpeak() ? (
        <CheckField
          label="Say dial and strip aloud on a walk"
          hint="By this phone’s own voice, while the walk is on the screen."
          checked={speech.on.value}
          onInput={setSpeech}
        />
      ) : null}
      {households.length > 1 ? (
        <ChoiceField
          label="Book"
          look="list"
          value={session.value?.household.id ?? ""}
          onInput={switchHousehold}
          choices={households.map(({ id, name }) => ({ value: id, label: name }))}
        />
      ) : null}
    </section>
  );
}
