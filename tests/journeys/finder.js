// Runs inside the page under test, in every browser alike: finds things as a person with a screen
// reader would, by role and accessible name. Bundled by build_finder() in browsers.py.
import { computeAccessibleName, getRole, isInaccessible } from "dom-accessibility-api";

const squeeze = (text) => (text ?? "").replace(/\s+/g, " ").trim();

/** A wanted name or text is a plain string (equal), or {re, flags} (matches). */
function fits(text, wanted) {
  if (wanted === null || wanted === undefined) return true;
  const have = squeeze(text);
  if (typeof wanted === "string") return have === squeeze(wanted);
  return new RegExp(wanted.re, wanted.flags).test(have);
}

function contains(text, wanted) {
  if (typeof wanted === "string") return squeeze(text).includes(squeeze(wanted));
  return fits(text, wanted);
}

/** While a modal dialog is open everything outside it is inert: a person cannot reach it. */
function root() {
  const modal = [...document.querySelectorAll("dialog")].filter((d) => d.matches(":modal"));
  return modal.length ? modal[modal.length - 1] : document.documentElement;
}

const shown = (element) =>
  element.checkVisibility({ visibilityProperty: true, opacityProperty: false }) && !isInaccessible(element);

const SELECTORS = {
  button: "button, summary, input[type=submit], input[type=button], [role=button]",
  link: "a[href], [role=link]",
  textbox: "input, textarea, [role=textbox], [contenteditable]",
  combobox: "select, [role=combobox], input[list]",
  radio: "input[type=radio], [role=radio]",
  checkbox: "input[type=checkbox], [role=checkbox]",
  switch: "[role=switch]",
};

function roleOf(element) {
  if (element.localName === "summary") return "button";
  if (element.localName === "input" && ["password", "date", "time", "datetime-local"].includes(element.type)) {
    return "textbox"; // no role of their own by the standard; a person still types into them
  }
  return getRole(element);
}

function within(scope, role, name) {
  const found = [];
  for (const element of [scope, ...scope.querySelectorAll(SELECTORS[role] ?? "*")]) {
    if (roleOf(element) === role && shown(element) && fits(computeAccessibleName(element), name)) found.push(element);
  }
  return found;
}

/** Every reachable element of that role and name, in document order. `inside` narrows to a named group. */
export function all(role, name, inside) {
  let scopes = [root()];
  if (inside) scopes = within(root(), inside.role, inside.name);
  return scopes.flatMap((scope) => within(scope, role, name));
}

/** The n-th such element (0 unless told), or null. */
export function one(role, name, inside, nth) {
  return all(role, name, inside).at(nth ?? 0) ?? null;
}

/** The field a label names: anything typed into or picked from. */
export function field(label, inside) {
  for (const role of ["textbox", "spinbutton", "searchbox", "slider", "combobox"]) {
    const found = one(role, label, inside);
    if (found) return found;
  }
  return null;
}

/** The radio, checkbox or button called `option` in the group called `label`. */
export function option(label, wanted) {
  for (const group of ["radiogroup", "group", "region", "tablist"]) {
    for (const role of ["radio", "checkbox", "button", "tab"]) {
      const found = one(role, wanted, { role: group, name: label });
      if (found) return found;
    }
  }
  return null;
}

/** Is that text to be seen? The smallest element holding it must be visible. */
export function text(wanted) {
  const walk = (element) => {
    if (!contains(element.textContent, wanted)) return false;
    const below = [...element.children].some(walk);
    if (below) return true;
    const deeper = [...element.children].some((child) => contains(child.textContent, wanted));
    const style = element.localName === "script" || element.localName === "style";
    return !deeper && !style && element.checkVisibility({ visibilityProperty: true });
  };
  return walk(document.body);
}

/** What a person could reach now, for the message of a failed search. */
export function outline() {
  const lines = [];
  for (const element of root().querySelectorAll("a[href],button,input,select,textarea,summary,h1,h2,h3,[role],legend,output")) {
    if (!shown(element)) continue;
    const value = "value" in element && element.localName !== "button" ? ` = ${JSON.stringify(element.value)}` : "";
    lines.push(`${roleOf(element) ?? element.localName} "${squeeze(computeAccessibleName(element) || element.textContent).slice(0, 90)}"${value}`);
  }
  return `${location.pathname}\n${lines.join("\n")}`;
}

/** The message tied to a field as its description, and whether the field says it is wrong. */
export function complaint(label) {
  const element = field(label);
  if (!element) return null;
  const ids = (element.getAttribute("aria-describedby") ?? "").split(/\s+/).filter(Boolean);
  const words = ids.map((id) => document.getElementById(id)?.textContent ?? "").join(" ");
  return { invalid: element.getAttribute("aria-invalid") === "true", words: squeeze(words), value: element.value };
}

/** The words of the option wanted, when `element` is a select. */
export function optionWords(element, wanted) {
  if (element.localName !== "select") return null;
  const found = [...element.options].find((option) => fits(option.textContent, wanted));
  if (!found) throw new Error(`no such option among: ${[...element.options].map((o) => squeeze(o.textContent)).join(" | ")}`);
  return found.textContent;
}
