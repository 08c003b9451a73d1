/** The rules that hold, by what they are about, each with who says so and as of when. */
import { units } from "../../../../platform/session/session";
import { given } from "../../../../records/entries";
import { sayGrass } from "../../../../records/grasses";
import type { HeldRule, OwnRule, RulesValue } from "../../../../records/limits/rules";
import { Button } from "../../../../ui/parts";
import { type KindOfRule, kindOf } from "../../model/rules/fields";
import type { RuleStart } from "../../model/rules/own-rule";
import { isOwn } from "../../model/rules/rules";
import { type AnyRule, sayOrigin, sayRule } from "../../model/rules/words";

const GROUPS: Record<KindOfRule["group"], string> = {
  nitrogen: "Nitrogen",
  phosphate: "Phosphate",
  dates: "Dates and bans",
  ground: "Weather and water",
  between: "Days between jobs",
  lime: "Lime",
};

export type Open = (start: RuleStart) => void;

/** "Nitrogen in a year, Tall fescue". */
export function titleOf({ kind, grass }: AnyRule): string {
  const { title } = kindOf(kind);
  if (!grass) return title;
  return `${title}, ${grass === "unknown" ? "grass not known" : sayGrass(grass)}`;
}

export function HeldRules({ value, open }: { value: RulesValue; open: Open }) {
  const shown = value.rules.filter((rule) => !isOwn(rule));
  return (
    <>
      {Object.entries(GROUPS).map(([group, name]) => (
        <Group
          key={group}
          id={`rules-${group}`}
          name={name}
          rules={shown.filter(({ kind }) => kindOf(kind).group === group)}
          known={value.state === "known"}
          open={open}
        />
      ))}
    </>
  );
}

interface GroupProps {
  id: string;
  name: string;
  rules: readonly HeldRule[];
  known: boolean;
  open: Open;
}

function Group({ id, name, rules, known, open }: GroupProps) {
  if (!rules.length) return null;
  return (
    <section class="section" aria-labelledby={id}>
      <h2 id={id}>{name}</h2>
      <ul class="lines">
        {rules.map((rule) => (
          <Rule
            key={`${rule.id}${rule.sort ?? ""}${rule.from ?? ""}`}
            rule={rule}
            known={known}
            open={open}
          />
        ))}
      </ul>
    </section>
  );
}

function Rule({ rule, known, open }: { rule: HeldRule; known: boolean; open: Open }) {
  const title = titleOf(rule);
  return (
    <li class="line">
      <span class="line__main">
        <span class="line__title">{title}</span>
        <span>{sayRule(rule, units.value)}</span>
        {rule.assumed ? (
          <span>
            {known
              ? "Strictest of all. Enter yours to change it."
              : "Strictest of all. Choose your place to change it."}
          </span>
        ) : null}
        <span class="line__facts">{sayOrigin(rule)}</span>
        {rule.printed ? <span class="line__facts">“{rule.printed}”</span> : null}
      </span>
      <Button label={`Edit ${title}`} onClick={() => open({ kind: rule.kind, from: startFrom(rule) })}>
        Edit
      </Button>
    </li>
  );
}

/** What a form starts from: the rule's figures, and nothing of who printed it. */
function startFrom({ kind, ...rule }: HeldRule): OwnRule {
  const { id: _id, source: _source, date: _date, printed: _printed, assumed: _assumed, ...figures } = rule;
  return { kind, ...given(figures) };
}
