/** How large the letters of a drawing must be on its own paper, so that they grow with those of the page. */
import type { RefObject } from "preact";
import { useLayoutEffect, useState } from "preact/hooks";

/** Of the page's letters, as in other charts. */
const SMALL = 0.75;
/** Height of a letter on paper, where the page's are of the usual size and the paper is not enlarged. */
export const USUAL = 12;
/** Past this the numerals of a drawing would leave it no room. */
const MOST = 2.5;

function timesOf(svg: SVGSVGElement, wide: number): number {
  const page = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
  const enlarged = (svg.getBoundingClientRect().width || wide) / wide;
  const times = (page * SMALL) / (USUAL * enlarged);
  return Math.min(MOST, Math.max(1, times));
}

/** So many times the usual letters are written, on paper `wide` units wide; followed as room and letters change. */
export function useLetters(of: RefObject<SVGSVGElement>, wide: number): number {
  const [times, setTimes] = useState(1);
  useLayoutEffect(() => {
    const svg = of.current;
    if (!svg) return undefined;
    const again = () => setTimes(timesOf(svg, wide));
    again();
    const room = new ResizeObserver(again);
    room.observe(svg);
    const page = new MutationObserver(again);
    page.observe(document.documentElement, { attributes: true, attributeFilter: ["style"] });
    return () => {
      room.disconnect();
      page.disconnect();
    };
  }, [wide, of]);
  return times;
}
