import type { LeftForm } from "../../model/types";
import type { LeftField, ReadLeft } from "../../model/yard/left";

/** An empty field is not scolded while it waits to be filled; the button waits too. */
function typedIn(left: LeftForm, field: LeftField): boolean {
  const texts: Partial<Record<LeftField, string>> = {
    weight: left.weight.amount,
    level: left.level_share === null ? "" : "set",
    density: left.density.amount,
    in_bag: left.in_bag.amount,
    handfuls: left.handfuls,
    handful: left.handfuls,
    covered: left.covered,
    whole: left.whole === null ? "" : "said",
  };
  return (texts[field] ?? "x").trim() !== "";
}

/** What is wrong with a field, once something stands in it. */
export function wrongIn(left: LeftForm, read: ReadLeft | { ok: true } | undefined) {
  return (field: LeftField): string | undefined => {
    if (!read || read.ok || !("field" in read) || read.field !== field) return undefined;
    return typedIn(left, field) ? read.message : undefined;
  };
}
