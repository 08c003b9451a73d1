/** Where every control of the page is now, to tell later whether it is still there and still the same. */
import type { Stood } from "../../records/rest";

const spot = (control: Element): string => {
  const { left, top, width, height } = control.getBoundingClientRect();
  const at = [left + scrollX, top + scrollY, width, height].map(Math.round);
  return `${at.join()} ${control.getAttribute("aria-label")} ${control.textContent}`;
};

export function whatStands(): Stood {
  const before = new Map([...document.querySelectorAll("a, button")].map((one) => [one, spot(one)]));
  return (control) => control instanceof Element && before.get(control) === spot(control);
}
