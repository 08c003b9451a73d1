/** A limit in the person's units, rounded towards what is allowed: the number named is itself accepted. */
import { amountIn, type Quantity, type System, unitOf } from "./units";

const FIGURES = 4;

/** "at least 5.4 ft²": the smallest (or largest) number of four figures that is still inside. */
export function limit(si: number, quantity: Quantity, system: System, side: "low" | "high"): string {
  const chosen = unitOf(quantity, system);
  const exact = si / chosen.factor;
  const step = exact === 0 ? 1 : 10 ** (Math.floor(Math.log10(Math.abs(exact))) - FIGURES + 1);
  const steps = side === "low" ? Math.ceil(exact / step - 1e-9) : Math.floor(exact / step + 1e-9);
  const inside = Number((steps * step).toPrecision(FIGURES + 1));
  return `${amountIn(inside * chosen.factor, chosen.key)}\u00a0${chosen.label}`;
}
