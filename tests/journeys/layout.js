// Faults of layout that a machine can see, run inside the page under test. Each fault is a sentence.

const visible = (element) => element.checkVisibility({ visibilityProperty: true, opacityProperty: true });
const squeeze = (text) => text.replace(/\s+/g, " ").trim();
const named = (element) =>
  `<${element.localName}${element.className && typeof element.className === "string" ? ` .${element.className}` : ""}> ` +
  `"${squeeze(element.getAttribute("aria-label") ?? element.textContent ?? "").slice(0, 60)}"`;

const SLACK_PX = 1.5; // sub-pixel layout rounds either way

function root() {
  const modal = [...document.querySelectorAll("dialog")].filter((d) => d.matches(":modal"));
  return modal.length ? modal[modal.length - 1] : document.body;
}

/** Visually hidden text (for screen readers) has a box of a pixel or is clipped away whole. */
function forEyes(element) {
  const style = getComputedStyle(element);
  const box = element.getBoundingClientRect();
  return box.width > 2 && box.height > 2 && style.clipPath === "none" && style.clip === "auto";
}

function layerOf(element) {
  for (let at = element; at; at = at.parentElement) {
    const { position } = getComputedStyle(at);
    if (position === "fixed" || position === "sticky") return at;
  }
  return null;
}

function scrolls(element) {
  for (let at = element; at && at !== document.body; at = at.parentElement) {
    if (/auto|scroll/.test(getComputedStyle(at).overflowX) && at.scrollWidth > at.clientWidth) return true;
  }
  return false;
}

/** The page itself must not scroll sideways, nor anything stick out of it. */
function sideways() {
  const width = document.documentElement.clientWidth;
  const faults = [];
  if (document.documentElement.scrollWidth > width) {
    faults.push(`page scrolls sideways: ${document.documentElement.scrollWidth} px in ${width}`);
  }
  for (const element of root().querySelectorAll("*")) {
    if (!visible(element) || !forEyes(element) || scrolls(element) || element.closest("svg svg, svg > *")) continue;
    const box = element.getBoundingClientRect();
    if (box.right > width + SLACK_PX || box.left < -SLACK_PX) {
      faults.push(`${named(element)} spans ${box.left.toFixed(0)} to ${box.right.toFixed(0)} px of ${width}`);
    }
  }
  return faults;
}

/** Text wider or higher than the box that holds it is cut off or spills. */
function clipped() {
  const faults = [];
  for (const element of root().querySelectorAll("*")) {
    if (element.closest("svg") || !visible(element) || !forEyes(element)) continue;
    const own = [...element.childNodes].some((node) => node.nodeType === 3 && squeeze(node.data));
    if (!own || element.clientWidth === 0 || scrolls(element)) continue;
    if (element.scrollWidth > element.clientWidth + SLACK_PX) {
      faults.push(`text of ${named(element)} needs ${element.scrollWidth} px, has ${element.clientWidth}`);
    }
    const hides = /hidden|clip/.test(getComputedStyle(element).overflowY);
    if (hides && element.scrollHeight > element.clientHeight + SLACK_PX) {
      faults.push(`text of ${named(element)} is cut below: ${element.scrollHeight} px in ${element.clientHeight}`);
    }
  }
  return faults;
}

function texts() {
  const found = [];
  const walker = document.createTreeWalker(root(), NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const node = walker.currentNode;
    const parent = node.parentElement;
    if (!squeeze(node.data) || !parent || !visible(parent) || !forEyes(parent) || parent.closest("option")) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const layer = layerOf(parent);
    for (const box of range.getClientRects()) {
      if (box.width > 1 && box.height > 1) found.push({ box, layer, words: squeeze(node.data).slice(0, 40) });
    }
  }
  return found;
}

/** Two pieces of text of one layer must not lie upon each other (tight line heights touch a little). */
function overlapping() {
  const faults = [];
  const found = texts();
  for (let i = 0; i < found.length; i += 1) {
    for (let j = i + 1; j < found.length; j += 1) {
      const [a, b] = [found[i], found[j]];
      if (a.layer !== b.layer) continue;
      const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
      const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
      if (across > 2 && down > 0.35 * Math.min(a.box.height, b.box.height)) {
        faults.push(`"${a.words}" lies upon "${b.words}"`);
      }
    }
  }
  return faults;
}

const TAPPED = "button, a[href], input:not([type=hidden]), select, textarea, summary";

/** Each control, brought into view, must be what a finger at its middle meets. */
function covered() {
  const faults = [];
  for (const element of root().querySelectorAll(TAPPED)) {
    if (!visible(element) || element.disabled) continue;
    const target = element.matches("input[type=radio], input[type=checkbox]") ? (element.closest("label") ?? element) : element;
    if (!forEyes(target)) continue;
    target.scrollIntoView({ block: "center", behavior: "instant" });
    const box = target.getBoundingClientRect();
    const met = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
    if (met && (target.contains(met) || met.contains(target) && met.matches("label"))) continue;
    faults.push(`${named(target)} is covered by ${met ? named(met) : "nothing seen"}`);
  }
  window.scrollTo({ top: 0, behavior: "instant" });
  return faults;
}

/** Controls lower or narrower than a finger needs (links within running text are excepted). */
function small(least) {
  const faults = [];
  for (const element of root().querySelectorAll(TAPPED)) {
    if (!visible(element)) continue;
    const target = element.matches("input[type=radio], input[type=checkbox]") ? (element.closest("label") ?? element) : element;
    if (!forEyes(target) || (element.localName === "a" && element.closest("p, li > span"))) continue;
    const box = target.getBoundingClientRect();
    if (box.height < least - SLACK_PX) faults.push(`${named(target)} is ${box.height.toFixed(0)} px high, needs ${least}`);
  }
  return faults;
}

export function faults(least) {
  return [...sideways(), ...clipped(), ...overlapping(), ...small(least), ...covered()];
}
