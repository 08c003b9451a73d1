import { useId } from "preact/hooks";
import { angleOf, type DialScale, drawable, numeralSettings, onCircle, tickSettings } from "./dial-shape";
import { StripHatch } from "./strip-hatch";

const C = 110;
const RIM = 84;

interface DialDrawingProps extends DialScale {
  /** The setting the pointer stands at. */
  at?: number;
  /** The settings that are likely right, drawn as a hatched band. */
  range?: { low: number; high: number };
  /** How a setting is written; the person's own way of writing numbers. */
  write?: (setting: number) => string;
}

/** Outline of a band of the rim between two settings. */
function band(dial: DialScale, low: number, high: number): string {
  const [a, b] = [angleOf(dial, low), angleOf(dial, high)];
  const wide = b - a > 180 ? 1 : 0;
  const [x1, y1] = onCircle(C, C, RIM - 3, a);
  const [x2, y2] = onCircle(C, C, RIM - 3, b);
  const [x3, y3] = onCircle(C, C, RIM - 24, b);
  const [x4, y4] = onCircle(C, C, RIM - 24, a);
  const [outer, inner] = [RIM - 3, RIM - 24];
  return `M${x1} ${y1}A${outer} ${outer} 0 ${wide} 1 ${x2} ${y2}L${x3} ${y3}A${inner} ${inner} 0 ${wide} 0 ${x4} ${y4}Z`;
}

function Ticks({ dial }: { dial: DialScale }) {
  const named = new Set(numeralSettings(dial));
  return (
    <g class="dial-ticks">
      {tickSettings(dial).map((setting) => {
        const long = named.has(setting);
        const angle = angleOf(dial, setting);
        const [x1, y1] = onCircle(C, C, RIM, angle);
        const [x2, y2] = onCircle(C, C, RIM + (long ? 9 : 5), angle);
        return <line key={setting} x1={x1} y1={y1} x2={x2} y2={y2} stroke-width={long ? 2 : 1} />;
      })}
    </g>
  );
}

function Numerals({ dial, write }: { dial: DialScale; write: (n: number) => string }) {
  return (
    <g class="dial-numerals">
      {numeralSettings(dial).map((setting) => {
        const [x, y] = onCircle(C, C, RIM + 18, angleOf(dial, setting));
        return (
          <text key={setting} x={x} y={y + 4} text-anchor="middle">
            {write(setting)}
          </text>
        );
      })}
    </g>
  );
}

function Pointer({ dial, at }: { dial: DialScale; at: number }) {
  const angle = angleOf(dial, at);
  const [x, y] = onCircle(C, C, RIM - 2, angle);
  const [lx, ly] = onCircle(C, C, 12, angle - 90);
  const [rx, ry] = onCircle(C, C, 12, angle + 90);
  return (
    <g class="dial-pointer">
      <path d={`M${lx} ${ly}L${x} ${y}L${rx} ${ry}Z`} />
      <circle cx={C} cy={C} r="14" />
    </g>
  );
}

/** A spreader's dial as it is: its own ends and clicks, the pointer, and the likely range. */
export function DialDrawing({ at, range, write = String, ...dial }: DialDrawingProps) {
  const id = useId();
  if (!drawable(dial)) return null;
  const place = at === undefined ? "" : `, set to ${write(at)}`;
  const likely = range ? `, likely between ${write(range.low)} and ${write(range.high)}` : "";
  const title = `Dial from ${write(dial.lowest)} to ${write(dial.highest)}${place}${likely}`;
  return (
    <svg class="drawing dial-drawing" viewBox="0 0 220 202" role="img" aria-labelledby={`t${id}`}>
      <title id={`t${id}`}>{title}</title>
      <defs>
        <StripHatch id={`h${id}`} gap={5} weight={1.6} line="hatch-flag" />
      </defs>
      <path class="dial-face" d={band(dial, dial.lowest, dial.highest)} />
      {range && <path class="dial-range" d={band(dial, range.low, range.high)} fill={`url(#h${id})`} />}
      <Ticks dial={dial} />
      <Numerals dial={dial} write={write} />
      {at !== undefined && <Pointer dial={dial} at={at} />}
    </svg>
  );
}
