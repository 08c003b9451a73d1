/** A chart on a canvas, by uPlot: drawn again where its room, the size of letters or the theme changes. */
import { useLayoutEffect, useRef } from "preact/hooks";
import UPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import "./plot.css";

/** What a canvas must be told, since no style reaches into it. */
export interface Ink {
  ink: string;
  soft: string;
  rule: string;
  paper: string;
  flag: string;
  /** Height of a letter, in pixels of the page. */
  letters: number;
  family: string;
}

export interface Plotted {
  options: Omit<UPlot.Options, "width" | "height">;
  data: UPlot.AlignedData;
}

interface PlotProps {
  /** What is said in its place; its figures stand in a table beside it. */
  label: string;
  /** Another function where anything it draws has changed. */
  make: (ink: Ink) => Plotted;
}

const SMALL = 0.75; // of the page's letters, as in other charts

function inkOf(host: HTMLElement): Ink {
  const style = getComputedStyle(host);
  const { color: ink, backgroundColor: paper, fontFamily: family } = style;
  const letters = (Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16) * SMALL;
  const token = (name: string) => style.getPropertyValue(name).trim() || ink;
  // A person's own colours are two; what is drawn is told apart by its lines in any case.
  if (matchMedia("(forced-colors: active)").matches)
    return { ink, soft: ink, rule: ink, flag: ink, paper, letters, family };
  return {
    ink,
    soft: token("--ink-2"),
    rule: token("--line"),
    flag: token("--flag-text"),
    paper,
    letters,
    family,
  };
}

/** Calls back where the theme changes: by the page's own choice, or the phone's. */
function whenColoursChange(again: () => void): () => void {
  const page = new MutationObserver(again);
  page.observe(document.documentElement, { attributes: true, attributeFilter: ["data-theme", "style"] });
  const phone = ["(prefers-color-scheme: dark)", "(forced-colors: active)"].map((one) => matchMedia(one));
  for (const one of phone) one.addEventListener("change", again);
  return () => {
    page.disconnect();
    for (const one of phone) one.removeEventListener("change", again);
  };
}

/** Draws into a box and follows it; returns what ends that. */
function draw(host: HTMLElement, make: PlotProps["make"]): () => void {
  let chart: UPlot | undefined;
  let drawn = "";
  function again(): void {
    const [width, height] = [host.clientWidth, host.clientHeight];
    const ink = inkOf(host);
    const now = JSON.stringify([width, height, ink]);
    if (!width || !height || now === drawn) return;
    drawn = now;
    chart?.destroy();
    const { options, data } = make(ink);
    chart = new UPlot({ ...options, width, height }, data, host);
  }
  const room = new ResizeObserver(again);
  room.observe(host);
  const ends = whenColoursChange(again);
  again();
  return () => {
    room.disconnect();
    ends();
    chart?.destroy();
  };
}

export function Plot({ label, make }: PlotProps) {
  const host = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => (host.current ? draw(host.current, make) : undefined), [make]);
  return <div class="plot" role="img" aria-label={label} ref={host} />;
}
