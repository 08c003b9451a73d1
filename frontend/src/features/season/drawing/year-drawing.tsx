/** The year as it is drawn: a band a feeding group, months above, need, free nitrogen, bars and flags. */
import { useId } from "preact/hooks";
import { roundSteps } from "../../../ui/charts/chart-shape";
import { StripHatch } from "../../../ui/drawing";
import "./sheet.css";
import {
  area,
  type Band,
  clothAt,
  FLAG_WIDE,
  hatchOf,
  heightOf,
  LEFT,
  laidOut,
  type Measures,
  type PlacedBand,
  type PlacedFlag,
  type SheetValue,
  stepped,
  WEEK,
  weekAt,
} from "./sheet-shape";

const MONTHS = "JFMAMJJASOND";
/** A month that begins nearer to the end of the paper has no room for its name. */
const NAME_WEEKS = 2;

export interface YearDrawingProps {
  value: SheetValue;
  room: Measures;
  title: string;
  /** How a band, a month, a flag and an amount of nitrogen are said. */
  bandName: (band: Band) => string;
  flagLines: (flag: PlacedFlag) => readonly [string, string];
  write: (n_kg_m2: number) => string;
  /** How many kg/m2 one of the reader's unit is. */
  factor: number;
  unit: string;
  /** The step being moved, and how many weeks from where it stands. */
  moving?: { step: string; weeks: number } | undefined;
  /** Names are drawn on paper that does not scroll. */
  named?: boolean;
}

