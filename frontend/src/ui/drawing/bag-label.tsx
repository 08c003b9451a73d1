import { useId } from "preact/hooks";
import { StripHatch } from "./strip-hatch";

/** The places on a bag that a person copies numbers from. */
export type BagPlace = "name" | "analysis" | "slow" | "coverage" | "signal" | "net" | "remarks" | "price";

interface BagLabelProps {
  name?: string;
  /** As typed, unit and all: "44 lb". */
  net?: string;
  coverage?: string;
  n?: string;
  p2o5?: string;
  k2o?: string;
  slow?: string;
  /** The printed word, or nothing. */
  signal?: string;
  /** The place whose field has the focus. */
  focus?: BagPlace | undefined;
}

interface Spot {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** Where each thing usually stands on a bag's face (common practice). */
const SPOTS: Partial<Record<BagPlace, Spot>> = {
  name: { x: 34, y: 40, width: 172, height: 42 },
  analysis: { x: 34, y: 88, width: 172, height: 60 },
  slow: { x: 34, y: 152, width: 172, height: 22 },
  coverage: { x: 34, y: 178, width: 172, height: 40 },
  signal: { x: 34, y: 222, width: 82, height: 28 },
  remarks: { x: 122, y: 222, width: 84, height: 28 },
  net: { x: 34, y: 256, width: 172, height: 30 },
};

const UNKNOWN = "?";

/** A name in at most two lines that fit the bag. */
export function nameLines(name: string, wide = 19): string[] {
  const lines: string[] = [""];
  for (const word of name.trim().split(/\s+/)) {
    const last = lines.length - 1;
    const joined = lines[last] ? `${lines[last]} ${word}` : word;
    if (joined.length <= wide || !lines[last]) lines[last] = joined;
    else lines.push(word);
  }
  const shown = lines.slice(0, 2).map((line) => shorten(line, wide));
  return lines.length > 2 ? [shown[0] ?? "", shorten(`${shown[1]} …`, wide)] : shown;
}

function shorten(text: string, most: number): string {
  return text.length > most ? `${text.slice(0, most - 1)}…` : text;
}

function Bag() {
  const stitches = Array.from({ length: 18 }, (_, k) => 30 + k * 10.2);
  return (
    <g class="bag-body">
      <path d="M22 26C18 90 28 200 20 296Q120 304 220 296C212 200 222 90 218 26Z" />
      <path class="bag-seam" d="M20 12H220V26H20Z" />
      {stitches.map((x) => (
        <line key={x} class="bag-stitch" x1={x} x2={x + 5} y1="19" y2="19" />
      ))}
    </g>
  );
}

function Highlight({ spot, hatch }: { spot: Spot; hatch: string }) {
  const { x, y, width, height } = spot;
  return (
    <g class="bag-focus">
      <rect x={x - 4} y={y - 3} width={width + 8} height={height + 6} fill={`url(#${hatch})`} />
      <path d={`M${x - 30} ${y + height / 2 - 9}l20 9l-20 9Z`} />
    </g>
  );
}

function Analysis({ values }: { values: (string | undefined)[] }) {
  const names = ["N", "P₂O₅", "K₂O"];
  return (
    <g>
      {names.map((name, k) => (
        <g key={name}>
          <rect class="bag-box" x={38 + k * 56} y="90" width="52" height="38" />
          <text class="bag-figure" x={64 + k * 56} y="117" text-anchor="middle">
            {shorten(values[k] || UNKNOWN, 4)}
          </text>
          <text class="bag-small" x={64 + k * 56} y="142" text-anchor="middle">
            {name}
          </text>
        </g>
      ))}
    </g>
  );
}

/** Our own drawing of a bag: where each number stands, with what has been typed so far. */
export function BagLabel(props: BagLabelProps) {
  const id = useId();
  const { name = "", net, coverage, n, p2o5, k2o, slow, signal, focus } = props;
  const spot = focus && SPOTS[focus];
  const lines = nameLines(name || "Product name");
  const signalWord = signal && signal !== "none" ? signal.toUpperCase() : "";
  const title = `A bag: ${name || "blank"}, analysis ${[n, p2o5, k2o].map((v) => v || "unknown").join("-")}, covers ${coverage || "unknown"}, net weight ${net || "unknown"}`;
  return (
    <svg class="drawing bag-label" viewBox="0 0 240 308" role="img" aria-labelledby={`t${id}`}>
      <title id={`t${id}`}>{title}</title>
      <defs>
        <StripHatch id={`h${id}`} gap={6} weight={1.2} line="hatch-flag" />
      </defs>
      <Bag />
      {spot && <Highlight spot={spot} hatch={`h${id}`} />}
      {lines.map((line, k) => (
        <text
          key={line}
          class="bag-name"
          x="120"
          y={(lines.length > 1 ? 58 : 67) + k * 19}
          text-anchor="middle"
        >
          {line}
        </text>
      ))}
      <Analysis values={[n, p2o5, k2o]} />
      <text class="bag-small" x="120" y="168" text-anchor="middle">
        {slow ? `${slow} % of N slow-release` : "slow-release share: small print"}
      </text>
      <line class="bag-rule" x1="36" x2="204" y1="177" y2="177" />
      <text class="bag-small" x="120" y="192" text-anchor="middle">
        COVERS
      </text>
      <text class="bag-mid" x="120" y="212" text-anchor="middle">
        {shorten(coverage || UNKNOWN, 20)}
      </text>
      <rect class="bag-box" x="36" y="224" width="78" height="24" />
      <text class={signalWord ? "bag-word" : "bag-small"} x="75" y="241" text-anchor="middle">
        {signalWord || "signal word"}
      </text>
      {[230, 236, 242].map((y) => (
        <line key={y} class="bag-rule" x1="124" x2={y === 242 ? 180 : 204} y1={y} y2={y} />
      ))}
      <line class="bag-rule" x1="36" x2="204" y1="255" y2="255" />
      <text class="bag-mid" x="120" y="278" text-anchor="middle">
        {shorten(`NET WEIGHT ${net || UNKNOWN}`, 24)}
      </text>
    </svg>
  );
}
