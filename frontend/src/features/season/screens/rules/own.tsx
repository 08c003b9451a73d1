/** The household's own rules, and those it turned off. */
import { units } from "../../../../platform/session/session";
import type { OwnRule, RuleKind, RulesValue } from "../../../../records/limits/rules";
import { Button, orUndo } from "../../../../ui/parts";
import { rules } from "../../model";
import { isOwn } from "../../model/rules/rules";
import { sayAsOf, sayRule } from "../../model/rules/words";
import { type Open, titleOf } from "./held";

export function OwnRules({ value, open }: { value: RulesValue | undefined; open: Open }) {
  const own = rules.own.value;
  return (
    <section class="section" aria-labelledby="own-rules">
      <h2 id="own-rules">Entered by you</h2>
      {own.length ? (
        <ul class="lines">
          {own.map((rule, at) => (
            <Own key={`${rule.kind}${rule.grass ?? ""}${at}`} rule={rule} at={at} value={value} open={open} />
          ))}
        </ul>
      ) : (
        <p>No local rules yet. Add what your town, county or state says.</p>
      )}
      <div>
        <Button onClick={() => open({ kind: "" })}>Add a rule</Button>
      </div>
    </section>
  );
}

interface OwnProps {
  rule: OwnRule;
  at: number;
  value: RulesValue | undefined;
  open: Open;
}

function Own({ rule, at, value, open }: OwnProps) {
  const title = titleOf(rule);
  const remove = () => orUndo(async () => (await rules.removeOwn(at)) ?? {}, "Rule removed.");
  return (
    <li class="line">
      <div class="line__main">
        <span class="line__title">{title}</span>
        <span>
          {rule.off ? "Turned off. The printed rule does not hold here." : sayRule(rule, units.value)}
        </span>
        {isCapped(rule, value) ? <span>A stricter limit holds everywhere.</span> : null}
        <span class="line__facts">Entered by you, {sayAsOf(rule.date)}</span>
        {rule.printed ? <span class="line__facts">“{rule.printed}”</span> : null}
        <div class="row">
          {rule.off ? null : (
            <Button
              label={`Edit ${title}`}
              onClick={() => open({ kind: rule.kind as RuleKind, from: rule, at })}
            >
              Edit
            </Button>
          )}
          <Button label={`Remove ${title}`} onClick={remove}>
            Remove
          </Button>
        </div>
      </div>
    </li>
  );
}

/** Entered, but a limit that no place may pass is below it, so that one holds. */
function isCapped({ kind, grass, most_kg_m2 = 0 }: OwnRule, value: RulesValue | undefined): boolean {
  const same =
    value?.rules.filter((rule) => rule.kind === kind && (rule.grass ?? "") === (grass ?? "")) ?? [];
  return same.some((rule) => !isOwn(rule) && rule.most_kg_m2 !== null && rule.most_kg_m2 < most_kg_m2);
}