function Months({ value, high }: { value: SheetValue; high: number }) {
  const last = value.weeks.length - NAME_WEEKS;
  return (
    <g class="sheet-months">
      {value.months.map(({ month, week }) => (
        <g key={`${month}-${week}`}>
          <line x1={weekAt(week)} x2={weekAt(week)} y1={4} y2={high - 8} />
          {week > last ? null : (
            <text x={weekAt(week) + 4} y={17}>
              {MONTHS[month - 1]}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

function Today({ week, high }: { week: number | null; high: number }) {
  if (week === null) return null;
  return <line class="sheet-today" x1={weekAt(week)} x2={weekAt(week)} y1={0} y2={high - 4} />;
}

interface PlotProps {
  placed: PlacedBand;
  props: YearDrawingProps;
  id: string;
  wide: number;
}

function Plot({ placed: { band, plotTop, plotBottom }, props, id, wide }: PlotProps) {
  const { value, factor, write } = props;
  const y = heightOf(value.top_n_kg_m2, plotTop, plotBottom);
  return (
    <g>
      {roundSteps(value.top_n_kg_m2, factor, 2).map((at) => (
        <g key={at} class="sheet-rule">
          <line x1={LEFT} x2={wide} y1={y(at)} y2={y(at)} />
          <text x={LEFT - 5} y={y(at) + 4} text-anchor="end">
            {write(at)}
          </text>
        </g>
      ))}
      {band.free_n_kg_m2 ? (
        <path class="sheet-free" d={area(band.free_n_kg_m2, y)} fill={`url(#free${id})`} />
      ) : null}
      {band.bars.map((bar) => (
        <rect
          key={`${bar.date}-${bar.step}-${bar.product}-${bar.under_n_kg_m2}`}
          class={bar.step ? "sheet-bar sheet-bar--planned" : "sheet-bar"}
          x={weekAt(bar.week) + 3}
          width={WEEK - 6}
          y={y(bar.under_n_kg_m2 + bar.n_kg_m2)}
          height={y(bar.under_n_kg_m2) - y(bar.under_n_kg_m2 + bar.n_kg_m2)}
          fill={`url(#p${value.products.indexOf(bar.product ?? "")}${id})`}
        />
      ))}
      {band.need_n_kg_m2 ? <path class="sheet-need" d={stepped(band.need_n_kg_m2, y)} /> : null}
      <line class="sheet-ground" x1={LEFT} x2={wide} y1={plotBottom} y2={plotBottom} />
    </g>
  );
}

interface FlagMarkProps {
  flag: PlacedFlag;
  top: number;
  foot: number;
  high: number;
  lines: readonly [string, string];
  /** Weeks from where it stands; its words are said elsewhere while it is moved. */
  moved?: number | undefined;
  wide: number;
}

function FlagMark({ flag, top, foot, high, lines, moved, wide }: FlagMarkProps) {
  const week = flag.week + (moved ?? 0);
  const [x, left] = [weekAt(week), clothAt(week, wide)];
  const look = ["sheet-flag", `sheet-flag--${flag.state}`, moved !== undefined && "sheet-flag--moving"];
  return (
    <g class={look.filter(Boolean).join(" ")}>
      <line x1={x} x2={x} y1={top + 2} y2={foot} />
      <rect x={left} y={top + 2} width={FLAG_WIDE} height={high - 6} />
      {moved === undefined ? (
        <text x={left + 6} y={top + high / 2 - 3}>
          {lines[0]}
          <tspan x={left + 6} dy="14">
            {lines[1]}
          </tspan>
        </text>
      ) : null}
    </g>
  );
}

export function YearDrawing(props: YearDrawingProps) {
  const { value, room, title, bandName, flagLines, moving, named } = props;
  const id = useId();
  const { wide, high, bands } = laidOut(value, room);
  return (
    <svg class="drawing year-drawing" viewBox={`0 0 ${wide} ${high}`} role="img" aria-labelledby={`t${id}`}>
      <title id={`t${id}`}>{title}</title>
      <defs>
        <StripHatch id={`free${id}`} angle={90} gap={9} weight={0.9} />
        <pattern id={`p-1${id}`} width="6" height="6" patternUnits="userSpaceOnUse">
          <circle class="granule" cx="3" cy="3" r="1.3" />
        </pattern>
        {value.products.map((product, at) => (
          <StripHatch key={product} id={`p${at}${id}`} line="sheet-hatch" {...hatchOf(at)} />
        ))}
      </defs>
      <Months value={value} high={high} />
      <Today week={value.today_week} high={high} />
      {bands.map((placed) => (
        <g key={placed.band.group}>
          {named ? (
            <text class="sheet-name" x={4} y={placed.top + 13}>
              {bandName(placed.band)}
            </text>
          ) : null}
          <Plot placed={placed} props={props} id={id} wide={wide} />
          {placed.flags.map((flag) => (
            <FlagMark
              key={flag.step}
              flag={flag}
              top={placed.top + room.name + flag.lane * room.flag}
              foot={placed.plotBottom}
              high={room.flag}
              lines={flagLines(flag)}
              moved={moving?.step === flag.step ? moving.weeks : undefined}
              wide={wide}
            />
          ))}
        </g>
      ))}
    </svg>
  );
}

/** What each mark means, and each product's hatching. */
export function YearLegend({ products, unit }: { products: readonly string[]; unit: string }) {
  const id = useId();
  return (
    <ul class="sheet-legend" aria-label={`What is drawn, nitrogen in ${unit}`}>
      <Key says="Needed">
        <path class="sheet-need" d="M1 15H8V6H14V12H21" />
      </Key>
      <Key says="Available">
        <StripHatch id={`lf${id}`} angle={90} gap={6} weight={0.9} />
        <path class="sheet-free" d="M1 20V12H8V5H14V10H21V20Z" fill={`url(#lf${id})`} />
      </Key>
      <Key says="Today">
        <line class="sheet-today" x1="11" x2="11" y1="1" y2="21" />
      </Key>
      {products.map((name, at) => (
        <Key key={name} says={`Put down: ${name}`}>
          <StripHatch id={`l${at}${id}`} line="sheet-hatch" {...hatchOf(at)} />
          <rect class="sheet-bar" x="4" y="2" width="14" height="18" fill={`url(#l${at}${id})`} />
        </Key>
      ))}
    </ul>
  );
}

function Key({ says, children }: { says: string; children: preact.ComponentChildren }) {
  return (
    <li>
      <svg class="mark-swatch" width="22" height="22" viewBox="0 0 22 22" aria-hidden="true">
        {children}
      </svg>
      {says}
    </li>
  );
}
