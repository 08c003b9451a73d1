import { useId } from "preact/hooks";
import { StripHatch } from "../../../ui/drawing/strip-hatch";
import "./narrowing.css";

interface Band {
  low: number;
  mid: number;
  high: number;
}

interface NarrowingProps {
  /** Before; null where nothing was known. */
  before: Band | null;
  after: Band;
  /** How a figure is written. */
  write: (value: number) => string;
}

const WIDE = 320;
const LEFT = 58;
const RIGHT = 10;
const ROW = 30;

/** What was likely before and what is now, as two bars on one scale from nothing up: the shorter the better known. */
export function Narrowing({ before, after, write }: NarrowingProps) {
  const id = useId();
  const most = Math.max(after.high, before?.high ?? 0);
  if (!(most > 0)) return null;
  const at = (value: number) => LEFT + (value / most) * (WIDE - LEFT - RIGHT);
  const say = ({ low, high }: Band) => `between ${write(low)} and ${write(high)}`;
  const title = `Likely ${before ? `before ${say(before)}, ` : ""}now ${say(after)}`;
  return (
    <svg class="drawing narrowing" viewBox={`0 0 ${WIDE} 84`} role="img" aria-labelledby={`t${id}`}>
      <title id={`t${id}`}>{title}</title>
      <defs>
        <StripHatch id={`h${id}`} gap={6} weight={1.2} />
      </defs>
      <path class="narrowing__rule" d={`M${LEFT} 4V66H${WIDE - RIGHT}`} />
      {before ? <Bar band={before} y={10} at={at} name="Before" fill={`url(#h${id})`} /> : null}
      <Bar band={after} y={10 + ROW} at={at} name="Now" />
      <text class="narrowing__end" x={LEFT} y="80">
        0
      </text>
      <text class="narrowing__end" x={WIDE - RIGHT} y="80" text-anchor="end">
        {write(most)}
      </text>
    </svg>
  );
}

interface BarProps {
  band: Band;
  y: number;
  at: (value: number) => number;
  name: string;
  fill?: string;
}

function Bar({ band, y, at, name, fill }: BarProps) {
  const [low, mid, high] = [at(band.low), at(band.mid), at(band.high)];
  return (
    <g class={fill ? "narrowing__then" : "narrowing__now"}>
      <text x={LEFT - 8} y={y + 14} text-anchor="end">
        {name}
      </text>
      <rect x={low} y={y} width={Math.max(1, high - low)} height="20" fill={fill} />
      <path d={`M${mid} ${y - 3}V${y + 23}`} />
    </g>
  );
}
