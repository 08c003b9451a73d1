import { useId, useRef } from "preact/hooks";
import { GranuleFill } from "./strip-hatch";

export interface HopperShape {
  top_length_m: number;
  bottom_length_m: number;
  height_m: number;
}

interface HopperDrawingProps {
  /** Outline measures; a plain funnel is drawn where they are not known. */
  shape?: Partial<HopperShape> | undefined;
  /** Height of the product as a share of the hopper's height, 0 to 1. */
  level: number;
  /** Where the product should stand, the same way. */
  expected?: number | undefined;
  /** Given, the level can be dragged and moved by keys. */
  onLevel?: ((share: number) => void) | undefined;
  /** Says what the level is, for people who do not see the drawing. */
  label?: string;
}

const WIDTH = 240;
const TOP = 22;
const DEEP = 150;

const PLAIN: HopperShape = { top_length_m: 0.42, bottom_length_m: 0.14, height_m: 0.3 };

/** Half widths and depth on paper, one scale for both ways so that the drawing is true. */
function onPaper(shape: HopperShape): { top: number; bottom: number; deep: number } {
  const widest = Math.max(shape.top_length_m, shape.bottom_length_m);
  const scale = Math.min(DEEP / shape.height_m, (WIDTH - 40) / widest);
  return {
    top: (shape.top_length_m * scale) / 2,
    bottom: (shape.bottom_length_m * scale) / 2,
    deep: shape.height_m * scale,
  };
}

function known(shape: Partial<HopperShape> | undefined): HopperShape {
  const { top_length_m: top, bottom_length_m: bottom, height_m: height } = shape ?? {};
  return top && bottom && height ? { top_length_m: top, bottom_length_m: bottom, height_m: height } : PLAIN;
}

/** A share kept between empty and full. */
const between = (share: number) => Math.min(1, Math.max(0, share));

/** The hopper from the side, to scale, with its level and where the level should be. */
export function HopperDrawing({
  shape,
  level,
  expected,
  onLevel,
  label = "Level in the hopper",
}: HopperDrawingProps) {
  const id = useId();
  const svg = useRef<SVGSVGElement>(null);
  const paper = onPaper(known(shape));
  const mid = WIDTH / 2;
  const half = (share: number) => paper.bottom + (paper.top - paper.bottom) * share;
  const y = (share: number) => TOP + paper.deep * (1 - share);
  const at = between(level);
  const percent = Math.round(at * 100);
  const tall = TOP + paper.deep + 24;

  function drag(event: PointerEvent): void {
    const box = svg.current?.getBoundingClientRect();
    if (!box || !onLevel || (event.type === "pointermove" && event.buttons === 0)) return;
    const down = ((event.clientY - box.top) / box.height) * tall;
    onLevel(Math.round(between(1 - (down - TOP) / paper.deep) * 100) / 100);
  }

  return (
    <div class="hopper">
      <svg
        ref={svg}
        class={`drawing hopper-drawing${onLevel ? " is-live" : ""}`}
        viewBox={`0 0 ${WIDTH} ${tall}`}
        role="img"
        aria-labelledby={`t${id}`}
        onPointerDown={drag}
        onPointerMove={drag}
      >
        <title id={`t${id}`}>{`Hopper from the side, ${percent} percent of its height`}</title>
        <defs>
          <GranuleFill id={`g${id}`} />
        </defs>
        <path
          class="hopper-load"
          fill={`url(#g${id})`}
          d={`M${mid - half(at)} ${y(at)}H${mid + half(at)}L${mid + half(0)} ${y(0)}H${mid - half(0)}Z`}
        />
        <path
          class="hopper-wall"
          d={`M${mid - half(1) - 8} ${TOP}H${mid - half(1)}L${mid - half(0)} ${y(0)}H${mid + half(0)}L${mid + half(1)} ${TOP}h8`}
        />
        <path class="hopper-spout" d={`M${mid - 9} ${y(0)}v12h18v-12`} />
        <line class="hopper-level" x1={mid - half(at)} x2={mid + half(at)} y1={y(at)} y2={y(at)} />
        {expected !== undefined && <Expected y={y(between(expected))} />}
      </svg>
      {onLevel && (
        <label class="hopper-slide">
          <span>{label}</span>
          <input
            type="range"
            min="0"
            max="100"
            step="1"
            value={percent}
            aria-valuetext={`${percent} percent of the hopper's height`}
            onInput={(event) => onLevel(Number(event.currentTarget.value) / 100)}
          />
        </label>
      )}
    </div>
  );
}

/** The dashed line and flag where the product should stand. */
function Expected({ y }: { y: number }) {
  return (
    <g class="hopper-expected">
      <line x1="14" x2={WIDTH - 14} y1={y} y2={y} />
      <path d={`M14 ${y}l-12 -7v14Z`} />
    </g>
  );
}
