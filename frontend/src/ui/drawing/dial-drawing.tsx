import { useId } from "preact/hooks";
import {
  angleOf,
  clicks,
  type DialScale,
  drawable,
  numeralSettings,
  onCircle,
  ringPath,
  tickSettings,
  wedgePath,
  widened,
} from "./dial-shape";
import { StripHatch } from "./strip-hatch";

const C = 110;
/** Where the teeth of the clicks begin; they point inward, the numerals stand outside. */
const RIM = 86;
const INNER = 62;
const HUB = 29;

interface DialDrawingProps extends DialScale {
  /** The setting the pointer stands at. */
  at?: number | undefined;
  /** The settings that are likely right, drawn as a hatched band. */
  range?: { low: number; high: number } | null | undefined;
  /** How a setting is written; the person's own way of writing numbers. */
  write?: (setting: number) => string;
}

type Write = (setting: number) => string;

/** A tooth for every click, a longer and heavier one where a numeral stands. */
function Teeth({ dial }: { dial: DialScale }) {
  const named = new Set(numeralSettings(dial));
  return (
    <g class="dial-ticks">
      {tickSettings(dial).map((setting) => {
        const long = named.has(setting);
        const angle = angleOf(dial, setting);
        const [x1, y1] = onCircle(C, C, RIM, angle);
        const [x2, y2] = onCircle(C, C, RIM - (long ? 11 : 6), angle);
        return <line key={setting} x1={x1} y1={y1} x2={x2} y2={y2} stroke-width={long ? 2.4 : 1.1} />;
      })}
    </g>
  );
}

function Numerals({ dial, write }: { dial: DialScale; write: Write }) {
  return (
    <g class="dial-numerals">
      {numeralSettings(dial).map((setting) => {
        const [x, y] = onCircle(C, C, RIM + 13, angleOf(dial, setting));
        return (
          <text key={setting} x={x} y={y + 4} text-anchor="middle">
            {write(setting)}
          </text>
        );
      })}
      <text class="dial-word" x={C - 34} y={C + 88} text-anchor="middle">
        shut
      </text>
      <text class="dial-word" x={C + 34} y={C + 88} text-anchor="middle">
        open
      </text>
    </g>
  );
}

/** The likely settings: hatched between two heavy strokes, with a heavy arc along the rim. */
function Range({
  dial,
  range,
  hatch,
}: {
  dial: DialScale;
  range: { low: number; high: number };
  hatch: string;
}) {
  const [low, high] = widened(dial, range);
  const [a, b] = [angleOf(dial, low), angleOf(dial, high)];
  const ends = [a, b].map((angle) => [onCircle(C, C, RIM + 1, angle), onCircle(C, C, INNER - 3, angle)]);
  return (
    <g class="dial-range">
      <path d={ringPath(C, RIM, INNER, a, b)} fill={`url(#${hatch})`} />
      {ends.map(([from, to]) => (
        <line key={`${from}`} x1={from?.[0]} y1={from?.[1]} x2={to?.[0]} y2={to?.[1]} />
      ))}
    </g>
  );
}

/** The knob with its needle; the setting stands in its middle. */
function Knob({ dial, at, write }: { dial: DialScale; at: number | undefined; write: Write }) {
  const grooves = Array.from({ length: 24 }, (_, k) => k * 15);
  return (
    <g class="dial-knob">
      {at === undefined ? null : <Needle angle={angleOf(dial, at)} />}
      <circle cx={C} cy={C} r={HUB} />
      {grooves.map((angle) => {
        const [x1, y1] = onCircle(C, C, HUB, angle);
        const [x2, y2] = onCircle(C, C, HUB - 4, angle);
        return <line key={angle} x1={x1} y1={y1} x2={x2} y2={y2} />;
      })}
      {at === undefined ? null : (
        <text x={C} y={C + 7} text-anchor="middle">
          {write(at)}
        </text>
      )}
    </g>
  );
}

function Needle({ angle }: { angle: number }) {
  const [x, y] = onCircle(C, C, RIM - 1, angle);
  const [lx, ly] = onCircle(C, C, HUB, angle - 24);
  const [rx, ry] = onCircle(C, C, HUB, angle + 24);
  return <path class="dial-needle" d={`M${lx} ${ly}L${x} ${y}L${rx} ${ry}Z`} />;
}

/**
 * A spreader's dial as it is: its own ends, a tooth for every click, the gate's opening as a line that grows heavier, the
 * pointer, and the likely range.
 */
export function DialDrawing({ at, range, write = String, ...dial }: DialDrawingProps) {
  const id = useId();
  if (!drawable(dial)) return null;
  const place = at === undefined ? "" : `, set to ${write(at)}`;
  const likely = range ? `, likely between ${write(range.low)} and ${write(range.high)}` : "";
  const title = `Dial from ${write(dial.lowest)} to ${write(dial.highest)}${place}${likely}`;
  const ends = `Shut at ${write(dial.lowest)}, fully open at ${write(dial.highest)}, ${clicks(dial)} clicks of ${dial.step}.`;
  return (
    <svg
      class="drawing dial-drawing"
      viewBox="0 0 220 206"
      role="img"
      aria-labelledby={`t${id}`}
      aria-describedby={`d${id}`}
    >
      <title id={`t${id}`}>{title}</title>
      <desc id={`d${id}`}>{ends}</desc>
      <defs>
        <StripHatch id={`h${id}`} gap={5} weight={1.6} line="hatch-flag" />
      </defs>
      <path
        class="dial-face"
        d={ringPath(C, RIM, INNER, angleOf(dial, dial.lowest), angleOf(dial, dial.highest))}
      />
      <path class="dial-gate" d={wedgePath(C, INNER - 4, 10)} />
      {range && <Range dial={dial} range={range} hatch={`h${id}`} />}
      <Teeth dial={dial} />
      <Numerals dial={dial} write={write} />
      <Knob dial={dial} at={at} write={write} />
    </svg>
  );
}
