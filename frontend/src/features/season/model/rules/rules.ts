/** Which rules hold in this yard, and what the household says of them: kept with it, so every phone knows. */
import { computed, type ReadonlySignal } from "@preact/signals";
import { type Recorded, record } from "../../../../forms/recorded";
import type { Store } from "../../../../platform/store/types";
import {
  type HeldRule,
  type OwnRule,
  type RulesGroup,
  rulesArgs,
  rulesOf,
} from "../../../../records/limits/rules";

export interface RulesParts {
  store: Store;
  session: ReadonlySignal<{ household: { id: string } } | null>;
}

/** Of these a yard may have several of its own; of any other kind one a grass. */
const SEVERAL: readonly string[] = ["closed", "summer_ban", "pesticide_ban"];

/** Whether a rule of one's own is about the same as another: then one of them is the other, edited. */
const sameRule = (one: OwnRule, other: OwnRule): boolean =>
  one.kind === other.kind && !SEVERAL.includes(one.kind) && (one.grass ?? "") === (other.grass ?? "");

/** The household's rules with one more, in the place of `at` and of one that is about the same. */
export function withOwn(rules: readonly OwnRule[], rule: OwnRule, at: number | undefined): OwnRule[] {
  const rest = rules.filter((one, where) => where !== at && !(sameRule(one, rule) || turnsOff(one, rule)));
  return [...rest, rule];
}

/** Turned off and entered cannot both be. */
const turnsOff = (one: OwnRule, rule: OwnRule): boolean =>
  one.kind === rule.kind && one.off !== rule.off && (one.grass ?? "") === (rule.grass ?? "");

export const isOwn = ({ source }: HeldRule): boolean => source === "entered by you";

export function createRules({ store, session }: RulesParts) {
  const id = computed(() => session.value?.household.id);
  const row = computed(() => (id.value ? store.row("household", id.value).value : undefined));
  const group = computed<RulesGroup>(() => rulesOf(row.value));
  const own = computed<readonly OwnRule[]>(() => group.value.own_rules ?? []);

  /** Taken back once it was sent, what stood there before is said again. */
  async function set(part: RulesGroup): Promise<Recorded | undefined> {
    if (!id.value) return undefined;
    const of = { t: "household", id: id.value };
    const before = group.peek();
    const rules = { ...before, ...part };
    if (!rules.rules_place) delete rules.rules_place;
    return record(store, [{ ...of, set: { rules } }], [{ ...of, set: { rules: before } }]);
  }

  return {
    loaded: computed(() => store.loaded("household").value && store.loaded("zone").value),
    place: computed(() => group.value.rules_place),
    own,
    args: computed(() => rulesArgs(row.value, store.rows("zone").value)),
    savePlace: (rules_place: string) => set({ rules_place }),
    saveOwn: (rule: OwnRule, at?: number) => set({ own_rules: withOwn(own.peek(), rule, at) }),
    removeOwn: (at: number) => set({ own_rules: own.peek().filter((_, where) => where !== at) }),
  };
}

export type RulesModel = ReturnType<typeof createRules>;
