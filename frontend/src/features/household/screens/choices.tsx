import {
  session,
  setTheme,
  setUnits,
  switchHousehold,
  theme,
  units,
} from "../../../platform/session/session";
import { canSpeak, setSpeech, speech } from "../../../platform/session/speech";
import { CheckField, ChoiceField, orSay } from "../../../ui/parts";

/** What each person and each phone may choose for themselves. */
export function Choices() {
  const households = session.value?.households ?? [];
  return (
    <section class="section" aria-labelledby="choices">
      <h2 id="choices">Settings</h2>
      <ChoiceField
        label="Units"
        hint="Only for you. Others keep their own units."
        value={units.value}
        onInput={(choice) => void orSay(() => setUnits(choice))}
        choices={[
          { value: "us", label: "lb, ft², in" },
          { value: "metric", label: "kg, m², mm" },
        ]}
      />
      <ChoiceField
        label="Theme"
        hint="For this phone."
        value={theme.value}
        onInput={setTheme}
        choices={[
          { value: "light", label: "Light" },
          { value: "dusk", label: "Dusk" },
          { value: "system", label: "Same as phone" },
        ]}
      />
      {canSpeak() ? (
        <CheckField
          label="Speak dial and strip"
          hint="With this phone’s voice, while spreading is on the screen."
          checked={speech.on.value}
          onInput={setSpeech}
        />
      ) : null}
      {households.length > 1 ? (
        <ChoiceField
          label="Household"
          look="list"
          value={session.value?.household.id ?? ""}
          onInput={switchHousehold}
          choices={households.map(({ id, name }) => ({ value: id, label: name }))}
        />
      ) : null}
    </section>
  );
}
